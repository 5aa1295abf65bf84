import { describe, expect, test } from 'vitest';
import { cropBelongs } from '../../../src/preserving/foods/crop-of-food.ts';
import {
  inTradeMeasure,
  poundsOfProduce,
  tradeMeasuresOf,
} from '../../../src/preserving/foods/trade-measures.ts';
import { tables } from '../tables.ts';

// USDA Complete Guide to Home Canning (2015), the "Quantity" paragraph of each food, as the table of yields holds it: Guide 2 p2-7 to
// p2-22, Guide 3 p3-7 and p3-13, Guide 4 p4-7 to p4-19, Guide 6 p6-5; cherries with their stems, white potatoes and cabbage by the bushel
// as the table of measures holds them.
const largest: Readonly<Record<string, string>> = {
  apple: 'bushel 48',
  'apple-summer': 'bushel 48',
  apricot: 'bushel 50',
  asparagus: 'bushel 45',
  beet: 'bushel 52',
  blackberry: 'crate 36',
  blueberry: 'crate 36',
  'raspberry-fall': 'crate 36',
  strawberry: 'crate 36',
  cabbage: 'bushel 50',
  carrot: 'bushel 50',
  cherry: 'bushel 56',
  'cherry-tart': 'bushel 56',
  cucumber: 'bushel 48',
  'cucumber-pickling': 'bushel 48',
  grape: 'lug 26',
  'green-bean': 'bushel 30',
  'lima-bean': 'bushel 32',
  nectarine: 'bushel 48',
  okra: 'bushel 26',
  pea: 'bushel 30',
  peach: 'bushel 48',
  pear: 'bushel 50',
  'pepper-hot': 'bushel 25',
  plum: 'bushel 56',
  potato: 'bushel 50',
  rhubarb: 'lug 28',
  spinach: 'bushel 18',
  'sweet-corn': 'bushel 35',
  'sweet-potato': 'bushel 50',
  tomatillo: 'bushel 32',
  tomato: 'bushel 53',
};
const unpublished = [
  'broccoli',
  'cantaloupe',
  'eggplant',
  'garlic',
  'onion',
  'pumpkin',
  'quince',
  'winter-squash',
  'olallieberry',
  'cranberry',
  'crab-apple',
  'jostaberry',
  'pineapple',
  'wild-blackberry',
];

describe('the largest measure a crop is sold in', () => {
  test.each(Object.entries(largest))('%s: %s lb', (crop, measure) => {
    const [first] = tradeMeasuresOf(crop, tables);
    expect(`${first?.measure} ${first?.lb}`).toBe(measure);
  });

  test.each(unpublished)('of %s none is published', (crop) => {
    expect(tradeMeasuresOf(crop, tables)).toEqual([]);
  });

  test('comes first, with half-bushels and pecks of a bushel alone, and the container the guide prints for it', () => {
    expect(tradeMeasuresOf('apricot', tables).map(({ measure, lb }) => [measure, lb])).toEqual([
      ['bushel', 50],
      ['half-bushel', 25],
      ['lug', 24],
      ['peck', 12.5],
    ]);
    expect(tradeMeasuresOf('asparagus', tables).map(({ measure }) => measure)).toEqual([
      'bushel',
      'crate',
      'half-bushel',
      'peck',
    ]);
    expect(tradeMeasuresOf('grape', tables)).toHaveLength(1);
    expect(tradeMeasuresOf('peach', tables)[0]?.source).toMatchObject({
      sourceId: 'USDA-G2',
      locator: 'p2-19',
      basis: 'read',
    });
    expect(tradeMeasuresOf('cabbage', tables)[0]?.source).toMatchObject({ basis: 'memory' });
  });

  test('printed for several containers is shared out among them', () => {
    const [apples] = tables.yields.filter(({ foodKey }) => foodKey === 'apples-sliced');
    const yields = [{ ...apples, quantity: 2, unitWeightLb: 96 }] as typeof tables.yields;
    expect(tradeMeasuresOf('apple', { yields, measures: [] })[0]).toMatchObject({
      measure: 'bushel',
      lb: 48,
    });
    const without = [{ ...apples, unit: 'lb' }] as unknown as typeof tables.yields;
    expect(tradeMeasuresOf('apple', { yields: without, measures: [] })).toEqual([]);
  });
});

describe('pounds of what has no published weight', () => {
  const refused = (unit: 'lug' | 'bushel', key: string, name: string, weight: 'lb' | 'kg' = 'lb') => {
    const read = poundsOfProduce(2, unit, { key, name }, tables, weight);
    return read.ok ? null : read.problems;
  };

  test('are refused beside the unit, in the weight the household reads', () => {
    expect(refused('lug', 'apple', 'Apples')).toEqual([
      {
        code: 'measure-without-weight',
        path: ['unit'],
        message:
          'We have no published weight for a lug of apples. Write pounds, or count in a bushel (48 lb), a half-bushel (24 lb), a peck (12 lb).',
      },
    ]);
    expect(refused('lug', 'apple', 'Apples', 'kg')?.[0]?.message).toContain(
      'Write kilograms, or count in a bushel (21.8 kg)',
    );
    expect(refused('bushel', 'quince', 'Quinces', 'kg')?.[0]?.message).toBe(
      'We have no published weight for a bushel of quinces. Weigh one, and write the kilograms.',
    );
    expect(refused('bushel', '', '')?.[0]?.message).toBe(
      'What that weighs depends on the crop. Choose a crop, or write pounds.',
    );
  });
});

describe('pounds in a trade measure', () => {
  const apples = tradeMeasuresOf('apple', tables);

  test.each([
    [48, 'bushel', 1],
    [24, 'bushel', 0.5],
    [23.8, 'peck', 2],
    [36, 'bushel', 0.75],
    [36.1, 'bushel', 0.75],
    [36.2, 'bushel', 1],
    [6, 'peck', 0.5],
    [480, 'bushel', 10],
  ])('%d lb of apples are in %ss: %d', (lb, measure, count) => {
    expect(inTradeMeasure(lb, apples)).toEqual({ measure, count });
  });

  test('less than half a peck is in none, nor is what has no measure', () => {
    expect(inTradeMeasure(5.9, apples)).toBeNull();
    expect(inTradeMeasure(40, [])).toBeNull();
  });
});

describe('whether a crop belongs to a food', () => {
  const belongs = (
    crop: string,
    foodKey: string,
    words: readonly string[] = [],
    ...cropKeys: readonly (string | null)[]
  ) =>
    cropBelongs(crop, { foodKey, words, produce: cropKeys.map((cropKey) => ({ cropKey, ingredient: '' })) });

  test('does where the recipe prints it, in any kind or from any place', () => {
    expect(belongs('cherry-tart', 'x', [], 'cherry')).toBe(true);
    expect(belongs('cherry', 'x', [], 'cherry_tart')).toBe(true);
    expect(belongs('cherry', 'x', [], null, 'cherry')).toBe(true);
    expect(belongs('pea', 'x', [], 'peach')).toBe(false);
    expect(belongs('peach', 'x', [], 'pea')).toBe(false);
    expect(belongs('pepper-hot', 'x', [], 'pepper_sweet')).toBe(false);
  });

  test('does where its name or its style says it, in the plural too', () => {
    expect(belongs('peach', 'peaches')).toBe(true);
    expect(belongs('tomato', 'x', ['Tomatoes, crushed'])).toBe(true);
    expect(belongs('cherry', 'x', ['Cherries'])).toBe(true);
    expect(belongs('sweet-corn', 'x', ['Corn, sweet'])).toBe(true);
    expect(belongs('sweet-corn', 'x', ['Corn'])).toBe(false);
    expect(belongs('plum', 'peaches')).toBe(false);
  });

  // Guide 2, p2-10 and p2-14; Guide 4, spinach and other greens; Guide 7, berry jam: which crop stands for which is our own pairing.
  test.each([
    [
      'berries-whole',
      ['blackberry', 'blueberry', 'olallieberry', 'raspberry-fall'],
      ['strawberry', 'cherry'],
    ],
    ['berry-jam', ['blackberry', 'strawberry'], ['grape']],
    ['berry-syrup', ['blueberry', 'strawberry', 'grape', 'cherry-tart'], ['peach']],
    [
      'fruit-puree',
      ['apple', 'apricot', 'blackberry', 'blueberry', 'cherry', 'peach', 'pear', 'plum', 'raspberry'],
      ['tomato', 'melon'],
    ],
    ['jam-no-pectin', ['apricot', 'peach', 'plum', 'pear'], ['apple']],
    ['spinach-greens', ['spinach', 'greens', 'collard'], ['cabbage']],
    ['winter-squash', ['winter-squash', 'pumpkin'], ['summer-squash']],
    ['peppers', ['pepper', 'pepper-hot', 'pepper-sweet'], ['tomato']],
    ['succotash', ['sweet-corn', 'lima-bean'], ['green-bean']],
    ['tomatoes-okra-zucchini', ['tomato', 'okra', 'summer-squash'], ['winter-squash']],
    ['mexican-tomato-sauce', ['tomato', 'onion', 'pepper-hot'], ['carrot']],
    ['quick-dill-pickles', ['cucumber', 'cucumber-pickling'], ['cabbage']],
    ['dill-pickles-fermented', ['cucumber'], ['cabbage']],
    ['sauerkraut', ['cabbage'], ['cucumber']],
    [
      'soup',
      [
        'asparagus',
        'green-bean',
        'lima-bean',
        'carrot',
        'onion',
        'okra',
        'pea',
        'potato',
        'sweet-corn',
        'tomato',
      ],
      ['peach', 'cabbage'],
    ],
  ])('%s covers %j and not %j', (foodKey, crops, others) => {
    for (const crop of crops)
      expect({ crop, belongs: belongs(crop, foodKey) }).toEqual({ crop, belongs: true });
    for (const crop of others)
      expect({ crop, belongs: belongs(crop, foodKey) }).toEqual({ crop, belongs: false });
  });
});
