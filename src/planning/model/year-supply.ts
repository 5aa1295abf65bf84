import { cell, entry } from '../lookup.ts';
import type { Draft } from './draft.ts';
import type { Entry } from './model.ts';
import { terms } from './terms.ts';

/** Everything of an item the year has: what stands when it begins, and the columns that add to it, units. */
export function yearSupply(
  { sets, columns }: Pick<Draft, 'sets' | 'columns'>,
  item: number,
): { readonly opening: number; readonly entries: readonly Entry[] } {
  const { openingLots, packs } = entry(sets.items, item, 'items');
  const made = entry(sets.recipesByItem, item, 'recipesByItem').flatMap((recipe) =>
    terms(entry(columns.batches, recipe, 'batches'), entry(sets.recipes, recipe, 'recipes').yieldLowUnits),
  );
  const bought = packs.flatMap(({ units }, pack) =>
    terms(cell(columns.purchases, item, pack, 'purchases'), units),
  );
  return {
    opening: openingLots.reduce((sum, { units }) => sum + units, 0),
    entries: [...made, ...bought],
  };
}
