import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { asDate } from '../../shared/week.ts';
import type { RecipeStage } from '../../src/preserving/recipe-stages.ts';
import {
  beginBetween,
  cannerFrom,
  hoursWords,
  type LocalDateTime,
  localDateTime,
  type NextStage,
  nextStages,
  stagesRuling,
} from '../../src/preserving/stages-done.ts';
import type { FormKeys } from '../../views/parts/form.tsx';
import type { StagedBatch, StagedRecipe, StageStep, StagesProps } from '../../views/parts/stages.tsx';
import { formatQuantity, formatTimeOfDay, formatWeekday } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { Recipe } from '../queries/recipes.ts';
import type { RecipeBatches } from '../queries/stages.ts';
import { type Preparations, standingBatches } from '../year/preparations.ts';
import { stagesHere } from '../year/recipe-stages.ts';

export interface StagesPicture {
  readonly recipes: readonly Recipe[];
  readonly preparations: Preparations;
  readonly reference: ReferenceTables;
  readonly timeZone: string;
  readonly now: number;
  readonly reading: Reading;
  readonly keys: () => FormKeys;
}

/** When jars of a recipe are to be filled, as far as planned. */
export interface StagedWork {
  readonly recipeId: string;
  /** Null: any number. */
  readonly batches: number | null;
  readonly fillAt: LocalDateTime | null;
}

/** `Sat, Aug 22, 9:00 AM` */
const localWords = (time: LocalDateTime, reading: Reading): string => {
  const [hour = 0, minute = 0] = time.slice(11).split(':').map(Number);
  return `${formatWeekday(asDate(time.slice(0, 10)), reading)}, ${formatTimeOfDay(hour * 60 + minute, reading)}`;
};

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
      return [
        {
          key: recipe.id,
          name: recipe.name,
          beginBy: asked === undefined || missing <= 0 ? null : beginWords(stages, asked, picture),
          batches: standing.map((batch) => presentBatch(batch, stages, picture)),
          first:
            missing <= 0
              ? []
              : nextStages(stages, [])
                  .filter(({ isLast }) => !isLast)
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

function presentBatch(
  batch: RecipeBatches,
  stages: readonly RecipeStage[],
  { reading, timeZone, now, keys, ...rest }: StagesPicture,
): StagedBatch {
  const clock = localDateTime(now, timeZone);
  const ruling = stagesRuling(stages, batch.begun, clock, timeZone);
  const picture = { reading, timeZone, now, keys, ...rest };
  const whatOf = (position: number, way: string | null) =>
    stages.find((stage) => stage.position === position && (stage.way === null || stage.way === way))?.what;
  const isTooLong = !ruling.ok && ruling.problems.some(({ code }) => code === 'stage-too-long');
  return {
    key: batch.id,
    title: `${formatQuantity(batch.batches, 'batch', reading)}, begun ${localWords(batch.begun[0]?.begunAt ?? clock, reading)}`,
    done: batch.begun.map(
      ({ position, way, begunAt }) =>
        `${localWords(begunAt, reading)}: ${whatOf(position, way) ?? `stage ${position}`}${way === null ? '' : ` (${way})`}`,
    ),
    canner: ruling.ok
      ? 'It may go into the canner now.'
      : isTooLong
        ? ruling.problems.map(({ message }) => message).join(' ')
        : `It may go into the canner from ${localWords(cannerFrom(stages, batch.begun, clock, timeZone), reading)} at the earliest.`,
    next: nextStages(stages, batch.begun, timeZone).map((next) =>
      presentStep(next, picture, { action: `/stages/${batch.id}`, carried: [], batches: null }),
    ),
    takeBack: { action: `/stages/${batch.id}/take-back`, keys: keys() },
    throwAway: { action: `/stages/${batch.id}/thrown-away`, keys: keys() },
  };
}

function presentStep(
  { stage, from, until, isLast }: NextStage,
  { reading, timeZone, now, keys }: StagesPicture,
  form: Pick<StageStep, 'action' | 'carried' | 'batches'>,
): StageStep {
  const clock = localDateTime(now, timeZone);
  return {
    key: `${form.action}-${form.carried[0]?.value ?? ''}-${stage.position}-${stage.way ?? 'way'}`,
    what: stage.what,
    wait: isLast ? '' : `${stage.way === null ? '' : `${stage.way}: `}${waitWords(stage)}`,
    when:
      from === ''
        ? null
        : `${from > clock ? 'Not before' : 'Since'} ${localWords(from, reading)}${until === null ? '' : `, by ${localWords(until, reading)} at the latest`}.`,
    isOpen: from <= clock,
    action: form.action,
    keys: keys(),
    carried: [
      ...form.carried,
      { name: 'position', value: String(stage.position) },
      { name: 'way', value: stage.way ?? '' },
    ],
    batches: form.batches,
  };
}

const placeWords: Readonly<Record<RecipeStage['place'], string>> = {
  crock: 'in the crock or a bowl',
  refrigerator: 'in the refrigerator',
  counter: 'on the counter',
  freezer: 'in the freezer',
  pot: 'in the pot',
  jar: 'in the jar',
  none: '',
};

/** `21 to 28 days in the crock or a bowl` */
const waitWords = (stage: RecipeStage): string => {
  const { leastHours, mostHours } = stage;
  const least = hoursWords(leastHours, stage);
  const long =
    mostHours === null
      ? leastHours === 0
        ? 'as long as it keeps'
        : `${least} or longer`
      : mostHours === leastHours
        ? least
        : leastHours === 0
          ? `up to ${hoursWords(mostHours, stage)}`
          : `${least} to ${hoursWords(mostHours, stage)}`;
  return [long, placeWords[stage.place]].filter((words) => words !== '').join(' ');
};

function beginWords(
  stages: readonly RecipeStage[],
  { fillAt }: StagedWork,
  { reading, timeZone, now }: StagesPicture,
): string | null {
  const clock = localDateTime(now, timeZone);
  const earliest = cannerFrom(stages, [], clock, timeZone);
  if (fillAt === null || earliest > fillAt)
    return `Begun now, it may go into the canner from ${localWords(earliest, reading)} at the earliest.`;
  const { from, until } = beginBetween(stages, fillAt, undefined, timeZone);
  return `To fill jars on ${localWords(fillAt, reading)}, begin it ${from === null ? '' : `between ${localWords(from, reading)} and `}${from === null ? 'by ' : ''}${localWords(until, reading)}.`;
}
