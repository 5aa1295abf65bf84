import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Preparations, RecipeBatches } from '../../household/begun.ts';
import type { Recipe } from '../../household/recipe.ts';
import { type Preparation, stillStanding } from './prepared-batches.ts';
import { stagesHere } from './stages-here.ts';

/** Batches of a recipe that were begun and neither filled nor thrown away; of those filled on `apartFrom` none is taken off. */
export const standingBatches = (
  { batches, filled }: Preparations,
  recipeId: string,
  apartFrom: CalendarDate | null = null,
): readonly RecipeBatches[] => {
  const own = batches.filter((batch) => batch.recipeId === recipeId && !batch.isThrownAway);
  const left = stillStanding(
    own,
    filled.filter((one) => one.recipeId === recipeId && one.on !== apartFrom),
  );
  return left.flatMap(({ id, batches: count }) => {
    const known = own.find((one) => one.id === id);
    return known === undefined ? [] : [{ ...known, batches: count }];
  });
};

/** How a recipe's batches stand for a canning day. */
export const preparationFor = (
  recipe: Pick<Recipe, 'id' | 'basedOn' | 'process'>,
  on: CalendarDate,
  known: Preparations,
  reference: ReferenceTables,
  timeZone: string,
): Preparation => ({
  stages: stagesHere(recipe, reference),
  prepared: standingBatches(known, recipe.id, on),
  timeZone,
});
