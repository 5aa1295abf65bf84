import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import {
  addDays,
  asDate,
  type CalendarDate,
  dayInWeek,
  daysBetween,
  placeInWeek,
  type WeekKey,
  type WeekStart,
  weekHolding,
} from '../../../shared/week.ts';
import type { Preparations, PreparedBatches } from '../../household/begun.ts';
import type { DateSpan } from '../../household/kitchen.ts';
import type { Recipe } from '../../household/recipe.ts';
import { type BatchAsked, batchCalendar, wayFollowed } from '../../preserving/stages/batch-calendar.ts';
import { leastHoursBefore, type RecipeStage, stagesOfWay } from '../../preserving/stages/recipe-stages.ts';
import { stagesHere } from '../../preserving/stages/stages-here.ts';
import { standingBatches } from '../../preserving/stages/standing-batches.ts';
import { entry } from '../lookup.ts';
import type { BegunBatches, PlannedStages } from '../planning-year.ts';

/** What the days before a load depend on. */
export interface StageKitchen {
  readonly weeks: readonly WeekKey[];
  readonly asOf: CalendarDate;
  /** The household's usual canning day, 1 Monday to 7 Sunday. */
  readonly sessionWeekday: number;
  readonly weekStartsOn: WeekStart;
  readonly away: readonly DateSpan[];
  readonly reference: ReferenceTables;
}

/** When jars are filled on a day that does not say it. */
const usualFilling = '09:00';
/** A Monday far from any change of clocks; what is worked out for its week holds for every week. */
const anyMonday = asDate('2026-06-01');
const longBefore = addDays(anyMonday, -400);
const hoursPerDay = 24;

/** The way that is followed where a household's recipe is printed in several. */
const wayOf = (recipe: Recipe, stages: readonly RecipeStage[]): string | null =>
  wayFollowed(stages, recipe.way?.way ?? null);

const asked = (recipe: Recipe, stages: readonly RecipeStage[], timeZone: string) =>
  ({ stages, way: wayOf(recipe, stages), timeZone }) satisfies Partial<BatchAsked>;

/**
 * The stages of a recipe as the planner takes them, the load on the usual canning day: on which days before it something is
 * done, in the time each stage needs and in hours at which somebody is up; undefined for what is made in one go. A recipe
 * that is not canned has no load: it stands in the plan in the week in which it is begun.
 */
export function plannedStages(recipe: Recipe, kitchen: StageKitchen): PlannedStages | undefined {
  const stages = recipe.process === null ? [] : stagesHere(recipe, kitchen.reference);
  if (stages.length === 0) return undefined;
  const { sessionWeekday, weekStartsOn, weeks, asOf, away } = kitchen;
  const loadDay = addDays(anyMonday, sessionWeekday - 1);
  const place = placeInWeek(sessionWeekday, weekStartsOn);
  const { before } = batchCalendar({
    ...asked(recipe, stages, 'utc'),
    begun: [],
    load: { on: loadDay, at: usualFilling },
    asOf: longBefore,
  });
  const path = stagesOfWay(stages, wayOf(recipe, stages));
  const leastDays = Math.ceil(leastHoursBefore(stages) / hoursPerDay);
  const daysBefore = path.map((stage, at) => {
    const day = before.find((one) => one.stage === stage);
    if (day !== undefined) return daysBetween(day.on, loadDay);
    return at === 0 && before.length === 0 ? leastDays : 0;
  });
  const earliest = Math.max(...daysBefore);
  const weekBefore = (days: number) => Math.max(0, Math.ceil((days - place) / 7));
  const stageWeeks = weekBefore(earliest);
  const minutes = minutesByStage(recipe, path);
  return {
    weeks: stageWeeks,
    daysFromMonday: ((((place - earliest) % 7) + 7) % 7) - (weekStartsOn === 'sunday' ? 1 : 0),
    handsOnByWeek: Array.from({ length: stageWeeks + 1 }, (_, week) =>
      daysBefore.reduce(
        (sum, days, at) =>
          stageWeeks - weekBefore(days) === week ? sum + entry(minutes, at, 'minutes') : sum,
        0,
      ),
    ),
    possibleByWeek: weeks.map((week) => {
      const load = dayInWeek(week, sessionWeekday, weekStartsOn);
      const days = [...new Set(daysBefore)]
        .filter((before) => before > 0)
        .map((before) => addDays(load, -before));
      return (
        load >= asOf &&
        days.every((on) => on >= asOf && !away.some(({ fromOn, untilOn }) => fromOn <= on && on < untilOn))
      );
    }),
  };
}

/** Minutes of each stage: as the household wrote them down, drawn to what a batch takes; else even shares. */
export function minutesByStage(
  { stages: own, handsOnMinutes }: Pick<Recipe, 'stages' | 'handsOnMinutes'>,
  path: readonly RecipeStage[],
): readonly number[] {
  const written = own.reduce((sum, stage) => sum + stage.handsOnMinutes, 0);
  const waits = path.filter(({ leastHours }, at) => leastHours > 0 || at === path.length - 1);
  const told = own.length === path.length ? path : own.length === waits.length ? waits : null;
  if (told === null || written <= 0) return path.map(() => handsOnMinutes / path.length);
  return path.map((stage) => {
    const at = told.indexOf(stage);
    return at < 0 ? 0 : (entry(own, at, 'own').handsOnMinutes * handsOnMinutes) / written;
  });
}

/**
 * Batches of a recipe that stand begun, each with the weeks in which its jars may be filled: on the usual canning day where
 * the stages allow it, else in the week of the nearest day that does. What no day is left for is not in it.
 */
export function begunBatches(
  recipe: Recipe,
  known: Preparations,
  kitchen: StageKitchen & { readonly timeZone: string },
): readonly BegunBatches[] {
  const stages = recipe.process === null ? [] : stagesHere(recipe, kitchen.reference);
  if (stages.length === 0) return [];
  return standingBatches(known, recipe.id).flatMap((group): BegunBatches[] => {
    const mayLoadByWeek = loadWeeks(recipe, stages, group, kitchen);
    const [first] = group.begun;
    if (first === undefined || !mayLoadByWeek.includes(true)) return [];
    return [
      {
        id: group.id,
        recipeId: recipe.id,
        jarKind: recipe.jarKind,
        batches: group.batches,
        begunOn: asDate(first.begunAt.slice(0, 10)),
        mayLoadByWeek,
      },
    ];
  });
}

function loadWeeks(
  recipe: Recipe,
  stages: readonly RecipeStage[],
  { begun }: PreparedBatches,
  { weeks, asOf, sessionWeekday, weekStartsOn, timeZone }: StageKitchen & { readonly timeZone: string },
): readonly boolean[] {
  const calendarFor = (on: CalendarDate | null) =>
    batchCalendar({
      ...asked(recipe, stages, timeZone),
      begun,
      load: on === null ? null : { on, at: usualFilling },
      asOf,
    });
  const { fill, load } = calendarFor(null);
  if (fill === null || load === null) return weeks.map(() => false);
  let isOpen = false;
  const usual = weeks.map((week) => {
    const on = dayInWeek(week, sessionWeekday, weekStartsOn);
    if (!isOpen && calendarFor(on).state !== 'on its way') return false;
    // Without a last day, what may be filled once may be filled later too.
    isOpen = fill.until === null;
    return true;
  });
  if (usual.includes(true)) return usual;
  return weeks.map((week) => weekHolding(load.on, weekStartsOn) === week);
}
