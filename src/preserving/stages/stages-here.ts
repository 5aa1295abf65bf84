import { whileTheSame } from '../../../shared/remembering.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { RecipeStage } from './recipe-stages.ts';
import { stagesOfRecipe } from './stages-of-recipe.ts';

/**
 * The stages of a household's recipe: always those of the book. What the household wrote down itself only says how much
 * work each is.
 */
export const stagesHere = (recipe: FollowsBook, reference: ReferenceTables): readonly RecipeStage[] =>
  stagesOf({ recipe, reference });

type FollowsBook = Pick<Recipe, 'basedOn' | 'process'>;
const stagesOf = whileTheSame(
  'recipe',
  ({ recipe, reference }: { readonly recipe: FollowsBook; readonly reference: ReferenceTables }) =>
    stagesOfRecipe(reference, recipe.basedOn, recipe.process),
);
