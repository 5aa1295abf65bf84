import { orNone } from '../../lookup.ts';
import { begunInWeek } from '../../year/stage-weeks.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

/**
 * Sugar, vinegar and the like are on hand before the week they are needed: what is bought in a week serves later weeks
 * (in the first week, where nothing can be bought earlier, it serves at once). A batch needs them when it is begun.
 *
 * `supply_left[s,w] = supply_left[s,w-1] + pack quantity × bought before w - sum(quantity × batches[r, w + stage weeks])`, the supply's unit.
 */
export function supplyBalance({ sets, columns, writer }: Draft): void {
  sets.year.supplies.forEach((supply, at) => {
    sets.weekIndexes.forEach((week) => {
      const left = columns.supplyLeft[at]?.[week];
      if (left == null) return;
      const entries: Entry[] = [[left, 1]];
      const before = week > 0 ? columns.supplyLeft[at]?.[week - 1] : null;
      if (before != null) entries.push([before, -1]);
      const bought = broughtHome(columns.supplyBought[at] ?? [], week);
      if (bought !== null) entries.push([bought, -supply.packQuantity]);
      sets.recipes.forEach((recipe, recipeAt) => {
        const batches = begunInWeek(columns.batches[recipeAt], recipe, week);
        const quantity = orNone(recipe.supplies.find(({ supplyId }) => supplyId === supply.id)?.quantity);
        if (batches != null) entries.push([batches, quantity]);
      });
      const onHand = week === 0 ? supply.onHand : 0;
      writer.row(`supply_balance[${supply.id},${sets.year.weeks[week]}]`, onHand, entries, onHand);
    });
  });
}

/** The purchase that is first on hand in a week: the week before's, or in week 0 its own. */
export function broughtHome(bought: readonly (number | null)[], week: number): number | null {
  if (week === 0) return bought[0] ?? null;
  return week === 1 ? null : (bought[week - 1] ?? null);
}
