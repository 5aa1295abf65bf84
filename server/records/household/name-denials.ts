import type { RecipeId } from '../../../shared/ids.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { NameDenial } from '../../../src/household/recipe.ts';
import {
  denialsFor,
  type NameAnswered,
  nameQuestions,
  testedFoodOf,
} from '../../../src/preserving/foods/name-questions.ts';
import { itemById } from '../../queries/household/items.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';

interface OfRecipe {
  readonly recipeId: string;
}

/** Keeps what somebody said is not in what a recipe makes: who, when, and of which exact name. */
export async function keepDenialsWithin(
  { trx, householdId, by, at }: Recorder,
  recipeId: RecipeId,
  denials: readonly NameDenial[],
): Promise<void> {
  for (const { name, otherFood } of denials)
    await trx
      .insertInto('name_denial')
      .values({
        household_id: householdId,
        recipe_id: recipeId,
        name,
        other_food: otherFood,
        denied_by: by,
        denied_at: at,
      })
      .onConflict((same) =>
        same
          .columns(['household_id', 'recipe_id', 'name'])
          .doUpdateSet({ other_food: otherFood, denied_by: by, denied_at: at }),
      )
      .execute();
}

/** Answers what a name of a recipe is asked about: a no is kept, a yes is the refusal with what is possible instead. */
export const answerName = (
  recording: Recording,
  reference: ReferenceTables,
  request: OfRecipe & { readonly answered: NameAnswered },
): Promise<Outcome<OfRecipe>> =>
  record(recording, 'answer name', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const { recipeId, answered } = request;
    const recipe = (await recipesOf(trx, householdId)).find(({ id }) => id === recipeId);
    const item = recipe && (await itemById(trx, householdId, recipe.itemId));
    if (!recipe || !item)
      return refuse('recipe-unknown', 'recipeId', 'Choose a recipe from its item’s page.');
    const food = testedFoodOf(reference, recipe.basedOn, recipe.process);
    const open = nameQuestions([item.name, recipe.name], food, recipe.nameDenials);
    if (!open.ok) return open;
    const question = open.value.find(({ name }) => name === answered.name);
    if (question === undefined)
      return refuse(
        'nothing-asked',
        'inIt',
        `The name “${answered.name.slice(0, 60)}” is not asked about, or no longer. Look at the page again.`,
      );
    const denials = denialsFor([question], answered);
    if (!denials.ok) return refused(...denials.problems);
    await keepDenialsWithin(recorder, recipe.id, denials.value);
    return found({ recipeId });
  });

/** Takes an answer back: the name is asked about again. */
export const takeDenialBack = (
  recording: Recording,
  request: OfRecipe & { readonly name: string },
): Promise<Outcome<OfRecipe>> =>
  record(recording, 'take name answer back', request, async ({ trx, householdId }) => {
    await trx
      .deleteFrom('name_denial')
      .where('household_id', '=', householdId)
      .where('recipe_id', '=', request.recipeId)
      .where('name', '=', request.name)
      .execute();
    return found({ recipeId: request.recipeId });
  });
