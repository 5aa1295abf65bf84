import type { ItemId, RecipeId } from '../../../shared/ids.ts';
import { type PlannedItem, type PlannedRecipe, type PlanningYear, reserveHeld } from '../planning-year.ts';

/** Units by which what is missing of an item may differ and count as the same. Judged, no source. */
const unitsAlike = 0.5;

/** Items of which more or less is missing to what a year wants than in a year before, or which were not in that. */
export function itemsChanged(
  before: Pick<PlanningYear, 'items'>,
  { items }: Pick<PlanningYear, 'items'>,
): ReadonlySet<ItemId> {
  const missingBefore = new Map(before.items.map((item) => [item.id, missingOf(item)]));
  return new Set(
    items
      .filter((item) => {
        const units = missingBefore.get(item.id);
        return units === undefined || Math.abs(missingOf(item) - units) > unitsAlike;
      })
      .map(({ id }) => id),
  );
}

/** Recipes of some items. */
export const recipesOf = (
  items: ReadonlySet<ItemId>,
  { recipes }: { readonly recipes: readonly PlannedRecipe[] },
): ReadonlySet<RecipeId> => new Set(recipes.filter(({ itemId }) => items.has(itemId)).map(({ id }) => id));

/** Recipes of some items and of all that share a crop with them: more of one may leave less for the others. */
export function recipesBesides(
  items: ReadonlySet<ItemId>,
  { recipes }: { readonly recipes: readonly PlannedRecipe[] },
): ReadonlySet<RecipeId> {
  const own = recipes.filter(({ itemId }) => items.has(itemId));
  const crops = new Set(own.flatMap(({ produce }) => produce.map(({ crop }) => crop)));
  const sharing = recipes.filter(({ produce }) => produce.some(({ crop }) => crops.has(crop)));
  return new Set([...own, ...sharing].map(({ id }) => id));
}

const missingOf = (item: PlannedItem): number =>
  sumOf(item.useByWeek) +
  reserveHeld(item) +
  item.yearEndUnits -
  sumOf(item.openingLots.map(({ units }) => units));

const sumOf = (list: readonly number[]): number => list.reduce((sum, each) => sum + each, 0);
