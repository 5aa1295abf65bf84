import { describe, expect, it } from 'vitest';
import {
  givenOf,
  needOf,
  type RawMaterial,
  rawMaterialsOf,
} from '../../../src/planning/model/raw-materials.ts';
import type { PlannedMaterial } from '../../../src/planning/planning-year.ts';
import { handMadeYear, named, produceOf, recipe, source, used } from './hand-made-year.ts';

const material = (id: string, parts: Partial<PlannedMaterial> = {}): PlannedMaterial => ({
  id,
  name: id,
  unit: 'lb',
  opening: 0,
  keepsDaysCold: 0,
  keepsMonthsFrozen: null,
  quartsPerUnit: 0.5,
  ...parts,
});
const takes = (materialId: string) => [{ materialId, quantity: 2 }];

describe('what the recipes are made of', () => {
  const found = () =>
    rawMaterialsOf(
      handMadeYear(3, {
        items: [used('jam', [1, 1, 1])],
        recipes: [
          recipe('a', 'jam', { produce: [produceOf('plum', 4), produceOf('apple', 1)], uses: takes('pulp') }),
          recipe('b', 'jam', { produce: [produceOf('plum', 2)], uses: takes('whey') }),
        ],
        sources: [
          source('orchard', 'plum', [0, 5, 0], { useByDays: 20 }),
          source('meadow', 'pear', [5, 5, 5], { useByDays: 40 }),
          source('tree', 'plum', [0, 0, 0], { useByDays: 60 }),
          source('stall', 'plum', [4, 4, 4], { useByDays: 13 }),
        ],
        materials: [
          material('pulp', { opening: 3, keepsDaysCold: 21, keepsMonthsFrozen: 12 }),
          material('unused'),
          material('whey', { keepsDaysCold: 6 }),
        ],
        freezable: [
          { crop: named('pear'), openingLb: 9, keepsMonthsFrozen: 1, quartsPerLb: 1 },
          { crop: named('plum'), openingLb: 2, keepsMonthsFrozen: 8, quartsPerLb: 0.7 },
        ],
      }),
    );

  it('is crops first and by-products then, only those that some recipe takes', () => {
    expect(found().map(({ key, kind }) => `${key}: ${kind}`)).toEqual([
      'apple: crop',
      'plum: crop',
      'pulp: by-product',
      'whey: by-product',
    ]);
    expect(rawMaterialsOf(handMadeYear(1))).toEqual([]);
  });

  it('of a crop waits as long as that of the source that keeps it longest and gives any', () => {
    expect(found()[1]).toEqual({
      key: 'plum',
      kind: 'crop',
      sources: [0, 2, 3],
      opening: 0,
      openingBeyond: [],
      carryWeeks: 2,
      // 8 months of 30.4 days are 34.8 weeks.
      freezer: { opening: 2, weeks: 34, quartsPerUnit: 0.7 },
    });
    expect(found()[0]).toMatchObject({ sources: [], carryWeeks: 0, freezer: null });
  });

  it('of a by-product waits as long as it keeps, in the cold and frozen', () => {
    expect(found()[2]).toEqual({
      key: 'pulp',
      kind: 'by-product',
      sources: [],
      opening: 3,
      openingBeyond: [3, 3, 3],
      carryWeeks: 3,
      freezer: { opening: 0, weeks: 52, quartsPerUnit: 0.5 },
    });
    expect(found()[3]).toMatchObject({ carryWeeks: 0, openingBeyond: [], freezer: null });
  });
});

describe('what one batch takes and gives', () => {
  const crop = { key: 'plum', kind: 'crop' } as RawMaterial;
  const pulp = { key: 'pulp', kind: 'by-product' } as RawMaterial;
  const batch = recipe('a', 'jam', {
    produce: [produceOf('plum', 4), produceOf('plum', 3, true), produceOf('pear', 9)],
    uses: [...takes('pulp'), ...takes('plum'), ...takes('pulp')],
    gives: [
      { materialId: 'pulp', quantity: 5 },
      { materialId: 'plum', quantity: 8 },
      { materialId: 'pulp', quantity: 1 },
    ],
  });

  it('is all of a crop, and of that what may not have been frozen', () => {
    expect(needOf(batch, crop)).toEqual({ any: 7, freshOnly: 4 });
    expect(needOf(recipe('b', 'jam'), crop)).toEqual({ any: 0, freshOnly: 0 });
  });

  it('is all of a by-product, which may always have been frozen', () => {
    expect(needOf(batch, pulp)).toEqual({ any: 4, freshOnly: 0 });
  });

  it('gives by-products and no crop', () => {
    expect(givenOf(batch, pulp)).toBe(6);
    expect(givenOf(batch, crop)).toBe(0);
  });
});
