import type { Family } from '../../shared/family.ts';
import type { CountsAs } from '../../shared/meal-kinds.ts';
import type { Item } from './item.ts';

const ofFamily: Readonly<Record<Family, CountsAs>> = {
  'stone-fruit': 'fruit',
  berries: 'fruit',
  'apples-pears': 'fruit',
  tomatoes: 'vegetable',
  'greens-beans': 'vegetable',
  roots: 'vegetable',
  pickles: 'vegetable',
  'meat-stock': 'protein',
  'dry-goods': 'none',
};

/** Words of a name, or of the kind of food its shelf life is printed for, and what they make of it; the first that fits counts. */
const byWords: readonly (readonly [words: RegExp, countsAs: CountsAs])[] = [
  [/\b(peanut|nut|almond) butter\b/, 'protein'],
  [/\b(jam|jelly|jellies|marmalade|preserves|conserve|butter|honey|sugar|syrup|molasses|maple)\b/, 'sweet'],
  [/\b(broth|stock|bouillon|gravy)\b/, 'none'],
  [
    /\b(dry beans?|beans dry|pinto|lentils?|split peas|chickpeas?|tuna|fish|seafood|meat|poultry|chicken|turkey|beef|pork|venison)\b/,
    'protein',
  ],
];

/**
 * What an item counts as in meals: what the household said, else a guess from its name and kind. Of a fruit's family a spread is
 * sweet; of dry goods only beans, lentils, fish and meat count. Our own judgment, no source.
 *
 * Example: peach jam is sweet, peach halves are fruit, green beans a vegetable, dry beans protein, flour none.
 */
export const countsAs = (item: Pick<Item, 'countsAs' | 'family' | 'name' | 'shelfLifeKey'>): CountsAs =>
  item.countsAs ?? guessedCountsAs(item);

export function guessedCountsAs({
  family,
  name,
  shelfLifeKey,
}: Pick<Item, 'family' | 'name' | 'shelfLifeKey'>): CountsAs {
  const words = `${name} ${(shelfLifeKey ?? '').replaceAll('_', ' ')}`.toLowerCase();
  return byWords.find(([known]) => known.test(words))?.[1] ?? ofFamily[family];
}
