import { describe, expect, it } from 'vitest';
import type { ItemId, RecipeId } from '../../../shared/ids.ts';
import { asDate, asWeek, weeksFrom } from '../../../shared/week.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { crockQuartsFree } from '../../../src/planning/planning-year.ts';
import { crockQuartsTaken } from '../../../src/preserving/stages/crocks-taken.ts';

type Standing = Parameters<typeof crockQuartsTaken>[0];

// Four weeks in a crock from the week in which it is made: a ferment that is put up is not ready, and its crock is not free.
const weeks = weeksFrom(asWeek('2027-W36'), 6);
const kraut: Standing['recipes'][number] = {
  id: 'refrigerated-kraut' as RecipeId,
  itemId: 'kraut' as ItemId,
  process: null,
  yieldHigh: 5,
  crock: { quarts: 12, days: 28 },
};
const lot = (change: Partial<Standing['lots'][number]> = {}): Standing['lots'][number] => ({
  itemId: kraut.itemId,
  recipeId: kraut.id,
  origin: 'put-up',
  madeOn: asDate('2027-08-31'),
  readyFrom: asDate('2027-12-01'),
  madeUnits: 5,
  unitsLeft: 5,
  ...change,
});
const taken = (lots: Standing['lots'], recipes: Standing['recipes'] = [kraut]) =>
  crockQuartsTaken({ lots, recipes }, weeks, 'monday');

describe('a crock', () => {
  it('is full of what was put up until its weeks are over', () => {
    expect(taken([])).toEqual([0, 0, 0, 0, 0, 0]);
    // Made in the week before the first: three more weeks.
    expect(taken([lot()])).toEqual([12, 12, 12, 0, 0, 0]);
    expect(taken([lot({ madeOn: asDate('2027-09-07') })])).toEqual([12, 12, 12, 12, 0, 0]);
    expect(taken([lot({ madeOn: asDate('2027-08-01') })])).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('is counted by the batches that the jars make', () => {
    expect(taken([lot({ madeUnits: 6 })])[0]).toBe(24);
    expect(taken([lot({ madeUnits: 4 }), lot({ madeUnits: 10 })])[0]).toBe(36);
  });

  it('is free once the lot is ready, whatever the recipe says', () => {
    expect(taken([lot({ readyFrom: asDate('2027-09-14') })])).toEqual([12, 0, 0, 0, 0, 0]);
    expect(taken([lot({ readyFrom: asDate('2027-08-31') })])[0]).toBe(0);
  });

  it('is free once the lot is eaten or thrown away, and never full of what was bought or given', () => {
    expect(taken([lot({ unitsLeft: 0 })])[0]).toBe(0);
    expect(taken([lot({ origin: 'received' })])[0]).toBe(0);
  });

  it('holds a lot of which nobody said the recipe, but no lot of another recipe and none that was canned', () => {
    expect(taken([lot({ recipeId: null })])[0]).toBe(12);
    expect(taken([lot({ recipeId: 'canned-kraut' as RecipeId })])[0]).toBe(0);
    const canned = { ...kraut, process: { method: 'boiling' } as unknown as NonNullable<Recipe['process']> };
    expect(taken([lot()], [canned])[0]).toBe(0);
    expect(taken([lot()], [{ ...kraut, crock: null }])[0]).toBe(0);
  });

  it('leaves what it does not take for new batches, never less than nothing', () => {
    const storage = { freezerQuarts: 0, freezerQuartsPerDay: 0, crockQuarts: 20 };
    expect(crockQuartsFree(storage, 0)).toBe(20);
    expect(crockQuartsFree({ ...storage, crockQuartsTakenByWeek: [12, 36] }, 0)).toBe(8);
    expect(crockQuartsFree({ ...storage, crockQuartsTakenByWeek: [12, 36] }, 1)).toBe(0);
  });
});
