import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Recipe } from '../../household/recipe.ts';
import { recipeBasis } from './recipe-basis.ts';
import type { TestedRecipe } from './recipe-book.ts';

/** The tested recipe of the book that a household's own copies; none where it is based on nothing of the book. */
export const copiedRecipe = (
  { basedOn, process }: Pick<Recipe, 'basedOn' | 'process'>,
  reference: ReferenceTables,
): TestedRecipe | undefined => recipeBasis(reference, basedOn, process)?.tested ?? undefined;
