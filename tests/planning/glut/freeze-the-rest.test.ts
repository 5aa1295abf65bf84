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
