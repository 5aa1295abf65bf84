import { describe, expect, test } from 'vitest';
import { asJarKind } from '../../../shared/jar.ts';
import { type Glut, glutSource, glutWays } from '../../../src/planning/glut/glut.ts';
import type { PlannedRecipe } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumYear } from '../plum-year.ts';
import { dried, glutYear, plum, plumsOf, recipeOf, wanting } from './glut-kitchen.ts';

const glutOf = (lb: number): Glut => ({ crop: plum, lb });
const ways = (recipes: readonly PlannedRecipe[], lb: number, toCome: number | null = 100) =>
  glutWays(glutYear(recipes), glutOf(lb), () => (toCome === null ? null : wanting(toCome)));
const processing = jamRecipe.processing as NonNullable<PlannedRecipe['processing']>;

describe('the source of a glut', () => {
  test('is named by its crop, in no more than 64 letters', () => {
    expect(glutSource({ crop: plum })).toBe('glut-of-plum');
    expect(glutSource({ crop: 'p'.repeat(80) as never })).toBe(`glut-of-${'p'.repeat(56)}`);
  });
});

describe('what a glut can become', () => {
  test('is as many whole batches as it fills, and what is left', () => {
    const of = (lb: number) =>
      ways([recipeOf('jam')], lb).map(({ batches, lbUsed, lbLeft }) => [batches, lbUsed, lbLeft]);
    expect(of(9.9)).toEqual([]);
    expect(of(10)).toEqual([[1, 10, 0]]);
    expect(of(29)).toEqual([[2, 20, 9]]);
    const twice = recipeOf('twice', { produce: [...plumsOf(6).produce, ...plumsOf(4).produce] });
    expect(ways([twice], 20)).toMatchObject([{ batches: 2, lbUsed: 20 }]);
    const pears = recipeOf('pears', { produce: [{ crop: 'pear' as never, lb: 1, mayBeFrozen: false }] });
    expect(ways([pears], 20)).toEqual([]);
  });

  test('a third of a pound three times is a pound', () => {
    expect(ways([dried('third', 1, plumsOf(0.1))], 0.3)).toMatchObject([{ batches: 3 }]);
  });

  test('says what the year still wants of it, and in how many batches', () => {
    const wanted = (toCome: number | null) =>
      ways([recipeOf('jam')], 10, toCome).map(({ unitsStillWanted, batchesWanted }) => [
        unitsStillWanted,
        batchesWanted,
      ])[0];
    expect(wanted(null)).toEqual([0, 0]);
    expect(wanted(0)).toEqual([0, 0]);
    expect(wanted(1)).toEqual([1, 1]);
    expect(wanted(7)).toEqual([7, 1]);
    expect(wanted(7.1)).toEqual([7.1, 2]);
  });

  test('comes by the batches wanted, then by the pounds used, then by its id', () => {
    const ids = (recipes: readonly PlannedRecipe[], lb: number, toCome: number) =>
      ways(recipes, lb, toCome).map(({ recipe }) => recipe);
    const recipes = [
      dried('c', 10, { ...plumsOf(10), yieldLowUnits: 1 }),
      dried('a', 10, { ...plumsOf(15), yieldLowUnits: 1 }),
      dried('d', 10, { ...plumsOf(15), yieldLowUnits: 1 }),
      dried('b', 10, { ...plumsOf(16), yieldLowUnits: 1 }),
    ];
    // Of 32 lb: three of c, two each of the others; b uses 32, a and d 30.
    expect(ids(recipes, 32, 100)).toEqual(['c', 'b', 'a', 'd']);
    expect(ids(recipes.toReversed(), 32, 100)).toEqual(['c', 'b', 'a', 'd']);
    // Where one batch is wanted of each, the pounds alone count.
    expect(ids(recipes, 32, 1)).toEqual(['b', 'a', 'c', 'd']);
  });

  test('needs jars and lids of its mouth, beyond those that are empty and on hand', () => {
    const quart = asJarKind('quart', 'wide');
    const year = glutYear([recipeOf('jam'), recipeOf('quarts', { jarKind: quart })], {
      jars: plumYear().jars.map((holding) => ({ ...holding, empty: 5 })),
      lids: plumYear().lids,
    });
    expect(glutWays(year, glutOf(10), () => null).map(({ jars, lids }) => [jars, lids])).toEqual([
      [
        { kind: jamRecipe.jarKind, mouth: 'regular', count: 8, missing: 3 },
        { count: 9, missing: 0 },
      ],
      [
        { kind: quart, mouth: 'wide', count: 8, missing: 8 },
        { count: 9, missing: 9 },
      ],
    ]);
  });

  test('needs none where it goes into none, no canner, and supplies beyond those on hand', () => {
    const [way] = ways(
      [
        dried('leather', 40, {
          ...plumsOf(5),
          supplies: ['sugar', 'salt'].map((supplyId) => ({ supplyId, quantity: 3 })),
        }),
      ],
      10,
    );
    expect(way).toMatchObject({
      jars: null,
      lids: null,
      loads: 0,
      handsOnMinutes: 80,
      cannerMinutes: 0,
      processing: null,
      supplies: [
        { supplyId: 'sugar', name: 'Sugar', quantity: 6, missing: 2, unit: 'lb' },
        { supplyId: 'salt', name: 'salt', quantity: 6, missing: 6, unit: '' },
      ],
    });
    const [little] = ways(
      [dried('leather', 40, { ...plumsOf(5), supplies: [{ supplyId: 'sugar', quantity: 1 }] })],
      10,
    );
    expect(little?.supplies[0]?.missing).toBe(0);
  });

  test('names its tested schedule, and the loads and minutes of all its batches', () => {
    const beans = recipeOf('beans', {
      name: 'Beans',
      yieldHighJars: 16,
      processing: { ...processing, psi: 13, scheduleKey: 'beans-pint', minutes: 20 },
    });
    expect(ways([beans], 20)).toMatchObject([
      {
        recipe: 'beans',
        name: 'Beans',
        item: jamRecipe.itemId,
        units: 14,
        loads: 4,
        handsOnMinutes: 2 * 90 + 4 * 10,
        cannerMinutes: 4 * 50,
        processing: { minutes: 20, psi: 13, scheduleKey: 'beans-pint' },
      },
    ]);
  });
});
