import { compare } from '../../../shared/compare.ts';
import type { ItemId } from '../../../shared/ids.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, daysBetween, type WeekKey, weekHolding } from '../../../shared/week.ts';
import type { BatchResult } from '../../household/batch-result.ts';
import type { Preparations, RecipeBatches } from '../../household/begun.ts';
import type { Household } from '../../household/household.ts';
import type { Item } from '../../household/item.ts';
import type { Canner, KitchenHours } from '../../household/kitchen.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { CanningSession } from '../../household/session.ts';
import { askGate, isCanned } from '../../preserving/ask-gate.ts';
import { batchesWrittenDown } from '../../preserving/day/begun-batches.ts';
import { type BatchCalendar, batchCalendar, sealDayOf } from '../../preserving/stages/batch-calendar.ts';
import { type RecipeStage, stagesOfWay } from '../../preserving/stages/recipe-stages.ts';
import { stagesHere } from '../../preserving/stages/stages-here.ts';
import { standingBatches } from '../../preserving/stages/standing-batches.ts';
import { orNone } from '../lookup.ts';
import type { Plan } from '../plan.ts';
import { minutesByStage } from '../year/planned-stages.ts';
import { type SessionDay, sessionDays, weeksWithSessions } from './week-sessions.ts';

/** Batches of one recipe with one calendar: those of a planned load, or those begun together. */
export interface BatchDays {
  /** The same from day to day while it is the same matter. */
  readonly key: string;
  readonly recipe: Recipe;
  readonly itemId: ItemId;
  readonly batches: number;
  /** What was begun; null while nothing is. */
  readonly begunId: string | null;
  /** The day the load is planned for; null for what was begun without a load in the plan. */
  readonly plannedOn: CalendarDate | null;
  readonly calendar: BatchCalendar;
  /** The day after the load: seals, bands, labels. Null where nothing is canned or all seals are checked. */
  readonly sealsOn: CalendarDate | null;
  /** From this day the jars may be eaten; null where that is at once. */
  readonly readyOn: CalendarDate | null;
}

/** What the days of all batches are worked out from. */
export interface BatchDaysAsked {
  readonly asOf: CalendarDate;
  readonly plan: Plan | null;
  readonly sessions: readonly CanningSession[];
  readonly results: readonly BatchResult[];
  readonly preparations: Preparations;
  readonly recipes: readonly Recipe[];
  readonly items: readonly Item[];
  readonly canners: readonly Canner[];
  readonly hours: KitchenHours;
  readonly household: Household;
  readonly reference: ReferenceTables;
}

/** Whether batches moved so far still belong to the load they were meant for. Judged, no source. */
const movedAtMostDays = 14;
/** Jars of canning days behind are asked after for so long. */
const daysLookedBack = 7;
const usualFilling = '09:00';

interface Load {
  readonly recipe: Recipe;
  readonly on: CalendarDate;
  readonly at: string;
  batches: number;
}

interface Group {
  readonly known: RecipeBatches;
  batches: number;
  /** Loads it went to so far. */
  loads: number;
}

/**
 * The days of every batch that is planned, begun, or was canned within the last days, in the order of their loads: the one
 * list behind This week, the year, the calendar, notices, letters, commands and paper.
 *
 * What is begun belongs to the first loads of its recipe it is ready for; else to the next loads near enough, which it moves.
 */
export function batchDays(asked: BatchDaysAsked): readonly BatchDays[] {
  const loads = loadsAhead(asked);
  const ahead = asked.recipes.flatMap((recipe) => daysOfRecipe(recipe, loads, asked));
  return [...loadsBehind(asked), ...loadsNotWrittenDown(asked), ...ahead].toSorted(
    (one, other) => compare(sortDay(one), sortDay(other)) || compare(one.key, other.key),
  );
}

const sortDay = ({ calendar, plannedOn }: BatchDays): string =>
  calendar.load?.on ?? plannedOn ?? calendar.before.at(-1)?.on ?? '';

function daysOfRecipe(recipe: Recipe, allLoads: readonly Load[], asked: BatchDaysAsked): BatchDays[] {
  const { reference, asOf, preparations } = asked;
  const { timeZone } = asked.household;
  const stages = recipe.process === null ? [] : stagesHere(recipe, reference);
  const loads = allLoads.filter((load) => load.recipe === recipe);
  const calendarOf = (group: Group | null, load: Load | null): BatchCalendar =>
    batchCalendar({
      stages,
      way: recipe.way?.way ?? null,
      begun: group?.known.begun ?? [],
      load: load === null ? null : { on: load.on, at: load.at },
      asOf,
      timeZone,
    });
  // What is made in one go was never begun before its load.
  const groups = (stages.length === 0 ? [] : standingBatches(preparations, recipe.id)).map(
    (known): Group => ({ known, batches: known.batches, loads: 0 }),
  );
  const [firstLoad] = loads;
  const isMade = firstLoad !== undefined && !isRefused(recipe, firstLoad.on, asked);
  const days: BatchDays[] = [];
  const give = (group: Group, load: Load | null, calendar: BatchCalendar) => {
    const batches = load === null ? group.batches : Math.min(group.batches, load.batches);
    group.batches -= batches;
    if (load !== null) load.batches -= batches;
    group.loads += 1;
    const key = group.loads === 1 ? group.known.id : `${group.known.id}-${group.loads}`;
    const here = daysOf(recipe, calendar, { key, batches, begunId: group.known.id, load });
    const on = calendar.load?.on ?? null;
    // What is begun stays in sight; jars that may not be canned have no seals and are never ready.
    days.push(on !== null && isRefused(recipe, on, asked) ? { ...here, sealsOn: null, readyOn: null } : here);
  };
  const giveWhere = (fits: (calendar: BatchCalendar, planned: CalendarDate) => boolean) => {
    for (const load of loads)
      for (const group of groups) {
        if (load.batches <= 0 || group.batches === 0) continue;
        const calendar = calendarOf(group, load);
        if (fits(calendar, load.on)) give(group, load, calendar);
      }
  };
  giveWhere(({ state }) => state === 'on its way');
  giveWhere(isNear);
  for (const group of groups) if (group.batches > 0) give(group, null, calendarOf(group, null));
  for (const load of loads)
    if (load.batches > 0 && isMade)
      days.push(
        daysOf(recipe, calendarOf(null, load), {
          key: keyOf(load, loads, asked.household),
          batches: load.batches,
          begunId: null,
          load,
        }),
      );
  return days;
}

/** Whether the gate lets none of its loads in, from the first on: then nothing is done before them, and nothing after. */
function isRefused(recipe: Recipe, first: CalendarDate, asked: BatchDaysAsked): boolean {
  const item = asked.items.find(({ id }) => id === recipe.itemId);
  if (item === undefined || !isCanned(recipe, item)) return false;
  const { household, canners, reference, asOf } = asked;
  return !askGate(
    recipe,
    item,
    { household, canners, reference },
    { at: `${first}T${usualFilling}`, prepared: 'as-planned', gaugeCheckPlannedOn: asOf },
  ).ok;
}

/** By the week, so that a load keeps its key when its day moves; by its place where a week has several. */
const keyOf = (
  load: Load,
  loads: readonly Load[],
  { weekStartsOn }: Pick<Household, 'weekStartsOn'>,
): string => {
  const week = weekHolding(load.on, weekStartsOn);
  const place = loads.filter(({ on }) => weekHolding(on, weekStartsOn) === week).indexOf(load);
  return `${load.recipe.id}-${week}${place === 0 ? '' : `-${place + 1}`}`;
};

const isNear = ({ load }: BatchCalendar, planned: CalendarDate): boolean =>
  load !== null && Math.abs(daysBetween(planned, load.on)) <= movedAtMostDays;

const daysOf = (
  recipe: Recipe,
  calendar: BatchCalendar,
  { load, ...own }: Pick<BatchDays, 'key' | 'batches' | 'begunId'> & { readonly load: Load | null },
): BatchDays => {
  const on = calendar.load?.on ?? null;
  return {
    ...own,
    recipe,
    itemId: recipe.itemId,
    plannedOn: load?.on ?? null,
    calendar,
    sealsOn: on === null || recipe.process === null ? null : sealDayOf(on),
    readyOn: on === null || recipe.readyAfterDays === 0 ? null : addDays(on, recipe.readyAfterDays),
  };
};

/** What is still to be canned from this day on, as planned or as taken on a day that was begun. */
function loadsAhead(asked: BatchDaysAsked): Load[] {
  const { asOf, preparations } = asked;
  return weeksOf(asked).flatMap((week) =>
    daysOfWeek(week, asked)
      .filter(({ on }) => on >= asOf)
      .flatMap((day) =>
        day.work.flatMap(({ recipeId, batches }): Load[] => {
          const recipe = asked.recipes.find(({ id }) => id === recipeId);
          const filled = preparations.filled
            .filter((one) => one.recipeId === recipeId && one.on === day.on)
            .reduce((sum, one) => sum + one.batches, 0);
          return recipe === undefined
            ? []
            : [{ recipe, on: day.on, at: fillingAt(day), batches: batches - filled }];
        }),
      ),
  );
}

/** A day laid out from its end does not say when jars are filled; then the usual time holds. */
const fillingAt = ({ session }: SessionDay): string =>
  session?.setting.by === 'start' ? session.setting.time : usualFilling;

const weeksOf = ({ plan, sessions, household: { weekStartsOn } }: BatchDaysAsked): readonly WeekKey[] => {
  const planned = weeksWithSessions(plan).map(({ week }) => week);
  return [...new Set([...planned, ...sessions.map(({ on }) => weekHolding(on, weekStartsOn))])].toSorted();
};

const daysOfWeek = (
  week: WeekKey,
  { plan, sessions, hours, household: { weekStartsOn } }: BatchDaysAsked,
): readonly SessionDay[] =>
  sessionDays(
    plan?.weeks.find((one) => one.week === week) ?? null,
    sessions.filter(({ on }) => weekHolding(on, weekStartsOn) === week),
    hours,
    weekStartsOn,
  );

/** What was canned within the last days, until its seals are checked. */
function loadsBehind({ asOf, results, recipes }: BatchDaysAsked): BatchDays[] {
  const from = addDays(asOf, -daysLookedBack);
  return results
    .filter(({ madeOn, lots }) => madeOn >= from && madeOn <= asOf && lots.some(isUnchecked))
    .flatMap((result): BatchDays[] => {
      const recipe = recipes.find(({ id }) => id === result.recipeId);
      if (recipe === undefined) return [];
      const key = `${recipe.id}-canned-${result.madeOn}-${result.id}`;
      return [behindUs(recipe, { key, batches: result.batches, on: result.madeOn })];
    });
}

/** What went into the canner and is not written down yet has its seals checked all the same; asked until that day is over. */
function loadsNotWrittenDown({ asOf, results, recipes, preparations }: BatchDaysAsked): BatchDays[] {
  return preparations.filled
    .filter(({ on }) => on <= asOf && sealDayOf(on) >= asOf)
    .flatMap(({ recipeId, on, batches }): BatchDays[] => {
      const recipe = recipes.find(({ id }) => id === recipeId);
      if (recipe === undefined || recipe.process === null) return [];
      const ofDay = results.filter(({ madeOn }) => madeOn === on);
      const left = batches - batchesWrittenDown(recipeId, ofDay);
      return left <= 0
        ? []
        : [behindUs(recipe, { key: `${recipeId}-not-written-down-${on}`, batches: left, on })];
    });
}

const behindUs = (
  recipe: Recipe,
  { on, ...own }: Pick<BatchDays, 'key' | 'batches'> & { readonly on: CalendarDate },
): BatchDays => ({
  ...own,
  recipe,
  itemId: recipe.itemId,
  begunId: null,
  plannedOn: null,
  calendar: {
    state: 'one go',
    way: null,
    before: [],
    load: { on, at: `${on}T${usualFilling}` },
    fill: null,
  },
  sealsOn: sealDayOf(on),
  readyOn: null,
});

const isUnchecked = ({ isProcessed, sealCheck }: BatchResult['lots'][number]): boolean =>
  isProcessed && sealCheck === null;

/** Minutes of hands-on work of a stage, for some batches. */
export const stageMinutes = (
  recipe: Recipe,
  stages: readonly RecipeStage[],
  way: string | null,
  stage: RecipeStage,
  batches: number,
): number => {
  const path = stagesOfWay(stages, way);
  return Math.round(orNone(minutesByStage(recipe, path)[path.indexOf(stage)]) * batches);
};
