import { entry, noneBeyond } from '../lookup.ts';
import type { PlanningParameters } from './parameters.ts';
import { nearBuyingWeeks } from './rules.ts';
import type { PlanningSets } from './sets.ts';

/** Consecutive weeks of one item that the model treats as one, both ends included. */
export interface Span {
  readonly from: number;
  readonly to: number;
  /** Nothing can be bought in it; anything made, and anything that becomes older, does so in its first week. */
  readonly onlyUse: boolean;
}

/** [item][week]: the span that ends in the week, or null. */
export type SpansByItem = readonly (readonly (Span | null)[])[];

/** Weeks joined for what is bought further ahead. */
const farSpanWeeks = 4;

/** Every week on its own. */
export function weeklySpans({ items, weekIndexes }: PlanningSets): SpansByItem {
  return items.map(() => weekIndexes.map((week) => ({ from: week, to: week, onlyUse: false })));
}

/**
 * Joins weeks that decide nothing about canning. Where nothing can arrive, a stretch of weeks has the same shortage as
 * its weeks one by one. Where only buying can happen, weeks far ahead are joined by four; bought at the span's lowest
 * price, paid in its last week and counted at its end, with the reserve looked at there alone, they can only look cheaper than week by week. So the model with
 * joined weeks is a relaxation of the weekly one, and its bound holds for every weekly plan.
 */
export function joinedSpans(sets: PlanningSets, parameters: PlanningParameters): SpansByItem {
  return sets.items.map((item, at) => {
    const reserveWeeks = new Set(entry(parameters.reserveWeeks, at, 'reserveWeeks'));
    const mayArrive = (week: number) =>
      entry(entry(parameters.opening, at, 'opening').readyByWeek, week, 'readyByWeek') > 0 ||
      entry(sets.recipesByItem, at, 'recipesByItem').some((recipe) => {
        const readyAfterWeeks = entry(sets.recipes, recipe, 'recipes').readyAfterWeeks;
        return noneBeyond(entry(parameters.mostBatches, recipe, 'mostBatches'), week - readyAfterWeeks) > 0;
      });
    const isBought = item.packs.length > 0;
    const oldestWeeks = new Set(item.openingLots.map(({ bestQualityUntil }) => bestQualityUntil));
    const firstMade = Math.min(
      ...entry(sets.recipesByItem, at, 'recipesByItem').map((recipe) => {
        const first = entry(parameters.mostBatches, recipe, 'mostBatches').findIndex((most) => most > 0);
        return first < 0 ? Number.POSITIVE_INFINITY : first;
      }),
    );
    const mayBecomeOlder = (week: number) => {
      const key = sets.year.weeks[week];
      return (key !== undefined && oldestWeeks.has(key)) || week >= firstMade + item.bestQualityWeeks;
    };
    let from = 0;
    return sets.weekIndexes.map((week): Span | null => {
      const isFull = isBought && (week + 1 <= nearBuyingWeeks || week - from + 1 >= farSpanWeeks);
      const ends =
        week === sets.weekCount - 1 ||
        isFull ||
        mayArrive(week + 1) ||
        mayBecomeOlder(week + 1) ||
        (!isBought && reserveWeeks.has(week));
      if (!ends) return null;
      const span = { from, to: week, onlyUse: !isBought };
      from = week + 1;
      return span;
    });
  });
}

/** Sum of a list by week over the weeks of a span. */
export function sumOver(byWeek: readonly number[], { from, to }: Span): number {
  return byWeek.slice(from, to + 1).reduce((sum, amount) => sum + amount, 0);
}
