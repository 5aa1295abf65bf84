import type { Family } from '../../../shared/family.ts';
import type { TestedRecipe } from './recipe-book.ts';

const ofCrop: Readonly<Record<string, Family>> = {
  apricot: 'stone-fruit',
  cherry: 'stone-fruit',
  cherry_tart: 'stone-fruit',
  peach: 'stone-fruit',
  plum: 'stone-fruit',
  blackberry: 'berries',
  blueberry: 'berries',
  cranberry: 'berries',
  grape: 'berries',
  strawberry: 'berries',
  rhubarb: 'berries',
  apple: 'apples-pears',
  pear: 'apples-pears',
  tomato: 'tomatoes',
  asparagus: 'greens-beans',
  green_bean: 'greens-beans',
  lima_bean: 'greens-beans',
  okra: 'greens-beans',
  pea: 'greens-beans',
  pepper_hot: 'greens-beans',
  pepper_sweet: 'greens-beans',
  spinach: 'greens-beans',
  summer_squash: 'greens-beans',
  sweet_corn: 'greens-beans',
  winter_squash: 'greens-beans',
  beet: 'roots',
  carrot: 'roots',
  potato: 'roots',
  sweet_potato: 'roots',
};

/** The board a recipe's food stands on, our own sorting: pickles together, the rest by the first crop it names. */
export const recipeFamily = ({ kind, produce }: TestedRecipe): Family => {
  if (kind === 'pickle' || kind === 'relish' || kind === 'ferment' || kind === 'chutney') return 'pickles';
  if (kind === 'salsa' || kind === 'ketchup' || kind === 'sauce' || kind === 'tomato') return 'tomatoes';
  if (kind === 'meal') return 'meat-stock';
  if (kind === 'beans') return 'greens-beans';
  const known = produce.flatMap(({ cropKey }) => ofCrop[cropKey ?? ''] ?? []);
  return known[0] ?? (kind === 'vegetable' ? 'greens-beans' : 'apples-pears');
};
