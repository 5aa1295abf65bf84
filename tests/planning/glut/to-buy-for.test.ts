import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { toBuyFor } from '../../../src/planning/glut/to-buy-for.ts';
import type { PlannedRecipe, PlannedSource, PlanningYear } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumWeeks, plumYear } from '../plum-year.ts';

const plum = jamRecipe.produce[0]?.crop as PlannedSource['crop'];
const pear = 'pear' as PlannedSource['crop'];
const buy = (batches: number, change: Partial<PlannedRecipe> = {}, year: PlanningYear = plumYear()) =>
  toBuyFor(year, plum, [{ recipe: { ...jamRecipe, ...change }, week: 35, batches }]);

// A batch takes 5 lb of sugar, 8 pints and their lids. On hand are 4 lb of sugar (a 5-lb bag costs 400 cents), 30 empty pints (12 for
// 1,500) and 10 lids (12 for 450).
describe('what has to be bought for batches', () => {
  test('is in whole packs beyond what is on hand', () => {
    // 5 lb: one bag; 8 pints and 8 lids are there.
    expect(buy(1)).toEqual({ cost: 400, withoutPrice: [] });
    // 20 lb: four bags (16 lb); 32 pints: a dozen; 32 lids: two boxes.
    expect(buy(4)).toEqual({ cost: 4 * 400 + 1500 + 2 * 450, withoutPrice: [] });
    expect(buy(0)).toEqual({ cost: 0, withoutPrice: [] });
  });

  test('exactly a pack is a pack', () => {
    expect(buy(1, { supplies: [{ supplyId: 'sugar', quantity: 9 }] }).cost).toBe(400);
    expect(buy(1, { supplies: [{ supplyId: 'sugar', quantity: 9.01 }] }).cost).toBe(800);
    expect(buy(1, { supplies: [{ supplyId: 'sugar', quantity: 4 }] }).cost).toBe(0);
  });

  test('of several batches adds up before it is packed', () => {
    const two = [1, 1].map((batches) => ({ recipe: jamRecipe, week: 35, batches }));
    expect(toBuyFor(plumYear(), plum, two)).toEqual(buy(2));
  });

  test('is no jar where it goes into none, and nothing of what the year does not know', () => {
    expect(buy(9, { jarKind: null, supplies: [] }).cost).toBe(0);
    expect(buy(9, { supplies: [{ supplyId: 'salt', quantity: 5 }], jarKind: null }).cost).toBe(0);
    expect(buy(9, { supplies: [] }, plumYear({ jars: [], lids: [] })).cost).toBe(0);
    const unpacked = plumYear({ supplies: plumYear().supplies.map((one) => ({ ...one, packQuantity: 0 })) });
    expect(buy(1, {}, unpacked).cost).toBe(0);
  });

  test('is other crops by the pound, at the cheapest source that gives any in that week; the glut itself is free', () => {
    const source = (id: string, lb: number, cents: number) =>
      ({
        ...plumYear().sources[0],
        id,
        crop: pear,
        lbByWeek: plumWeeks.map((_, week) => (week === 35 ? lb : 0)),
        priceCentsPerLbByWeek: plumWeeks.map(() => asCents(cents)),
      }) as unknown as PlannedSource;
    const produce = [...jamRecipe.produce, { crop: pear, lb: 4, mayBeFrozen: false }];
    const of = (...sources: readonly PlannedSource[]) =>
      buy(
        2,
        { produce, supplies: [], jarKind: null },
        plumYear({ sources: [...plumYear().sources, ...sources] }),
      );
    expect(of(source('stall', 10, 90), source('farm', 10, 70))).toEqual({
      cost: 2 * 4 * 70,
      withoutPrice: [],
    });
    expect(of(source('stall', 10, 90), source('farm', 0, 70)).cost).toBe(2 * 4 * 90);
    expect(of()).toEqual({ cost: 0, withoutPrice: ['pear'] });
    expect(of(source('farm', 0, 70)).withoutPrice).toEqual(['pear']);
  });
});
