import type { RecipeId } from '../../../shared/ids.ts';
import { sizeOf } from '../../../shared/jar.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { canningPlace } from '../../../src/preserving/recipes/recipe-to-keep.ts';
import { testedRecipes } from '../../../src/preserving/recipes/tested-recipes.ts';
import { testedWays } from '../../../src/preserving/recipes/tested-ways.ts';
import type { Database } from '../../database/database.ts';
import { householdById } from '../../queries/household/household.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { type Recorder, type Recording, record } from '../record.ts';

export interface RecipeGivenCanner {
  readonly recipeId: RecipeId;
  readonly name: string;
}

/**
 * Recipes that were kept before a canner for them was there, or whose canner is gone, are given one of the canners that
 * are there now, where the tables print their process for it. Called after the canners of a kitchen have changed.
 */
export async function giveWaitingRecipesCanners(
  recording: Recording,
  reference: ReferenceTables,
): Promise<Outcome<readonly RecipeGivenCanner[]>> {
  if ((await waitingRecipes(recording.db, recording)).length === 0) return found([]);
  return record(recording, 'give waiting recipes canners', {}, async (recorder) => {
    const given: RecipeGivenCanner[] = [];
    const place = canningPlace(
      await householdById(recorder.trx, recorder.householdId),
      await cannersOf(recorder.trx, recorder.householdId),
      recorder.today,
    );
    const book = testedRecipes(reference);
    for (const recipe of await waitingRecipes(recorder.trx, recorder)) {
      const printed = book.find(({ key }) => key === recipe.basedOn);
      const way = printed && wayFor(recipe, printed, reference, place);
      if (!way) continue;
      await recorder.trx
        .updateTable('recipe')
        .set({
          canner_id: way.cannerId,
          process_food: way.process.foodKey,
          process_style: way.process.style,
          process_pack: way.process.pack,
        })
        .where('household_id', '=', recorder.householdId)
        .where('id', '=', recipe.id)
        .execute();
      given.push({ recipeId: recipe.id, name: recipe.name });
    }
    return found(given);
  });
}

const waitingRecipes = async (
  db: Database,
  { householdId }: Pick<Recorder, 'householdId'>,
): Promise<readonly Recipe[]> => {
  const own = new Set((await cannersOf(db, householdId)).map(({ id }) => id));
  return (await recipesOf(db, householdId)).filter(
    ({ process, awaitsCanner }) => awaitsCanner || (process !== null && !own.has(process.cannerId)),
  );
};

/** A recipe that lost its canner keeps its process; one that never had a canner takes what is tested in its jar. */
function wayFor(
  { jarKind, process }: Recipe,
  printed: TestedRecipe,
  reference: ReferenceTables,
  place: Parameters<typeof testedWays>[2],
) {
  if (jarKind === null) return undefined;
  const { here, waiting } = testedWays(reference, printed, place);
  return [...here, ...waiting].find(
    (way) =>
      way.jar === sizeOf(jarKind) &&
      (process === null ||
        (way.process.foodKey === process.food &&
          way.process.style === process.style &&
          way.process.pack === process.pack)),
  );
}
