import { found, type Outcome } from '../../../shared/problems.ts';
import type { LeftOversRequest } from '../../../shared/schemas/item.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { mayTake, notOfTested } from '../../../src/preserving/ask-gate.ts';
import { byProductsOfBook, materialOfKey } from '../../../src/preserving/recipes/by-product.ts';
import { recipeBasis } from '../../../src/preserving/recipes/recipe-basis.ts';
import { materialsOf, recipesOf } from '../../queries/household/recipes.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';
import { materialNamed } from '../year/waiting-material.ts';

/**
 * What one batch of a recipe leaves for others, and takes of what others leave, as the household says it; nothing where it says
 * none. A tested recipe takes nothing it was not tested with.
 */
export const sayLeftOvers = (
  recording: Recording,
  reference: ReferenceTables,
  request: LeftOversRequest,
): Promise<Outcome<{ readonly recipeId: string }>> =>
  record(recording, 'say left-overs', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const recipe = (await recipesOf(trx, householdId)).find(({ id }) => id === request.recipeId);
    if (!recipe) return refuse('recipe-unknown', '', 'Choose a recipe from its item’s page.');
    const against = takesProblem(recipe, request, reference);
    if (against !== null) return against;
    const { leaves, leavesAmount, takes, takesAmount } = request;
    for (const [field, key, quantity, direction] of [
      ['leaves', leaves, leavesAmount, 'gives'],
      ['takes', takes, takesAmount, 'uses'],
    ] as const) {
      await trx
        .deleteFrom('recipe_material')
        .where('household_id', '=', householdId)
        .where('recipe_id', '=', recipe.id)
        .where('direction', '=', direction)
        .execute();
      if (key === null || quantity === null) continue;
      const materialId = await materialIdOfKey(recorder, reference, key);
      if (materialId === null)
        return refuse('by-product-unknown', field, 'Choose it from the list; it may be gone by now.');
      await trx
        .insertInto('recipe_material')
        .values({
          household_id: householdId,
          recipe_id: recipe.id,
          material_id: materialId,
          direction,
          quantity,
        })
        .execute();
    }
    return found({ recipeId: recipe.id });
  });

function takesProblem(
  recipe: Recipe,
  { takes }: Pick<LeftOversRequest, 'takes'>,
  reference: ReferenceTables,
): Outcome<never> | null {
  const { process, awaitsCanner, processRefused } = recipe;
  if (takes === null || (process === null && !awaitsCanner && processRefused === null)) return null;
  const basis = recipeBasis(reference, recipe.basedOn, process);
  if (mayTake(basis?.tested ?? null, takes)) return null;
  const { code, message } = notOfTested(recipe.name);
  return refuse(code, 'takes', message);
}

/** The id of the household's material of that key, begun from the book where it has none; null where nobody knows it. */
async function materialIdOfKey(
  recorder: Recorder,
  reference: ReferenceTables,
  key: string,
): Promise<string | null> {
  const own = await materialsOf(recorder.trx, recorder.householdId);
  const same = materialOfKey(key, own);
  if (same) return same.id;
  const named = byProductsOfBook(reference).find((one) => one.key === key);
  return named === undefined ? null : materialNamed(recorder, named);
}
