import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { TestedRecipe } from '../../src/preserving/recipe-book.ts';
import type { Recipe } from '../queries/recipes.ts';
import { testedRecipes } from './session-here.ts';

/** The tested recipe of the book that a household's own copies: the one it names, else one processed as the same food and style. */
export function copiedRecipe(
  { basedOn, process }: Pick<Recipe, 'basedOn' | 'process'>,
  reference: ReferenceTables,
): TestedRecipe | undefined {
  const book = testedRecipes(reference);
  return (
    book.find(({ key }) => key === basedOn) ??
    book.find(({ processes }) =>
      processes.some(({ foodKey, style }) => foodKey === process?.food && style === process.style),
    )
  );
}
