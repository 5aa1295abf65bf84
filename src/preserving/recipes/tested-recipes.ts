import { type RecipeTables, recipeBook, type TestedRecipe } from './recipe-book.ts';

const books = new WeakMap<RecipeTables, readonly TestedRecipe[]>();

/** The published recipes, read once for each set of tables. */
export const testedRecipes = (tables: RecipeTables): readonly TestedRecipe[] => {
  const known = books.get(tables) ?? recipeBook(tables);
  books.set(tables, known);
  return known;
};
