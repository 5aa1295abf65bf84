import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { scaleBatches } from '../../../src/preserving/recipes/scaling.ts';
import { shoppingList } from '../../../src/preserving/recipes/shopping-list.ts';
import { answerOf, codesOf, tables } from '../tables.ts';

const book = recipeBook(tables);
const recipeOf = (key: string) => {
  const recipe = book.find((candidate) => candidate.key === key);
  if (!recipe) throw new Error(`no recipe ${key} in the book`);
  return recipe;
};
const yieldOf = (foodKey: string, form?: string) => {
  const row = tables.yields.find(
    (candidate) => candidate.foodKey === foodKey && (!form || candidate.form.startsWith(form)),
  );
  if (!row) throw new Error(`no yield row ${foodKey}`);
  return row;
};

// USDA Complete Guide to Home Canning (2015): Guide 2 p2-7 to p2-22, Guide 3 p3-5 to p3-13, Guide 4 p4-5 to p4-19, Guide 6
// p6-5, the "Quantity" paragraph of each food: pounds for 7 quarts, for 9 pints, quarts from one bushel, crate, lug or bag.
describe('produce for canner loads, one printed paragraph a line', () => {
  test.each([
    ['applesauce', 'p2-7', 21, 13.5, [14, 19]],
    ['apples-sliced', 'p2-7', 19, 12.25, [16, 19]],
    ['apricots', 'p2-9', 16, 10, [20, 25]],
    ['berries-whole', 'p2-10', 12, 8, [18, 24]],
    ['cherries', 'p2-12', 17.5, 11, [8, 12]],
    ['grape-juice', 'p2-15', 24.5, 16, [7, 9]],
    ['grapes-whole', 'p2-16', 14, 9, [12, 14]],
    ['peaches', 'p2-19', 17.5, 11, [16, 24]],
    ['pears', 'p2-19', 17.5, 11, [16, 25]],
    ['plums', 'p2-21', 14, 9, [22, 36]],
    ['rhubarb', 'p2-22', 10.5, 7, [14, 28]],
    ['tomato-juice', 'p3-5', 23, 14, [15, 18]],
    ['tomatoes-crushed', 'p3-7', 22, 14, [17, 20]],
    ['tomatoes-whole-water', 'p3-9', 21, 13, [15, 21]],
    ['tomatillos', 'p3-13', 14, 9, [14, 16]],
    ['asparagus', 'p4-5', 24.5, 16, [7, 12]],
    ['beans-lima', 'p4-7', 28, 18, [6, 10]],
    ['beans-snap', 'p4-8', 14, 9, [12, 20]],
    ['beets', 'p4-9', 21, 13.5, [15, 20]],
    ['carrots', 'p4-10', 17.5, 11, [17, 25]],
    ['corn-whole-kernel', 'p4-11', 31.5, 20, [6, 11]],
    ['okra', 'p4-14', 11, 7, [16, 18]],
    ['peas-green', 'p4-14', 31.5, 20, [5, 10]],
    ['sweet-potatoes', 'p4-16', 17.5, 11, [17, 25]],
    ['potatoes-white', 'p4-17', 20, 13, [18, 22]],
    ['spinach-greens', 'p4-19', 28, 18, [3, 9]],
    ['cucumbers', 'p6-5', 14, 9, [16, 24]],
  ] as const)(
    '%s (%s): %d lb for 7 quarts, %d lb for 9 pints',
    (foodKey, page, sevenQuarts, ninePints, [low, high]) => {
      const row = yieldOf(foodKey);

      expect(row.locator).toContain(page);
      expect(row.lbPerSevenQuartLoad).toEqual({ low: sevenQuarts, high: sevenQuarts });
      expect(row.lbPerNinePintLoad).toEqual({ low: ninePints, high: ninePints });
      expect(row).toMatchObject({ quantity: 1, yieldLowQuarts: low, yieldHighQuarts: high });
    },
  );

  test('thin sauce needs 35 lb for 7 quarts, thick sauce 46 lb (Guide 3, p3-8)', () => {
    expect(yieldOf('tomato-sauce', 'thin').lbPerSevenQuartLoad?.low).toBe(35);
    expect(yieldOf('tomato-sauce', 'thick').lbPerSevenQuartLoad?.low).toBe(46);
  });

  test('a bushel of sauce apples weighs 48 lb; a quart of peaches takes 2.5 lb; of figs no yield is printed', () => {
    expect(yieldOf('applesauce')).toMatchObject({ unit: 'bushel', unitWeightLb: 48 });
    expect(yieldOf('peaches').lbPerQuart).toEqual({ low: 2.5, high: 2.5 });
    expect(yieldOf('figs').yieldLowQuarts).toBeNull();
  });
});

// USDA Complete Guide, Guides 2, 3, 6 and 7; University of Missouri Extension, Seasonal and Simple: batch yields.
describe('tested batches, one recipe a line', () => {
  test.each([
    ['apple-butter', 'p2-6', 'pint', 8, 9],
    ['berry-syrup', 'p2-10', 'half-pint', 9, 9],
    ['spiced-apple-rings', 'p2-8', 'pint', 8, 9],
    ['mango-chutney', 'p2-16', 'pint', 6, 6],
    ['apple-pie-filling', 'p2-26', 'quart', 7, 7],
    ['peach-apple-salsa', 'p2-25', 'pint', 7, 7],
    ['spaghetti-sauce-no-meat', 'p3-13', 'pint', 9, 9],
    ['tomato-ketchup', 'p3-17', 'pint', 6, 7],
    ['chile-salsa', 'p3-21', 'pint', 6, 8],
    ['tomato-salsa-paste', 'p3-23', 'pint', 16, 18],
    ['chile-con-carne', 'p5-8', 'pint', 9, 9],
    ['sauerkraut', 'p6-8', 'quart', 9, 9],
    ['bread-and-butter-pickles', 'p6-9', 'pint', 8, 8],
    ['quick-dill-pickles', 'p6-10', 'pint', 7, 9],
    ['pickled-beets', 'p6-15', 'pint', 8, 8],
    ['green-tomato-relish', 'p6-29', 'pint', 7, 9],
    ['apple-jelly', 'p7-5', 'half-pint', 4, 5],
    ['strawberry-rhubarb-jelly', 'p7-8', 'half-pint', 7, 7],
    ['blueberry-spice-jam', 'p7-9', 'half-pint', 5, 5],
    ['grape-plum-jelly', 'p7-10', 'half-pint', 10, 10],
    ['peach-jam-liquid', 'recipe 147', 'half-pint', 8, 8],
    ['14-day-sweet-pickles', 'recipe 330', 'pint', 5, 9],
  ] as const)('%s (%s) gives %s jars, %d to %d', (key, page, jar, low, high) => {
    const recipe = recipeOf(key);
    const once = answerOf(scaleBatches(recipe, 1));

    expect(recipe.source.locator).toContain(page);
    expect(recipe.yield).toEqual({ low, high, jar });
    expect(once).toMatchObject({ stockJars: low, jarsToPrepare: high + 1, lids: high + 1 });
  });

  test('a batch of apple butter: 8 lb apples, 2 cups each of cider and vinegar, 2¼ cups of each sugar (p2-6)', () => {
    const amounts = recipeOf('apple-butter').ingredients.map(({ ingredient, quantity, unit }) => [
      ingredient,
      quantity.high,
      unit,
    ]);

    expect(amounts.slice(0, 5)).toEqual([
      ['apples', 8, 'lb'],
      ['cider', 2, 'cup'],
      ['vinegar', 2, 'cup'],
      ['white sugar', 2.25, 'cup'],
      ['brown sugar, packed', 2.25, 'cup'],
    ]);
  });

  test('two batches of apple butter: 16 lb of apples, 16 in stock, 19 jars ready', () => {
    const twice = answerOf(scaleBatches(recipeOf('apple-butter'), 2));

    expect(twice.produce[0]?.pounds).toEqual({ low: 16, high: 16 });
    expect(twice).toMatchObject({ stockJars: 16, jarsToPrepare: 19 });
  });

  test('in half-pints the same batch fills twice as many jars; in quarts the low end rounds down, the high up', () => {
    expect(answerOf(scaleBatches(recipeOf('apple-butter'), 1, 'half-pint'))).toMatchObject({
      stockJars: 16,
      jarsToPrepare: 19,
    });
    expect(answerOf(scaleBatches(recipeOf('apple-butter'), 1, 'quart'))).toMatchObject({
      stockJars: 4,
      jarsToPrepare: 6,
    });
  });
});

describe('scaling', () => {
  test.each([0, -1, 1.5, Number.NaN, 1000])('%d batches are refused', (batches) => {
    expect(codesOf(scaleBatches(recipeOf('apple-butter'), batches))).toEqual(['batches-not-whole']);
  });

  test('three batches of jam are three pots in sequence, three of ketchup one', () => {
    expect(answerOf(scaleBatches(recipeOf('strawberry-jam'), 3)).pots).toBe(3);
    expect(answerOf(scaleBatches(recipeOf('tomato-ketchup'), 3)).pots).toBe(1);
  });

  test('no jam, jelly or spread is ever multiplied in one pot (USDA Complete Guide 1, p1-30)', () => {
    const multiplied = book.filter(
      (recipe) => ['jam', 'jelly', 'spread'].includes(recipe.kind) !== recipe.onePot,
    );

    expect(multiplied.map((recipe) => recipe.key)).toEqual([]);
  });

  test('more batches never need less nor give less, for every recipe (seed 20260817)', () => {
    fc.assert(
      fc.property(fc.constantFrom(...book), fc.integer({ min: 1, max: 20 }), (recipe, batches) => {
        const fewer = answerOf(scaleBatches(recipe, batches));
        const more = answerOf(scaleBatches(recipe, batches + 1));

        expect(more.stockJars).toBeGreaterThanOrEqual(fewer.stockJars);
        expect(more.jarsToPrepare).toBeGreaterThan(more.stockJars);
        expect(more.lids).toBe(more.jarsToPrepare);
        more.produce.forEach((line, index) => {
          const before = fewer.produce[index]?.pounds;
          if (line.pounds && before)
            expect(line.pounds.low * batches).toBeCloseTo(before.low * (batches + 1), 9);
        });
      }),
      { seed: 20_260_817, numRuns: 500 },
    );
  });
});

describe('shopping for a session', () => {
  const linesOf = (...session: Parameters<typeof scaleBatches>[]) =>
    shoppingList(
      session.map((asked) => answerOf(scaleBatches(...asked))),
      tables,
    );

  test('sugar of several recipes is summed in cups and bought in whole pounds', () => {
    // 2 × 8 cups and 3 × 7 cups of 200 g are 37 cups, 7,400 g, 16.3 lb.
    const lines = linesOf([recipeOf('strawberry-jam'), 2], [recipeOf('peach-jam-liquid'), 3]);

    expect(lines.find(({ name }) => name === 'sugar')).toMatchObject({ buy: 17, unit: 'lb' });
    expect(lines.find(({ name }) => name === 'sugar')?.needed).toBeCloseTo(16.31, 2);
  });

  test('pectin is bought by the box and the pouch', () => {
    const lines = linesOf([recipeOf('blueberry-spice-jam'), 2], [recipeOf('strawberry-rhubarb-jelly'), 1]);

    expect(lines.find(({ name }) => name === 'powdered pectin')).toMatchObject({ buy: 2, unit: 'package' });
    expect(lines.find(({ name }) => name === 'liquid pectin')).toMatchObject({ buy: 2, unit: 'pouch' });
  });

  test('a load of peaches in light syrup: 17.5 lb peaches, 2¼ cups sugar, no water (Guide 2, p2-5 and p2-19)', () => {
    const lines = linesOf([recipeOf('peaches-quarts'), 1]);

    expect(lines.map(({ name, buy, unit }) => [name, buy, unit])).toEqual([
      ['peaches', 17.5, 'lb'],
      ['sugar', 1, 'lb'],
    ]);
  });

  test('acid per jar is added by the jar: 9 quarts of tomatoes take 18 tbsp of lemon juice, 2 cups bought', () => {
    const lines = shoppingList([], tables, [
      {
        recipeName: 'Tomatoes',
        jars: 9,
        amount: {
          acid: 'bottled_lemon_juice',
          quantity: 2,
          unit: 'tbsp',
          source: { sourceId: 'USDA-G3', locator: 'p3-5', basis: 'read' },
        },
      },
    ]);

    expect(lines).toMatchObject([{ name: 'bottled lemon juice', needed: 1.125, buy: 2, unit: 'cup' }]);
  });

  test('nothing is dropped, and never less bought than needed, for every recipe', () => {
    for (const recipe of book.filter(({ material }) => material === null)) {
      const lines = linesOf([recipe, 3]);
      const bought = recipe.ingredients.filter(({ kind }) => kind !== 'own');

      expect(lines.length, recipe.key).toBeGreaterThan(0);
      expect(lines.length, recipe.key).toBeLessThanOrEqual(bought.length);
      for (const line of lines)
        expect(line.buy, `${recipe.key} ${line.name}`).toBeGreaterThanOrEqual(line.needed - 1e-6);
    }
  });
});

describe('a tested batch', () => {
  test('is made whole, 1 to 100 times', () => {
    for (const batches of [1, 100]) expect(scaleBatches(recipeOf('apple-butter'), batches).ok).toBe(true);
    for (const batches of [0, 101, 1.5, -1, Number.NaN])
      expect(scaleBatches(recipeOf('apple-butter'), batches)).toMatchObject({
        ok: false,
        problems: [
          {
            code: 'batches-not-whole',
            path: ['batches'],
            message: `A tested batch is not divided: ${batches} is not a whole number from 1 to 100 (USDA-G1, p1-30). Make one whole batch, or freeze part of the produce.`,
          },
        ],
      });
  });
});
