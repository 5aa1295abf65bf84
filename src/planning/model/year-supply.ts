import { entry } from '../lookup.ts';
import type { Draft } from './draft.ts';
import type { Entry } from './model.ts';

/** Everything of an item the year has: what stands when it begins, and the columns that add to it, units. */
export function yearSupply(
  { sets, columns }: Pick<Draft, 'sets' | 'columns'>,
  item: number,
): { readonly opening: number; readonly entries: readonly Entry[] } {
  const made = (sets.recipesByItem[item] ?? []).flatMap((recipe) =>
    (columns.batches[recipe] ?? []).flatMap((column): Entry[] =>
      column === null ? [] : [[column, entry(sets.recipes, recipe, 'recipes').yieldLowUnits]],
    ),
  );
  const bought = (sets.items[item]?.packs ?? []).flatMap((pack, packAt) =>
    (columns.purchases[item]?.[packAt] ?? []).flatMap((column): Entry[] =>
      column === null ? [] : [[column, pack.units]],
    ),
  );
  const opening = entry(sets.items, item, 'items').openingLots.reduce((sum, { units }) => sum + units, 0);
  return { opening, entries: [...made, ...bought] };
}
