import { describe, expect, test } from 'vitest';
import type { Material } from '../../../src/household/supplies.ts';
import {
  byProductKey,
  byProductOf,
  byProductsOfBook,
  learntLeft,
} from '../../../src/preserving/recipes/by-product.ts';
import { basedOnWay } from '../../../src/preserving/uncanned/uncanned-ways.ts';
import { copyOf, ownRecipe } from '../own-kitchen.ts';
import { tables } from '../tables.ts';

const pulp = { id: 'pulp', name: 'Apple Pulp', unit: 'cup', keepsDaysCold: 2 } as Material;
const whey = { id: 'whey', name: 'Whey', unit: 'qt', keepsDaysCold: 5 } as Material;

describe('the key of a by-product', () => {
  test.each([
    ['Apple pulp', 'apple-pulp'],
    ['apple peels & cores', 'apple-peels-cores'],
    ['  Tomato skins! ', 'tomato-skins'],
    ['Stock No. 2', 'stock-no-2'],
    ['--', ''],
  ])('%s is %s', (name, key) => {
    expect(byProductKey(name)).toBe(key);
  });
});

describe('the by-products the book names', () => {
  const rowOf = (material: string, keepDays: number, recipeKey = 'x') =>
    ({
      recipeKey,
      material,
      keepDays,
      sourceId: 'S',
      locator: `${material} ${keepDays}`,
      basis: 'read',
    }) as never;

  test('stand once each, by name', () => {
    const names = byProductsOfBook(tables).map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(names.toSorted());
    expect(new Set(names)).toEqual(new Set(tables.recipeByProducts.map(({ material }) => material)));
  });

  test('keep the shortest of the days named for each, with where that stands', () => {
    const recipeByProducts = [
      rowOf('pulp', 4),
      rowOf('pulp', 2),
      rowOf('pulp', 3),
      rowOf('bones', 1),
      rowOf('bones', 2),
    ];
    expect(byProductsOfBook({ recipeByProducts })).toEqual([
      {
        key: 'bones',
        name: 'bones',
        keepsDays: 1,
        source: { sourceId: 'S', locator: 'bones 1', basis: 'read' },
      },
      {
        key: 'pulp',
        name: 'pulp',
        keepsDays: 2,
        source: { sourceId: 'S', locator: 'pulp 2', basis: 'read' },
      },
    ]);
  });
});

describe('the by-product of a recipe', () => {
  const jelly = copyOf('apple-jelly');

  test('is as the household named it, before anything published', () => {
    const gives = [{ materialId: 'whey', quantity: 2 }];
    expect(byProductOf({ ...jelly, gives }, [pulp, whey], tables)).toEqual({
      materialId: 'whey',
      name: 'Whey',
      unit: 'qt',
      keepsDays: 5,
      source: null,
    });
  });

  test('else as the book has it: apple jelly leaves apple pulp, in the household’s own word and unit where it keeps it', () => {
    expect(byProductOf(jelly, [], tables)).toMatchObject({
      materialId: null,
      name: 'apple pulp',
      unit: 'lb',
      keepsDays: 3,
    });
    expect(byProductOf(jelly, [whey, pulp], tables)).toMatchObject({
      materialId: 'pulp',
      name: 'Apple Pulp',
      unit: 'cup',
      keepsDays: 3,
    });
    expect(byProductOf(jelly, [], tables)?.source).toContain('from memory');
    // A material that was given up since is no longer known.
    expect(
      byProductOf({ ...jelly, gives: [{ materialId: 'gone', quantity: 1 }] }, [whey], tables)?.name,
    ).toBe('apple pulp');
  });

  test('is none where the book names none, or where the recipes of one food leave different things', () => {
    expect(byProductOf(copyOf('peaches-pints'), [pulp], tables)).toBeNull();
    expect(byProductOf(ownRecipe('Plums'), [pulp], tables)).toBeNull();
    expect(byProductOf(copyOf('apples-sliced-pints'), [], tables)?.name).toBe('apple peels and cores');
  });

  test('of a way of the book that is not canned is what is named for that way', () => {
    const rowOf = (recipeKey: string, material: string) =>
      ({ ...tables.recipeByProducts[0], recipeKey, material, keepDays: 1 }) as never;
    const peas = ownRecipe('Peas', { basedOn: basedOnWay('peas-frozen') });
    const of = (...recipeByProducts: readonly never[]) =>
      byProductOf(peas, [], { ...tables, recipeByProducts });
    expect(of(rowOf('peas-frozen', 'pea pods'), rowOf('okra-frozen', 'okra tops'))).toMatchObject({
      name: 'pea pods',
      keepsDays: 1,
    });
    expect(of(rowOf('peas-frozen', 'pea pods'), rowOf('peas-frozen', 'pea pods'))?.name).toBe('pea pods');
    expect(of(rowOf('peas-frozen', 'pea pods'), rowOf('peas-frozen', 'pea tops'))).toBeNull();
    expect(of(rowOf('okra-frozen', 'okra tops'))).toBeNull();
  });
});

describe('what one batch leaves', () => {
  test.each([
    { said: 2, weighed: [2.6, 2.9], left: 2.5 },
    { said: null, weighed: [2.6, 2.9], left: 2.75 },
    { said: 2, weighed: [], left: 2 },
    { said: null, weighed: [], left: null },
    { said: 0, weighed: [3], left: 1.5 },
  ])('said $said lb, weighed $weighed: $left lb', ({ said, weighed, left }) => {
    if (left === null) expect(learntLeft(said, weighed)).toBeNull();
    else expect(learntLeft(said, weighed)).toBeCloseTo(left, 12);
  });
});
