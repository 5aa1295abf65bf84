import type { Acidity } from '../../../shared/schemas/reference/process-time.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Item } from '../../household/item.ts';
import type { Recipe } from '../../household/recipe.ts';

/**
 * How acid an item is, by the published rows its recipes follow; the least acid of them counts. `unknown` for what is
 * canned without a named process, null for what is not kept in sealed jars.
 */
export function acidityOf(
  item: Item,
  recipes: readonly Recipe[],
  { processTimes }: Pick<ReferenceTables, 'processTimes'>,
): Acidity | 'unknown' | null {
  if (item.keeping !== 'canned') return null;
  const foods = new Set(
    recipes.flatMap(({ itemId, process }) => (itemId === item.id && process !== null ? [process.food] : [])),
  );
  const printed = new Set(
    processTimes.filter(({ foodKey }) => foods.has(foodKey)).map(({ acidity }) => acidity),
  );
  if (printed.size === 0) return 'unknown';
  if (printed.has('low-acid')) return 'low-acid';
  return printed.has('acidified') ? 'acidified' : 'acid';
}
