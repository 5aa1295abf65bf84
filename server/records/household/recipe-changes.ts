import { found, type Outcome } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { copiedRecipe } from '../../../src/preserving/recipes/copied-recipe.ts';
import { changesRuling } from '../../../src/preserving/recipes/recipe-changes.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { type Recording, record, refuse } from '../record.ts';

/**
 * Writes down what the household does otherwise than the tested recipe it copies. Only changes of the closed list that
 * apply to that kind of recipe are kept; anything else is refused, and what was made so is refrigerated or frozen.
 */
export const saveRecipeChanges = (
  recording: Recording,
  reference: ReferenceTables,
  request: { readonly recipeId: string; readonly changes: readonly string[] },
): Promise<Outcome<{ readonly changes: readonly string[] }>> =>
  record(recording, 'change tested recipe', request, async ({ trx, householdId }) => {
    const { recipeId, changes } = request;
    const recipe = (await recipesOf(trx, householdId)).find(({ id }) => id === recipeId);
    if (!recipe) return refuse('recipe-unknown', 'recipeId', 'Choose a recipe from its item’s page.');
    const tested = copiedRecipe(recipe, reference);
    if (!tested)
      return refuse(
        'not-a-copy',
        'other',
        `${recipe.name} names no tested recipe of the book, so nothing of it may be changed. Add the recipe from the book.`,
      );
    const ruling = changesRuling(tested, changes);
    if (!ruling.ok) return { ok: false, problems: ruling.problems };
    await trx
      .updateTable('recipe')
      .set({ changes_json: JSON.stringify(ruling.value.map(({ change }) => change)) })
      .where('household_id', '=', householdId)
      .where('id', '=', recipeId)
      .execute();
    return found({ changes: ruling.value.map(({ change }) => change) });
  });
