import { orNone } from '../../lookup.ts';
import { begunInWeek } from '../../year/stage-weeks.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

/**
 * Sugar, vinegar and the like are on hand before the week they are needed: what is bought in a week serves later weeks
 * (in the first week, where nothing can be bought earlier, it serves at once). A batch needs them when it is begun.
 *
 * `supply_left[s,w] = supply_left[s,w-1] + pack quantity × bought before w - sum(quantity × batches[r, w + stage weeks])`, the supply's unit.
 *
 * What spoils is bought in the week in which its batch is begun and serves no other: there `supply_left` is at most that
 * (`<=`, bought in w), and `supply_fresh[s,w]`: `supply_left[s,w] <= supply_left[s,w-1]`, so that only what was on hand is left.
 */
export function supplyBalance({ sets, columns, writer }: Draft): void {
  sets.year.supplies.forEach((supply, at) => {
    sets.weekIndexes.forEach((week) => {
      const left = columns.supplyLeft[at]?.[week];
      if (left == null) return;
      const entries: Entry[] = [[left, 1]];
      const before = week > 0 ? columns.supplyLeft[at]?.[week - 1] : null;
      if (before != null) entries.push([before, -1]);
      const isFresh = supply.freshDays !== undefined;
      const weeks = columns.supplyBought[at] ?? [];
      const bought = isFresh ? weeks[week] : broughtHome(weeks, week);
      if (bought != null) entries.push([bought, -supply.packQuantity]);
      sets.recipes.forEach((recipe, recipeAt) => {
        const batches = begunInWeek(columns.batches[recipeAt], recipe, week);
        const quantity = orNone(recipe.supplies.find(({ supplyId }) => supplyId === supply.id)?.quantity);
        if (batches != null) entries.push([batches, quantity]);
      });
      const onHand = week === 0 ? supply.onHand : 0;
      const key = `${supply.id},${sets.year.weeks[week]}`;
      writer.row(`supply_balance[${key}]`, isFresh ? Number.NEGATIVE_INFINITY : onHand, entries, onHand);
      if (!isFresh) return;
      const last: Entry[] = before == null ? [] : [[before, -1]];
      writer.row(`supply_fresh[${key}]`, Number.NEGATIVE_INFINITY, [[left, 1], ...last], onHand);
    });
  });
}

/** The purchase that is first on hand in a week: the week before's, or in week 0 its own. */
export function broughtHome(bought: readonly (number | null)[], week: number): number | null {
  if (week === 0) return bought[0] ?? null;
  return week === 1 ? null : (bought[week - 1] ?? null);
}
