import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { asDate } from '../../shared/week.ts';
import type { Household } from '../../src/household/household.ts';
import type { Item } from '../../src/household/item.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import { emergencyAdvice, emergencyShelf } from '../../src/shelf/emergency-shelf.ts';

const { emergencyAdvice: rows, sources } = loadReferenceTables();
const advice = emergencyAdvice(rows);

const household = (over: Partial<Household>) =>
  ({ people: 4, emergencyDays: 14, waterGallons: null, waterFilledOn: null, ...over }) as Household;
const item = (id: string, emergencyUnits: number | null, servingsPerUnit: number | null) =>
  ({ id, name: id, usualJar: null, emergencyUnits, servingsPerUnit, retiredOn: null }) as unknown as Item;
const lot = (itemId: string, unitsLeft: number, setAside: LotOnShelf['setAside'] = null) =>
  ({ itemId, unitsLeft, jarKind: null, setAside }) as unknown as LotOnShelf;

// CDC, Creating & Storing an Emergency Water Supply (read in a copy): at least 1 gallon a day for each person, a 3-day supply at
// least and 2 weeks if possible; water not bought in a store is replaced every 6 months.
test('the guide is as printed, and each figure names a source that was read', () => {
  expect(advice).toEqual({
    gallonsPerPersonAndDay: 1,
    leastDays: 3,
    wishedDays: 14,
    replaceWaterMonths: 6,
    foodDays: 14,
  });
  for (const row of rows) {
    expect(row.basis).toBe('read');
    expect(sources.some(({ sourceId }) => sourceId === row.sourceId)).toBe(true);
  }
  expect(() => emergencyAdvice(rows.slice(1))).toThrow(RangeError);
});

describe('water', () => {
  test('is a gallon for each person and day, less what is kept', () => {
    expect(emergencyShelf(household({ waterGallons: 20 }), [], [], advice).water).toEqual({
      wanted: 56,
      kept: 20,
      missing: 36,
      replaceBy: null,
    });
    expect(emergencyShelf(household({ waterGallons: 60 }), [], [], advice).water.missing).toBe(0);
    expect(emergencyShelf(household({ emergencyDays: null }), [], [], advice).water.wanted).toBeNull();
  });

  test('that the household filled is replaced after six months', () => {
    const filled = household({ waterGallons: 20, waterFilledOn: asDate('2026-08-31') });

    expect(emergencyShelf(filled, [], [], advice).water.replaceBy).toBe('2027-02-28');
    expect(emergencyShelf({ ...filled, waterGallons: null }, [], [], advice).water.replaceBy).toBeNull();
  });
});

describe('food', () => {
  test('is counted in the servings that stand of what always stays, set-aside jars left out', () => {
    const shelf = emergencyShelf(
      household({}),
      [item('beans', 12, 4), item('salsa', 5, null), item('jam', null, 16)],
      [lot('beans', 8), lot('beans', 3, { at: 0, reason: 'lid' }), lot('salsa', 9), lot('jam', 30)],
      advice,
    );

    expect(
      shelf.items.map(({ item: { id }, wanted, standing, servings }) => [id, wanted, standing, servings]),
    ).toEqual([
      ['beans', 12, 8, 32],
      ['salsa', 5, 5, null],
    ]);
    expect(shelf.servings).toBe(32);
    expect(shelf.servingsPerPersonAndDay).toBeCloseTo(32 / 56, 9);
    expect(
      emergencyShelf(household({ emergencyDays: null }), [], [], advice).servingsPerPersonAndDay,
    ).toBeNull();
  });
});
