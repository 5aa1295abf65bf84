import { describe, expect, test } from 'vitest';
import { type Bound, bounds } from '../../../shared/bounds.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { batchProblems } from '../../../src/preserving/recipes/batch-bounds.ts';
import { copiedRecipe } from '../../../src/preserving/recipes/copied-recipe.ts';
import { mayBeFrozenFirst } from '../../../src/preserving/recipes/frozen-first.ts';
import { acidityOf } from '../../../src/preserving/recipes/item-acidity.ts';
import { copyOf, itemOf, ofBook, ownRecipe } from '../own-kitchen.ts';
import { tables } from '../tables.ts';

describe('numbers of a batch that no household means', () => {
  const usual = { yieldLow: 7, yieldHigh: 9, handsOnMinutes: 90 };
  const messages = (change: Partial<typeof usual>, counted: readonly (number | undefined)[] = []) =>
    batchProblems({ ...usual, ...change }, counted).map(({ path, message }) => `${path.join()}: ${message}`);
  const after = 'Correct it, or add the recipe from the book again.';

  test('what lies within its bounds is let through, both ends and equal ends among it', () => {
    const { batchYield, handsOnMinutes, halfPintsInLoad } = bounds;
    expect(batchProblems(usual)).toEqual([]);
    expect(batchProblems({ ...usual, yieldLow: 9 })).toEqual([]);
    expect(messages({ yieldHigh: batchYield.to })).toEqual([]);
    expect(messages({ yieldLow: batchYield.from })).toEqual([]);
    for (const minutes of [handsOnMinutes.from, handsOnMinutes.to])
      expect(messages({ handsOnMinutes: minutes })).toEqual([]);
    expect(messages({}, [undefined, halfPintsInLoad.from, halfPintsInLoad.to])).toEqual([]);
  });

  const past = ({ to }: Bound) => to + 1;

  test('each beyond its bound is named as its field is labeled, with what was found', () => {
    expect(messages({ yieldHigh: 1_000_000 })).toEqual([
      `yieldHigh: What a batch gives, at most must be a number from 0.01 to 500; found 1,000,000. ${after}`,
    ]);
    expect(messages({ yieldLow: 0 })).toEqual([
      `yieldLow: What a batch gives, at least must be a number from 0.01 to 500; found 0. ${after}`,
    ]);
    expect(messages({ handsOnMinutes: past(bounds.handsOnMinutes) })).toEqual([
      expect.stringMatching(
        /^handsOnMinutes: Hands-on minutes of a batch must be .*; found 1,441\. Correct it/,
      ),
    ]);
    expect(messages({}, [7, past(bounds.halfPintsInLoad)])).toEqual([
      expect.stringMatching(/^canner: Jars in a load must be .*; found 101\. Correct it/),
    ]);
    expect(batchProblems({ ...usual, yieldLow: 0 })[0]?.code).toBe('number-out-of-bounds');
  });

  test('a batch cannot give less at most than at least', () => {
    expect(messages({ yieldLow: 9.5 })).toEqual([
      `yieldHigh: A batch that gives at least 9.5 cannot give at most 9. Change one of the two. ${after}`,
    ]);
  });
});

describe('produce that may wait in the freezer', () => {
  test('is that of jams, jellies and syrups of the book, and of nothing else that was tested', () => {
    for (const kind of ['jam', 'jelly', 'syrup'] as const) {
      expect(mayBeFrozenFirst(kind, false)).toBe(true);
      expect(mayBeFrozenFirst(kind, true)).toBe(true);
    }
    for (const kind of ['fruit', 'butter', 'tomato', 'pickle', 'ferment'] as const)
      expect(mayBeFrozenFirst(kind, true)).toBe(false);
  });

  test('is the household’s choice in a way of its own that is never canned', () => {
    expect(mayBeFrozenFirst(null, true)).toBe(true);
    expect(mayBeFrozenFirst(null, false)).toBe(false);
  });
});

describe('the tested recipe a household’s own copies', () => {
  test('is that of the book, or none', () => {
    expect(copiedRecipe(copyOf('apple-butter'), tables)?.key).toBe('apple-butter');
    expect(copiedRecipe(ownRecipe('Plums'), tables)).toBeUndefined();
    expect(copiedRecipe({ basedOn: 'plum-jam', process: null }, tables)).toBeUndefined();
  });

  test('of a food with several recipes is the one that has its process', () => {
    const pints = copyOf('beans-snap-pints');
    const byFood = copiedRecipe({ basedOn: 'beans-snap', process: pints.process }, tables);
    expect(byFood?.processes).toContainEqual(ofBook('beans-snap-pints').processes[0]);
  });
});

describe('how acid an item is', () => {
  const item = itemOf('Something');
  const of = (...recipes: readonly Recipe[]) => acidityOf(item, recipes, tables);
  const acidOf = (key: string) =>
    tables.processTimes.find(({ foodKey }) => foodKey === ofBook(key).processes[0]?.foodKey)?.acidity;

  // USDA Complete Guide 1, p1-9: fruit is acid, tomatoes are acidified, vegetables are low in acid.
  test('is as the printed rows of its recipe say', () => {
    expect(of(copyOf('peaches-pints'))).toBe('acid');
    expect(of(copyOf('tomatoes-crushed-pints'))).toBe('acidified');
    expect(of(copyOf('beans-snap-pints'))).toBe('low-acid');
    expect(acidOf('tomatoes-crushed-pints')).toBe('acidified');
  });

  test('is the least acid of several', () => {
    const [peaches, tomatoes, beans] = ['peaches-pints', 'tomatoes-crushed-pints', 'beans-snap-pints'].map(
      (key) => copyOf(key),
    ) as [Recipe, Recipe, Recipe];
    expect(of(peaches, tomatoes)).toBe('acidified');
    expect(of(beans, tomatoes, peaches)).toBe('low-acid');
  });

  test('counts recipes of the item itself alone', () => {
    const beans = { ...copyOf('beans-snap-pints'), itemId: 'another' as never };
    expect(of(copyOf('peaches-pints'), beans)).toBe('acid');
    expect(of(beans)).toBe('unknown');
  });

  test('is unknown where what is canned names no process, and nothing to ask of what is not', () => {
    expect(of()).toBe('unknown');
    expect(of(ownRecipe('Plums'))).toBe('unknown');
    expect(acidityOf({ ...item, keeping: 'frozen' }, [copyOf('peaches-pints')], tables)).toBeNull();
  });
});
