import type { WeekKey } from '../../../shared/week.ts';
import { kitchenRoom } from '../days/hands-in-week.ts';
import { entry } from '../lookup.ts';
import type { PlanningParameters } from '../model/parameters.ts';
import type { PlanningSets } from '../model/sets.ts';
import type { GaveWay, Plan } from '../plan.ts';
import type { PlannedItem, PlanningYear } from '../planning-year.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import { figuresOfYear } from './figures-of-year.ts';
import { possibleWeeks } from './possible-weeks.ts';

export interface WishReasons {
  readonly wish: GaveWay;
  readonly reasons: readonly WishReason[];
}

/** What was used up where a wish gave way; `server/pages/year/reason-words.ts` puts it into words. */
export type WishReason =
  | { readonly code: 'cannot-be-made' | 'hours' | 'produce'; readonly item: string }
  /** Nothing new before the week in which it can first be made again. */
  | { readonly code: 'before-supply'; readonly first: WeekKey }
  | { readonly code: 'money' | 'other-wishes' }
  /** What the reserve lacks is less than makes one more batch, of so many units, worth its work. */
  | { readonly code: 'not-worth-a-batch'; readonly batchUnits: number };

/** Weeks count as full, and the fund as spent, when less than this share is left. */
const littleLeft = 0.12;

/** Why each wish that gave way could not be met, as far as the plan's own figures show what was used up. */
export function wishReasons(year: PlanningYear, plan: Plan): WishReasons[] {
  const { sets, parameters } = figuresOfYear(year);
  return plan.gaveWay.map((wish) => {
    const at = sets.items.findIndex(({ id }) => id === wish.what);
    const isLetGo =
      at >= 0 && wish.rung === 'reserve' && isNotWorthABatch(entry(sets.items, at, 'items'), wish.amount);
    // Where what is eaten is short too, both are told as one number.
    const isAlone = !plan.gaveWay.some(({ rung, what }) => rung === 'use' && what === wish.what);
    const reasons = [
      ...(isLetGo ? [batchTooMany(sets, at)] : []),
      ...(at < 0 || (isLetGo && isAlone) ? [] : itemReasons(sets, parameters, plan, at)),
    ];
    return {
      wish,
      reasons: reasons.length > 0 ? reasons : [{ code: 'other-wishes' }],
    };
  });
}

/** Whether a reserve lacks no more than its plan does not work towards, since one more batch for it would mostly be left over. */
export const isNotWorthABatch = (
  { reserveNotWorthABatch }: Pick<PlannedItem, 'reserveNotWorthABatch'>,
  missing: number,
): boolean => reserveNotWorthABatch !== undefined && missing <= reserveNotWorthABatch + roundedAway;

/** What gave way is told in hundredths of a unit. */
const roundedAway = 0.01;

function batchTooMany({ recipes, recipesByItem }: PlanningSets, at: number): WishReason {
  const ways = entry(recipesByItem, at, 'recipesByItem');
  return {
    code: 'not-worth-a-batch',
    batchUnits: Math.min(...ways.map((recipe) => entry(recipes, recipe, 'recipes').yieldLowUnits)),
  };
}

function itemReasons(
  sets: PlanningSets,
  parameters: PlanningParameters,
  plan: Plan,
  at: number,
): WishReason[] {
  const { year, weekCount } = sets;
  const item = entry(sets.items, at, 'items');
  const first = entry(parameters.firstSupplyWeek, at, 'firstSupplyWeek');
  if (first >= weekCount) return [{ code: 'cannot-be-made', item: item.name }];
  const reasons: WishReason[] = [];
  const missedBefore = entry(parameters.missedByWeek, at, 'missedByWeek').reduce(
    (sum, units) => sum + units,
    0,
  );
  if (missedBefore > 0.05) reasons.push({ code: 'before-supply', first: entry(year.weeks, first, 'weeks') });
  const ways = entry(sets.recipesByItem, at, 'recipesByItem').map((recipe) => ({
    recipe,
    weeks: possibleWeeks(parameters, recipe),
  }));
  const weeks = [...new Set(ways.flatMap((way) => way.weeks))];
  const isFull = (week: number) => {
    const room = kitchenRoom(year.time, week);
    return entry(plan.weeks, week, 'weeks').kitchenMinutes > room * (1 - littleLeft);
  };
  if (weeks.length > 0 && weeks.every(isFull)) reasons.push({ code: 'hours', item: item.name });
  const usesUp = ways.some(
    ({ recipe, weeks: possible }) =>
      possible.length > 0 && possible.every((week) => producesUsedUp(sets, plan, recipe, week)),
  );
  if (usesUp) reasons.push({ code: 'produce', item: item.name });
  const poor = plan.weeks.filter(({ fundAfter }, week) => {
    const setAside = entry(year.fund.setAsideByWeek, week, 'setAsideByWeek');
    return fundAfter < setAside;
  });
  if (poor.length > plan.weeks.length / 4) reasons.push({ code: 'money' });
  return reasons;
}

/** Less produce is left than one more batch needs, in the week in which it is begun for a load. */
function producesUsedUp(
  { recipes, sources }: PlanningSets,
  plan: Plan,
  recipe: number,
  loadWeek: number,
): boolean {
  const { produce, ...made } = entry(recipes, recipe, 'recipes');
  const week = loadWeek - stageWeeks(made);
  const bought = entry(plan.weeks, week, 'weeks').purchases.filter(({ kind }) => kind === 'produce');
  return produce.some(({ crop, lb }) => {
    const left = sources
      .filter((source) => source.crop === crop)
      .reduce((sum, source) => {
        const taken = bought
          .filter(({ what }) => what === source.id)
          .reduce((pounds, { quantity }) => pounds + quantity, 0);
        return sum + entry(source.lbByWeek, week, 'lbByWeek') - taken;
      }, 0);
    return left < lb;
  });
}
