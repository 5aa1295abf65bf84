import { folded } from '../../../shared/folded.ts';
import type { RecipeProduce } from '../recipes/recipe-book.ts';

/** A tested food, as far as its crops are told from it. */
export interface FoodOfCrops {
  readonly foodKey: string;
  /** Names and styles as printed. */
  readonly words: readonly string[];
  readonly produce: readonly Pick<RecipeProduce, 'cropKey' | 'ingredient'>[];
}

const berries = ['blackberry', 'blueberry', 'olallieberry', 'raspberry'];

/**
 * Crops that a printed food covers without naming them. Which crop of the harvest table stands for which printed fruit is
 * our own pairing; that the process covers it is printed (Guide 2: whole berries p2-10, berry syrup p2-10, fruit purees
 * p2-14; Guide 4: spinach and other greens, peppers hot or sweet; Guide 7: berry jam), remembered, not read again.
 */
const covered: Readonly<Record<string, readonly string[]>> = {
  'berries-whole': berries,
  'berry-jam': [...berries, 'strawberry'],
  'berry-syrup': [...berries, 'strawberry', 'grape', 'cherry'],
  'fruit-puree': [
    'apple',
    'apricot',
    'blackberry',
    'blueberry',
    'cherry',
    'peach',
    'pear',
    'plum',
    'raspberry',
  ],
  'jam-no-pectin': ['apricot', 'peach', 'plum', 'pear'],
  'spinach-greens': ['spinach', 'greens', 'collard'],
  'winter-squash': ['winter_squash', 'pumpkin'],
  peppers: ['pepper', 'pepper_hot', 'pepper_sweet'],
  succotash: ['sweet_corn', 'lima_bean'],
  'tomatoes-okra-zucchini': ['tomato', 'okra', 'summer_squash'],
  'mexican-tomato-sauce': ['tomato', 'onion', 'pepper_hot'],
  'quick-dill-pickles': ['cucumber'],
  'dill-pickles-fermented': ['cucumber'],
  sauerkraut: ['cabbage'],
  soup: [
    'asparagus',
    'green_bean',
    'lima_bean',
    'carrot',
    'onion',
    'okra',
    'pea',
    'potato',
    'sweet_corn',
    'tomato',
  ],
};

/** The same crop, or one of the two is the other with its kind or place said: `cherry` and `cherry_tart`. */
const isSameCrop = (one: string, other: string): boolean =>
  one === other || one.startsWith(`${other}_`) || other.startsWith(`${one}_`);

const singular = (word: string): string =>
  word
    .replace(/ies$/, 'y')
    .replace(/(?<=[^s])s$/, '')
    .replace(/oe$/, 'o')
    .replace(/(?<=ch)e$/, '');

const wordsOf = (text: string): readonly string[] => (folded(text).match(/\p{L}+/gu) ?? []).map(singular);

/**
 * Whether a crop may go into a food: the recipe prints it, the food's printed name says it, or the food covers it. A crop
 * that none of these knows does not belong; it is refused rather than guessed.
 */
export const cropBelongs = (crop: string, { foodKey, words, produce }: FoodOfCrops): boolean => {
  const key = folded(crop).replaceAll('-', '_');
  if (produce.some(({ cropKey }) => cropKey !== null && isSameCrop(key, cropKey))) return true;
  if ((covered[foodKey] ?? []).some((known) => isSameCrop(key, known))) return true;
  const printed = new Set([foodKey.replaceAll('-', ' '), ...words].flatMap(wordsOf));
  return key.split('_').every((part) => printed.has(singular(part)));
};
