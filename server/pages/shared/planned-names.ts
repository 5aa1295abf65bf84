import type { FastifyRequest } from 'fastify';
import { measuresIn } from '../../../src/preserving/foods/trade-measures.ts';
import { itemsOnShelf } from '../../queries/household/items.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { recipesOf, suppliesOf } from '../../queries/household/recipes.ts';
import { sourcesOf } from '../../queries/year/harvest.ts';
import type { PlannedNames } from '../../words/planned-words.ts';

/** The names a plan's ids stand for in the household that asks. */
export async function plannedNames(request: FastifyRequest): Promise<PlannedNames> {
  const { db } = request.server;
  const { id } = request.household;
  const [allItems, allRecipes, allSources, allSupplies, allCanners] = await Promise.all([
    itemsOnShelf(db, id),
    recipesOf(db, id),
    sourcesOf(db, id),
    suppliesOf(db, id),
    cannersOf(db, id),
  ]);
  return {
    items: allItems,
    recipes: allRecipes,
    sources: allSources,
    supplies: allSupplies,
    canners: allCanners,
    reading: request.reading,
    measuresOf: measuresIn(request.server.reference),
  };
}
