import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { JarSize } from '../../../shared/jar.ts';
import { keptRecipe } from '../../../src/preserving/recipes/kept-recipe.ts';
import { recipeBook, type TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { recipeFamily } from '../../../src/preserving/recipes/recipe-family.ts';
import { recipeLife } from '../../../src/preserving/recipes/recipe-life.ts';

const tables = loadReferenceTables();
const book = recipeBook(tables);
const named = (key: string): TestedRecipe => {
  const recipe = book.find((one) => one.key === key);
  if (!recipe) throw new Error(`no recipe ${key}`);
  return recipe;
};
const kept = (key: string, jar?: JarSize) => keptRecipe(named(key), jar ?? named(key).yield.jar, tables);
const supply = (key: string, name: string, jar?: JarSize) =>
  kept(key, jar).supplies.find((one) => one.name === name);

// Figures: USDA Complete Guide 2 (2015) p2-6 apple butter, p2-19 peaches; Guide 3 p3-5 acid, p3-7 crushed tomatoes,
// p3-21 chile salsa; Guide 6 p6-6 crock, p6-8 sauerkraut, p6-9 bread-and-butter pickles.
describe('a recipe of the book taken into a household’s own', () => {
  test('a batch printed in pints gives twice as many half-pints: apple butter 8 to 9 pints, 16 to 18 half-pints', () => {
    expect(kept('apple-butter')).toMatchObject({ yieldLow: 8, yieldHigh: 9 });
    expect(kept('apple-butter', 'half-pint')).toMatchObject({ yieldLow: 16, yieldHigh: 18 });
  });

  test('a canner load of pint peaches takes 11 lb and the light syrup for nine pints', () => {
    expect(kept('peaches-pints').produce).toEqual([
      { cropKey: 'peach', name: 'peaches', lb: 11, weighed: 'as-picked' },
    ]);
    expect(kept('peaches-pints')).toMatchObject({ yieldLow: 9, yieldHigh: 9 });
    // 1.5 cups of sugar at 200 g a cup (USDA nutrient database, release 26).
    expect(supply('peaches-pints', 'sugar')).toMatchObject({
      unit: 'lb',
      quantity: expect.closeTo(300 / 453.6, 2),
    });
  });

  test('salsa waits for its tomatoes; chiles, onions, vinegar and salt come from the shop', () => {
    expect(kept('chile-salsa').produce.map(({ cropKey, lb }) => [cropKey, lb])).toEqual([['tomato', 5]]);
    expect(kept('chile-salsa').supplies.map(({ name, unit }) => [name, unit])).toEqual([
      ['hot peppers', 'lb'],
      ['onions', 'lb'],
      ['vinegar 5%', 'qt'],
      ['canning salt', 'lb'],
    ]);
  });

  test('a mixture waits for every crop that is half as much as the heaviest', () => {
    expect(kept('mixed-fruit-cocktail').produce.map(({ cropKey, lb }) => [cropKey, lb])).toEqual([
      ['peach', 3],
      ['pear', 3],
      ['grape', 1.5],
    ]);
  });

  test('the acid of each jar of tomatoes is on the list: 9 pints at a tablespoon are 9/16 cup, 7 quarts at two 7/8', () => {
    expect(supply('tomatoes-crushed-pints', 'bottled lemon juice')).toMatchObject({
      unit: 'cup',
      quantity: 9 / 16,
    });
    expect(supply('tomatoes-crushed-quarts', 'bottled lemon juice')).toMatchObject({
      unit: 'cup',
      quantity: 7 / 8,
    });
  });

  test('where no weight is published the pounds are not known, and nothing is made up', () => {
    expect(kept('berry-jam-no-pectin').produce).toEqual([
      expect.objectContaining({ cropKey: 'blackberry', lb: null }),
    ]);
  });

  test('what is made of something no crop of the tables is bought whole', () => {
    expect(kept('mango-chutney').produce).toEqual([]);
    expect(supply('mango-chutney', 'unripe mangoes')).toMatchObject({ unit: 'cup', quantity: 11 });
  });

  test('pickles wait out their four weeks; kraut ferments up to six in five gallons of crock for 25 lb', () => {
    expect(kept('bread-and-butter-pickles').readyAfterDays).toBe(28);
    expect(kept('sauerkraut').crock).toEqual({ quarts: 20, days: 42 });
    expect(kept('sauerkraut').readyAfterDays).toBe(0);
    expect(kept('apple-butter').readyAfterDays).toBe(0);
  });

  test('days until the first good jar count from filling it, whatever stood or fermented before', () => {
    for (const recipe of book)
      expect(kept(recipe.key).readyAfterDays, recipe.key).toBe(recipe.curing?.daysLow ?? 0);
  });

  test('every recipe of the book can be taken over in its printed jar: whole jars, no crop twice, amounts above nothing', () => {
    for (const recipe of book) {
      const own = keptRecipe(recipe, recipe.yield.jar, tables);

      expect(own.yieldLow, recipe.key).toBeGreaterThanOrEqual(1);
      expect(own.yieldHigh, recipe.key).toBeGreaterThanOrEqual(own.yieldLow);
      expect(Number.isInteger(own.yieldHigh), recipe.key).toBe(true);
      expect(new Set(own.produce.map(({ cropKey }) => cropKey)).size, recipe.key).toBe(own.produce.length);
      // What is made of another batch's left-overs alone takes nothing from garden or store.
      expect(own.produce.length + own.supplies.length > 0, recipe.key).toBe(recipe.material === null);
      for (const { quantity } of own.supplies) expect(quantity, recipe.key).toBeGreaterThan(0);
    }
  });
});

// University of California ANR and the National Center: no more than 12 months; FSIS shelf data for salsa and sauce.
describe('how long it keeps', () => {
  test('never longer than the year published for all home-canned food, salsa and tomato sauce nine to twelve months', () => {
    for (const recipe of book)
      expect(recipeLife(recipe, tables.shelfLives).bestQualityDays).toBeLessThanOrEqual(365);
    // Until a household chooses, the longer figure: a sauce of September is not past its best in June.
    for (const key of ['chile-salsa', 'tomato-sauce-thin-pints'])
      expect(recipeLife(named(key), tables.shelfLives)).toMatchObject({
        bestQualityDays: 365,
        published: { least: 274, most: 365 },
      });
    expect(recipeLife(named('strawberry-jam'), tables.shelfLives).bestQualityDays).toBe(365);
  });

  test('an opened jar of low-acid food keeps three days cold, jam thirty, applesauce as opened fruit', () => {
    const opened = (key: string) => recipeLife(named(key), tables.shelfLives).opened;
    expect(opened('beans-snap-pints')).toMatchObject({ days: 3, kind: 'safety' });
    expect(opened('strawberry-jam').days).toBe(30);
    expect(opened('applesauce-pints').days).toBe(5);
  });
});

test('a recipe stands with its own kind: pickled beets with the pickles, beets with the roots', () => {
  expect(recipeFamily(named('pickled-beets'))).toBe('pickles');
  expect(recipeFamily(named('beets-pints'))).toBe('roots');
  expect(recipeFamily(named('peach-jam-powder'))).toBe('stone-fruit');
  expect(recipeFamily(named('chile-salsa'))).toBe('tomatoes');
});
