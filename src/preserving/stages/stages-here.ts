import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { RecipeStage } from './recipe-stages.ts';
import { stagesOfRecipe } from './stages-of-recipe.ts';

/**
 * The stages of a household's recipe: always those of the book. What the household wrote down itself only says how much
 * work each is.
 */
export const stagesHere = (
  { basedOn, process }: Pick<Recipe, 'basedOn' | 'process'>,
  reference: ReferenceTables,
): readonly RecipeStage[] => stagesOfRecipe(reference, basedOn, process);
