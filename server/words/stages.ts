import { whileTheSame } from '../../shared/remembering.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { type CalendarDate, dateInZone } from '../../shared/week.ts';
import type { Preparations, RecipeBatches } from '../../src/household/begun.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import type { BatchDays } from '../../src/planning/days/batch-days.ts';
import { dayLines } from '../../src/planning/days/day-lines.ts';
import {
  type BatchAsked,
  type BatchCalendar,
  batchCalendar,
  wayFollowed,
} from '../../src/preserving/stages/batch-calendar.ts';
import { type RecipeStage, waysOf } from '../../src/preserving/stages/recipe-stages.ts';
import { localDateTime, nextStages, stagesRuling } from '../../src/preserving/stages/stages-done.ts';
import { stagesHere } from '../../src/preserving/stages/stages-here.ts';
import { standingBatches } from '../../src/preserving/stages/standing-batches.ts';
import type { FormKeys } from '../../views/parts/form.tsx';
import type { StagedBatch, StagedRecipe, StagesProps } from '../../views/parts/stages.tsx';
import { formatDay, formatQuantity, formatWeekday } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { heldBackWords, taskText } from './batch-days.ts';
import { localWords, presentStep } from './stage-step.ts';

export interface StagesPicture {
  readonly recipes: readonly Recipe[];
  readonly preparations: Preparations;
  /** The days of all batches, planned and begun. */
  readonly batches: readonly BatchDays[];
  readonly reference: ReferenceTables;
  readonly timeZone: string;
  readonly now: number;
  readonly reading: Reading;
  readonly keys: () => FormKeys;
}

/** A recipe shown, and what of it. */
export interface StagedWork {
  readonly recipeId: string;
  /** Null: any number. */
  readonly batches: number | null;
  /** The canning day it is for; null where none is named. */
  readonly on: CalendarDate | null;
}

/** The staged recipes of some work, and every batch begun that still stands. */
export function presentStages(
  picture: StagesPicture,
  work: readonly StagedWork[],
  from: string,
  problem: string | null = null,
): StagesProps {
  const wanted = new Map(work.map((one) => [one.recipeId, one]));
  return {
    from,
    problem,
    recipes: picture.recipes.flatMap((recipe): StagedRecipe[] => {
      const stages = stagesHere(recipe, picture.reference);
      const standing = standingBatches(picture.preparations, recipe.id);
      const asked = wanted.get(recipe.id);
      if (stages.length === 0 || (standing.length === 0 && asked === undefined)) return [];
      const begun = standing.reduce((sum, { batches }) => sum + batches, 0);
      const missing = asked === undefined ? 0 : asked.batches === null ? 1 : asked.batches - begun;
      const way = wayFollowed(stages, recipe.way?.way ?? null);
      const own = picture.batches.filter(
        (batch) =>
          batch.recipe.id === recipe.id &&
          batch.calendar.state !== 'one go' &&
          (asked?.on == null || batch.plannedOn === asked.on || batch.begunId !== null),
      );
      return [
        {
          key: recipe.id,
          name: recipe.name,
          beginBy: missing <= 0 ? null : soonestWords(stages, recipe, picture),
          ways: presentWays(recipe, stages, way, picture),
          calendars: own.map((batch) => presentCalendar(batch, picture)),
          batches: standing.map((batch) => presentBatch(batch, stages, picture)),
          first:
            missing <= 0
              ? []
              : nextStages(stages, [])
                  .filter(({ isLast, stage }) => !isLast && (stage.way === null || stage.way === way))
                  .map((next) =>
                    presentStep(next, picture, {
                      action: '/stages',
                      carried: [{ name: 'recipe', value: recipe.id }],
                      batches: String(missing),
                    }),
                  ),
        },
      ];
    }),
  };
}

/** The printed ways to choose from; null where only one is printed. */
const presentWays = (
  recipe: Recipe,
  stages: readonly RecipeStage[],
  followed: string | null,
  { reading, timeZone, keys }: StagesPicture,
): StagedRecipe['ways'] => {
  const ways = waysOf(stages).filter((way) => way !== null);
  if (ways.length === 0) return null;
  const chosen = recipe.way?.way === followed ? recipe.way : null;
  return {
    followed: followed ?? '',
    isChosen: chosen !== null,
    since:
      chosen === null
        ? 'not chosen yet; it is the first one printed'
        : `chosen ${chosen.by === null ? '' : `by ${chosen.by} `}on ${formatDay(dateInZone(chosen.at, timeZone), reading)}`,
    others: ways.filter((way) => way !== followed),
    recipe: recipe.id,
    keys: keys(),
  };
};

const presentCalendar = (
  batch: BatchDays,
  { reference, reading }: StagesPicture,
): StagedRecipe['calendars'][number] => {
  const { calendar, plannedOn, batches } = batch;
  const on = calendar.load?.on ?? plannedOn;
  return {
    key: batch.key,
    title: `${formatQuantity(batches, 'batch', reading)}${on === null ? '' : `, to can on ${formatWeekday(on, reading)}`}`,
    heldBack: heldBackWords(batch, reading),
    lines: dayLines([{ ...batch, sealsOn: null }]).map((line) => ({
      key: line.key,
      words: taskText(line, reference, reading),
      isDone: line.kind === 'stage' && line.day.state === 'done',
    })),
  };
};

function presentBatch(
  batch: RecipeBatches,
  stages: readonly RecipeStage[],
  { reading, timeZone, now, keys }: StagesPicture,
): StagedBatch {
  const clock = localDateTime(now, timeZone);
  const ruling = stagesRuling(stages, batch.begun, clock, timeZone);
  const whatOf = (position: number, way: string | null) =>
    stages.find((stage) => stage.position === position && (stage.way === null || stage.way === way))?.what;
  const { fill } = calendarAt(stages, batch.begun, null, { now, timeZone });
  return {
    key: batch.id,
    title: `${formatQuantity(batch.batches, 'batch', reading)}, begun ${localWords(batch.begun[0]?.begunAt ?? clock, reading)}`,
    done: batch.begun.map(
      ({ position, way, begunAt }) =>
        `${localWords(begunAt, reading)}: ${whatOf(position, way) ?? `stage ${position}`}${way === null ? '' : ` (${way})`}`,
    ),
    canner: ruling.ok
      ? 'It may go into the canner now.'
      : fill === null
        ? ruling.problems.map(({ message }) => message).join(' ')
        : `It may go into the canner from ${localWords(fill.from, reading)} at the earliest.`,
    next: nextStages(stages, batch.begun, timeZone).map((next) =>
      presentStep(
        next,
        { reading, timeZone, now, keys },
        { action: `/stages/${batch.id}`, carried: [], batches: null },
      ),
    ),
    takeBack: { action: `/stages/${batch.id}/take-back`, keys: keys() },
    throwAway: { action: `/stages/${batch.id}/thrown-away`, keys: keys() },
  };
}

const calendarAt = (
  stages: readonly RecipeStage[],
  begun: RecipeBatches['begun'],
  way: string | null,
  { now, timeZone }: Pick<StagesPicture, 'now' | 'timeZone'>,
): BatchCalendar =>
  batchCalendar({
    stages,
    way,
    begun,
    load: null,
    asOf: dateInZone(now, timeZone),
    now: localDateTime(now, timeZone),
    timeZone,
  });

const soonestFill = whileTheSame(
  'stages',
  (asked: Pick<BatchAsked, 'stages' | 'way' | 'asOf' | 'now' | 'timeZone'>) =>
    batchCalendar({ ...asked, begun: [], load: null }).fill,
);

/** When jars could be filled if it is begun now. */
function soonestWords(
  stages: readonly RecipeStage[],
  { way }: Recipe,
  picture: StagesPicture,
): string | null {
  const { now, timeZone } = picture;
  const fill = soonestFill({
    stages,
    way: way?.way ?? null,
    asOf: dateInZone(now, timeZone),
    now: localDateTime(now, timeZone),
    timeZone,
  });
  return fill === null
    ? null
    : `If you begin now, it can go into the canner on ${localWords(fill.from, picture.reading)} at the earliest.`;
}
