import type { RecipeKind } from '../../../shared/schemas/reference/recipe.ts';

/**
 * Minutes of hands-on work for one batch or canner load, by kind. Not published anywhere: our own estimate of one
 * person's work, new to it, to be corrected by what it takes here. The waiting of a canner is not in it.
 */
export const handsOnGuess: Readonly<Record<RecipeKind, number>> = {
  jam: 90,
  jelly: 110,
  spread: 90,
  butter: 120,
  syrup: 90,
  fruit: 120,
  'sauce-fruit': 120,
  juice: 110,
  'pie-filling': 120,
  tomato: 120,
  salsa: 120,
  sauce: 150,
  ketchup: 150,
  chutney: 110,
  relish: 110,
  pickle: 90,
  ferment: 60,
  vegetable: 100,
  beans: 60,
  meal: 120,
};
