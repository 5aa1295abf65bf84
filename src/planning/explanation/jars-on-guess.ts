import type { RecipeId } from '../../../shared/ids.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { Plan } from '../plan.ts';

/** What a figure that was guessed is about. */
export type GuessedFigure =
  /** Dates and pounds a week of a crop's source. */
  | { readonly kind: 'harvest'; readonly crop: string }
  /** Minutes of a recipe. */
  | { readonly kind: 'minutes'; readonly recipe: RecipeId }
  /** A price: it moves money, and no jar while there is enough of it. */
  | { readonly kind: 'price' };

/**
 * How many planned jars (bags, lb …) a guessed figure can move: those of the batches that stand on it. All batches of a crop stand
 * on its dates and pounds a week, those of a recipe on its minutes; none on a price. It is a count of what is planned, not a
 * second plan: how far each jar would move is not worked out.
 *
 * Example: 18 jars of peach halves and 9 of peach salsa are planned; peach dates move 27, the minutes of the salsa 9.
 */
export function jarsOnGuess(
  figure: GuessedFigure,
  plan: Pick<Plan, 'weeks'>,
  recipes: readonly Pick<Recipe, 'id' | 'produce'>[],
): number {
  if (figure.kind === 'price') return 0;
  const stands = (id: RecipeId): boolean =>
    figure.kind === 'minutes'
      ? id === figure.recipe
      : recipes.some((recipe) => recipe.id === id && recipe.produce.some(({ crop }) => crop === figure.crop));
  return plan.weeks
    .flatMap(({ sessions }) => sessions)
    .filter(({ recipe }) => stands(recipe))
    .reduce((sum, { units }) => sum + units, 0);
}
