import type { RecipeId } from '../../../shared/ids.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type { PlanPath } from '../answer/plan-path.ts';
import { kitchenRoom } from '../days/hands-in-week.ts';
import { cell, entry, noneBeyond } from '../lookup.ts';
import type { PlanningParameters } from '../model/parameters.ts';
import type { PlanningSets, RecipeInSets } from '../model/sets.ts';
import type { Plan } from '../plan.ts';
import { type PlannedRecipe, type PlanningYear, reserveHeld } from '../planning-year.ts';
import { isSessionOf, stageWeeks } from '../year/stage-weeks.ts';
import { figuresOfYear } from './figures-of-year.ts';
import { possibleWeeks } from './possible-weeks.ts';

/** Why a batch is made, or made in its week; `server/pages/year/reason-words.ts` puts it into words. */
export type Reason =
  | { readonly code: 'pinned' }
  /** Begun already; its jars may be filled from one week to another, any time where those are null. */
  | {
      readonly code: 'begun';
      readonly on: CalendarDate;
      readonly may: { readonly from: WeekKey; readonly until: WeekKey } | null;
    }
  /** Without it the item runs short in a week; null: it carries the item beyond the year's end. */
  | { readonly code: 'wanted'; readonly item: string; readonly shortIn: WeekKey | null }
  /** Weeks in which it can be made or, where that is not the week of its load, begun. */
  | {
      readonly code: 'only-weeks';
      readonly isBegunBefore: boolean;
      readonly from: WeekKey;
      readonly until: WeekKey;
    }
  | { readonly code: 'cheapest-week'; readonly isBegunBefore: boolean }
  | { readonly code: 'garden-crop'; readonly isBegunBefore: boolean }
  | { readonly code: 'by-product'; readonly material: string }
  | { readonly code: 'hours-full-before' | 'hours-full-after'; readonly week: WeekKey };

export interface BatchReasons {
  readonly week: WeekKey;
  readonly recipe: RecipeId;
  readonly batches: number;
  readonly reasons: readonly Reason[];
}

/** A week is full when less than this share of its sessions' time is left. */
const fullShare = 0.12;

/** Why each planned batch is made, and why in its week: what the plan's own figures say, heaviest reason first. */
export function batchReasons(year: PlanningYear, plan: Plan, paths: readonly PlanPath[]): BatchReasons[] {
  const { sets, parameters } = figuresOfYear(year);
  return plan.weeks.flatMap(({ week, sessions }, at) =>
    sessions.flatMap((session): BatchReasons[] => {
      const recipe = sets.recipes.findIndex((one) => isSessionOf(one, session));
      const made = sets.recipes[recipe];
      if (made === undefined) return [];
      return [
        {
          week,
          recipe: session.recipe,
          batches: session.batches,
          reasons: [
            ...pinned(sets, made, week),
            ...begunReasons(made, sets, parameters, recipe),
            ...wanted(sets, made, paths, session.units, at),
            ...windowReasons(sets, parameters, recipe, at),
            ...gardenReasons(sets, made, at),
            ...byProductReasons(sets, made),
            ...hoursReasons(sets, parameters, plan, recipe, at),
          ],
        },
      ];
    }),
  );
}

function pinned({ year }: PlanningSets, { id }: PlannedRecipe, week: WeekKey): Reason[] {
  return year.kept.some((kept) => kept.recipeId === id && kept.week === week && kept.decision === 'pinned')
    ? [{ code: 'pinned' }]
    : [];
}

/** When the shelf would run short without these units. */
function wanted(
  { year, items }: PlanningSets,
  { itemId, readyAfterWeeks }: PlannedRecipe,
  paths: readonly PlanPath[],
  units: number,
  madeIn: number,
): Reason[] {
  const item = items.find(({ id }) => id === itemId);
  const path = paths.find((one) => one.item === itemId);
  if (item === undefined || path === undefined) return [];
  const isLess = (week: number, wanted: number): boolean =>
    entry(path.stockByWeek, week, 'stockByWeek') < wanted + units - 1e-6;
  const last = path.stockByWeek.length - 1;
  for (let week = madeIn + readyAfterWeeks; week < last; week += 1)
    if (isLess(week, 0))
      return [{ code: 'wanted', item: item.name, shortIn: entry(year.weeks, week, 'weeks') }];
  return isLess(last, item.yearEndUnits + reserveHeld(item))
    ? [{ code: 'wanted', item: item.name, shortIn: null }]
    : [];
}

/** What is begun has its load while its stages allow it. */
function begunReasons(
  { begun }: RecipeInSets,
  { year }: PlanningSets,
  parameters: PlanningParameters,
  recipe: number,
): Reason[] {
  if (begun === undefined) return [];
  const possible = possibleWeeks(parameters, recipe);
  const last = possible.at(-1);
  const may =
    last === undefined || last === year.weeks.length - 1
      ? null
      : {
          from: entry(year.weeks, entry(possible, 0, 'possible'), 'weeks'),
          until: entry(year.weeks, last, 'weeks'),
        };
  return [{ code: 'begun', on: begun.begunOn, may }];
}

/** A season of at most so many weeks is named. */
const fewWeeks = 10;
/** Produce of a batch that costs at most so much more or less costs the same, cents. */
const samePrice = 1;

function windowReasons(
  sets: PlanningSets,
  parameters: PlanningParameters,
  recipe: number,
  at: number,
): Reason[] {
  const { year } = sets;
  const made = entry(sets.recipes, recipe, 'recipes');
  const possible = possibleWeeks(parameters, recipe);
  if (made.begun !== undefined || !possible.includes(at)) return [];
  const begunBefore = stageWeeks(made);
  const isBegunBefore = begunBefore > 0;
  // The season this week is part of; the year's end may begin the next one.
  let [first, last] = [at, at];
  while (possible.includes(first - 1)) first -= 1;
  while (possible.includes(last + 1)) last += 1;
  const named: Reason = {
    code: 'only-weeks',
    isBegunBefore,
    from: entry(year.weeks, first - begunBefore, 'weeks'),
    until: entry(year.weeks, last - begunBefore, 'weeks'),
  };
  const here = produceCents(sets, made, at - begunBefore);
  // What waits or was frozen has no price of its own week: such weeks are neither dearer nor cheaper.
  const priced = possible.map((week) => produceCents(sets, made, week - begunBefore)).filter(Number.isFinite);
  const isCheapest = Math.min(...priced) > here - samePrice && Math.max(...priced) > here + samePrice;
  return [
    ...(last - first < fewWeeks ? [named] : []),
    ...(isCheapest ? [{ code: 'cheapest-week', isBegunBefore } as const] : []),
  ];
}

/** Cents for the produce of one batch bought in a week, each crop where it is cheapest; infinite where a crop comes from nowhere. */
const produceCents = ({ sources }: PlanningSets, { produce }: PlannedRecipe, week: number): number =>
  produce.reduce((sum, { crop, lb }) => {
    const offered = sources.filter(
      (source) => source.crop === crop && entry(source.lbByWeek, week, 'lbByWeek') > 0,
    );
    const prices = offered.map((source) =>
      entry(source.priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek'),
    );
    return sum + lb * Math.min(...prices);
  }, 0);

function gardenReasons({ sources }: PlanningSets, made: PlannedRecipe, at: number): Reason[] {
  const begunBefore = stageWeeks(made);
  const week = at - begunBefore;
  const isOurs = made.produce.some(({ crop }) =>
    sources.some(
      (source) => source.crop === crop && source.kind === 'garden' && noneBeyond(source.lbByWeek, week) > 0,
    ),
  );
  return isOurs ? [{ code: 'garden-crop', isBegunBefore: begunBefore > 0 }] : [];
}

function byProductReasons({ year }: PlanningSets, { uses }: PlannedRecipe): Reason[] {
  return uses.map(({ materialId }) => ({
    code: 'by-product',
    material: year.materials.find(({ id }) => id === materialId)?.name ?? materialId,
  }));
}

/** Weeks beside this one in which it could be made but no time is left. */
function hoursReasons(
  { year }: PlanningSets,
  { mostBatches }: PlanningParameters,
  plan: Plan,
  recipe: number,
  at: number,
): Reason[] {
  const isFull = (week: number) => {
    const planned = plan.weeks[week];
    if (planned === undefined) return false;
    const room = kitchenRoom(year.time, week);
    return (
      cell(mostBatches, recipe, week, 'mostBatches') > 0 && planned.kitchenMinutes > room * (1 - fullShare)
    );
  };
  const full = (code: 'hours-full-before' | 'hours-full-after', week: number): Reason[] =>
    isFull(week) ? [{ code, week: entry(year.weeks, week, 'weeks') }] : [];
  return [...full('hours-full-before', at - 1), ...full('hours-full-after', at + 1)];
}
