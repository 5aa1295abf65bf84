import type { CropKey, ItemId } from '../../shared/ids.ts';
import { unitsPerBatch } from './batch-cost.ts';
import type { HouseholdFacts } from './facts.ts';

/** Pounds of each crop that so many units of items take, by the first recipe of each; what no recipe makes takes none. */
export function produceTaken(
  unitsOf: (item: ItemId) => number,
  { items, recipes }: Pick<HouseholdFacts, 'items' | 'recipes'>,
): ReadonlyMap<CropKey, number> {
  const lbByCrop = new Map<CropKey, number>();
  for (const item of items) {
    const recipe = recipes.find(({ itemId }) => itemId === item.id);
    if (recipe === undefined) continue;
    const batches = unitsOf(item.id) / unitsPerBatch(item, recipe);
    for (const { crop, lb } of recipe.produce) lbByCrop.set(crop, (lbByCrop.get(crop) ?? 0) + batches * lb);
  }
  return lbByCrop;
}
