import { inUsualJars, mouthOf, sizeOf } from '../../shared/jar.ts';
import type { HouseholdFacts } from './facts.ts';
import type { Item } from './item.ts';
import type { Recipe } from './recipe.ts';

/** Where the prices of a batch are looked up. */
export type PricesHere = Pick<HouseholdFacts, 'sources' | 'supplies' | 'lids'>;

/** Units of the item from one batch, halfway between its low and its high yield, in the item's usual jar. */
export const unitsPerBatch = (item: Item, recipe: Recipe): number => {
  const jars = (recipe.yieldLow + recipe.yieldHigh) / 2;
  return item.usualJar === null || recipe.jarKind === null
    ? jars
    : jars * inUsualJars(sizeOf(recipe.jarKind), sizeOf(item.usualJar));
};

/**
 * What one batch costs at the prices of now, cents, not rounded: produce at its cheapest source, supplies by their share of the
 * pack, one new lid a jar; jars are used again. `unpriced`: crops and supplies nobody has a price for, which count as nothing.
 */
export function batchCost(
  { sources, supplies, lids }: PricesHere,
  recipe: Recipe,
): { readonly cents: number; readonly unpriced: readonly string[] } {
  const produce = recipe.produce.map(({ crop, lb }) => {
    const prices = sources.filter((source) => source.crop === crop).map(({ pricePerLb }) => pricePerLb);
    return { what: crop, cents: prices.length === 0 ? null : lb * Math.min(...prices) };
  });
  const supplied = recipe.supplies.map(({ supplyId, quantity }) => {
    const supply = supplies.find(({ id }) => id === supplyId);
    return {
      what: supplyId,
      cents: supply === undefined ? null : (quantity * supply.packPrice) / supply.packQuantity,
    };
  });
  const lid =
    recipe.jarKind === null
      ? undefined
      : lids.find(({ mouth }) => recipe.jarKind !== null && mouth === mouthOf(recipe.jarKind));
  const closed = lid === undefined ? 0 : (recipe.yieldHigh * lid.boxPrice) / lid.box;
  const parts: readonly { readonly what: string; readonly cents: number | null }[] = [
    ...produce,
    ...supplied,
  ];
  return {
    cents: parts.reduce((sum, { cents }) => sum + (cents ?? 0), closed),
    unpriced: parts.flatMap(({ what, cents }) => (cents === null ? [what] : [])),
  };
}
