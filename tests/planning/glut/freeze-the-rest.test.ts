import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { CropKey } from '../../../shared/ids.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { freezeTheRest } from '../../../src/planning/glut/freeze-the-rest.ts';
import { basedOnWay } from '../../../src/preserving/uncanned/uncanned-ways.ts';

const reference = loadReferenceTables();
const crops = [
  ...new Set(
    reference.uncannedWays.flatMap(({ keeping, cropKey }) =>
      keeping === 'frozen' && cropKey !== null ? [cropKey.replaceAll('_', '-') as CropKey] : [],
    ),
  ),
];
const based = (wayKey: string) => ({ basedOn: basedOnWay(wayKey) }) as Recipe;

describe('the rest of a glut in the freezer', () => {
  test('fits the room and the pounds that are left, by the high published figure, of every crop of the book', () => {
    expect(crops.length).toBeGreaterThan(15);
    fc.assert(
      fc.property(
        fc.constantFrom(...crops),
        fc.double({ min: 0, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (crop, lbLeft, freezerQuarts) => {
          for (const { way, units, lb } of freezeTheRest(crop, { lbLeft, freezerQuarts }, [], reference)) {
            expect(way.keeping).toBe('frozen');
            expect(units * (way.freezerQuarts ?? 0)).toBeLessThanOrEqual(freezerQuarts + 1e-6);
            expect(lb).toBeLessThanOrEqual(lbLeft + 1e-6);
            if (way.lbPerUnit !== null) {
              expect(units).toBeGreaterThanOrEqual(1);
              // One more would not fit or not be there.
              expect(
                (units + 1) * (way.freezerQuarts ?? 0) > freezerQuarts - 1e-6 ||
                  (units + 1) * way.lbPerUnit.high > lbLeft - 1e-6,
              ).toBe(true);
            }
          }
        },
      ),
    );
  });

  test('leaves out a way the household makes already, and everything without room or rest', () => {
    const room = { lbLeft: 20, freezerQuarts: 20 };
    const [peaches] = freezeTheRest('peach' as CropKey, room, [], reference);
    if (peaches === undefined) throw new Error('expected a way to freeze peaches in the book');

    expect(
      freezeTheRest('peach' as CropKey, room, [based(peaches.way.wayKey)], reference),
    ).not.toContainEqual(peaches);
    expect(freezeTheRest('peach' as CropKey, { ...room, freezerQuarts: 0 }, [], reference)).toEqual([]);
    expect(freezeTheRest('peach' as CropKey, { ...room, lbLeft: 0 }, [], reference)).toEqual([]);
  });
});

describe('one way of a book to freeze what is left', () => {
  const way = (change: object = {}) =>
    ({
      wayKey: 'peppers-sliced',
      keeping: 'frozen',
      cropKey: 'pepper_sweet',
      freezerQuarts: 1,
      lbPerUnit: { low: 1, high: 1.5 },
      ...change,
    }) as never;
  const frozen = (
    change: object = {},
    { lbLeft = 10, freezerQuarts = 20, recipes = [] as readonly Recipe[] } = {},
  ) =>
    freezeTheRest('pepper-sweet' as CropKey, { lbLeft, freezerQuarts }, recipes, {
      uncannedWays: [way(change)],
    }).map(({ units, lb }) => [units, lb]);

  test('takes as many units as the pounds fill, by the high figure, and as have room', () => {
    expect(frozen()).toEqual([[6, 9]]);
    expect(frozen({}, { lbLeft: 9 })).toEqual([[6, 9]]);
    expect(frozen({}, { freezerQuarts: 4 })).toEqual([[4, 6]]);
    expect(frozen({ freezerQuarts: 1.5 }, { freezerQuarts: 4.4 })).toEqual([[2, 3]]);
  });

  test('three times a tenth is three tenths', () => {
    const tenth = { freezerQuarts: 0.1, lbPerUnit: { low: 0.1, high: 0.1 } };
    expect(frozen(tenth, { lbLeft: 0.3 })[0]?.[0]).toBe(3);
    expect(frozen(tenth, { freezerQuarts: 0.3 })[0]?.[0]).toBe(3);
  });

  test('is none where not one unit fits, by its room or its pounds', () => {
    expect(frozen({ freezerQuarts: 20 })).toHaveLength(1);
    expect(frozen({ freezerQuarts: 20.1 })).toEqual([]);
    expect(frozen({}, { lbLeft: 1.5 })).toEqual([[1, 1.5]]);
    expect(frozen({}, { lbLeft: 1.4 })).toEqual([]);
    expect(frozen({ freezerQuarts: null })).toEqual([]);
  });

  test('without printed pounds takes all of the rest, to be weighed, where a unit fits', () => {
    expect(frozen({ lbPerUnit: null })).toEqual([[0, 10]]);
    expect(frozen({ lbPerUnit: null, freezerQuarts: 21 })).toEqual([]);
    expect(frozen({ lbPerUnit: null, freezerQuarts: null })).toEqual([]);
    // A crumb is no rest.
    expect(frozen({ lbPerUnit: null }, { lbLeft: 0.05 })).toEqual([[0, 0.05]]);
    expect(frozen({ lbPerUnit: null }, { lbLeft: 0.04 })).toEqual([]);
  });

  test('is of its own crop, frozen, and not made by the household already', () => {
    expect(frozen({ cropKey: 'pepper_hot' })).toEqual([]);
    expect(frozen({ cropKey: null })).toEqual([]);
    expect(frozen({ keeping: 'dried' })).toEqual([]);
    expect(frozen({}, { recipes: [based('peppers-sliced')] })).toEqual([]);
    expect(frozen({}, { recipes: [based('peppers-whole')] })).toHaveLength(1);
  });
});
