import type { FastifyRequest } from 'fastify';
import type { PlannedNames } from '../presenters/planned-words.ts';
import { sources } from '../queries/harvest.ts';
import { itemsOnShelf } from '../queries/items.ts';
import { canners } from '../queries/kitchen.ts';
import { recipes, supplies } from '../queries/recipes.ts';

/** The names a plan's ids stand for in the household that asks. */
export async function plannedNames(request: FastifyRequest): Promise<PlannedNames> {
  const { db } = request.server;
  const { id } = request.household;
  const [allItems, allRecipes, allSources, allSupplies, allCanners] = await Promise.all([
    itemsOnShelf(db, id),
    recipes(db, id),
    sources(db, id),
    supplies(db, id),
    canners(db, id),
  ]);
  return {
    items: allItems,
    recipes: allRecipes,
    sources: allSources,
    supplies: allSupplies,
    canners: allCanners,
    reading: request.reading,
  };
}
