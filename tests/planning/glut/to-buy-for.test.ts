import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { glutDifference } from '../../../src/planning/glut/glut-difference.ts';
import { toBuyFor } from '../../../src/planning/glut/to-buy-for.ts';
import type { Plan } from '../../../src/planning/plan.ts';
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

describe('what a plan with a glut does otherwise', () => {
  const session = (recipe: string, batches: number, change: object = {}) => ({
    recipe,
    batches,
    jars: [],
    ...change,
  });
  const week = (at: number, sessions: object[], change: object = {}) => ({
    week: plumWeeks[at],
    sessions,
    purchases: [],
    materials: [],
    spend: 0,
    kitchenMinutes: 0,
    ...change,
  });
  const planOf = (...weeks: object[]) =>
    ({ weeks, items: [], gaveWay: [], objective: {} }) as unknown as Plan;
  const year = plumYear({
    recipes: [
      jamRecipe,
      { ...jamRecipe, id: 'pears' as never, produce: [{ crop: pear, lb: 1, mayBeFrozen: false }] },
    ],
  });
  const difference = (before: Plan, after: Plan) =>
    glutDifference(year, { crop: plum, lb: 60 }, { before, after });
  const jam = 'jam-of-plums';
  const before = planOf(
    week(0, [session('pears', 1)], { spend: 500, kitchenMinutes: 100 }),
    week(1, []),
    week(2, [session(jam, 2)]),
    week(35, [session(jam, 2)]),
  );

  test('makes of the crop now: what is begun in this week or the next', () => {
    const begin = (at: number) => ({ begin: { week: plumWeeks[at], on: '2026-12-01' } });
    const after = planOf(
      week(0, [session(jam, 3), session('pears', 1)]),
      week(1, [session(jam, 1)]),
      week(2, [session(jam, 2), session(jam, 4, begin(1)), session(jam, 5, { begun: { id: 'a', on: 'x' } })]),
      week(3, [session(jam, 1, begin(2))]),
    );
    expect(difference(before, after).now).toEqual([
      { week: plumWeeks[0], recipe: jam, batches: 3 },
      { week: plumWeeks[1], recipe: jam, batches: 1 },
      { week: plumWeeks[2], recipe: jam, batches: 4 },
    ]);
  });

  test('makes more or fewer over the year; what only moves is no more, and only near moves are told', () => {
    const after = planOf(
      week(0, [session(jam, 3)]),
      week(1, [session('pears', 1)]),
      week(2, [session(jam, 2)]),
      week(35, []),
    );
    const found = difference(before, after);
    expect(found.overYear).toEqual([{ recipe: jam, batches: 1 }]);
    expect(
      found.moved.map(({ week: one, recipe, before: was, after: is }) => [one, recipe, was, is]),
    ).toEqual(
      expect.arrayContaining([
        [plumWeeks[0], jam, 0, 3],
        [plumWeeks[0], 'pears', 1, 0],
        [plumWeeks[1], 'pears', 0, 1],
      ]),
    );
    expect(found.moved.some(({ week: one }) => one === plumWeeks[35])).toBe(false);
    const fewer = difference(
      before,
      planOf(week(0, []), week(1, []), week(2, [session(jam, 5)]), week(35, [session(jam, 2)])),
    );
    expect(fewer.overYear).toEqual([
      { recipe: 'pears', batches: -1 },
      { recipe: jam, batches: 3 },
    ]);
  });

  test('freezes more of it in the near weeks, and leaves what it does not take', () => {
    const frozen = (what: string, freeze: number) => ({ what, freeze });
    const taken = (what: string, quantity: number, kind = 'produce') => ({ kind, what, quantity });
    const after = planOf(
      week(0, [], {
        materials: [frozen('plum', 20), frozen('pear', 9)],
        purchases: [taken('glut-of-plum', 45), taken('orchard', 9), taken('glut-of-plum', 9, 'supply')],
      }),
      week(1, [], { materials: [frozen('plum', 5)] }),
      week(2, [], {}),
      week(3, [], {}),
      week(35, [], { materials: [frozen('plum', 50)] }),
    );
    const had = planOf(week(0, [], { materials: [frozen('plum', 4)] }));
    expect(difference(had, after)).toMatchObject({ freezeLb: 21, leftLb: 15 });
    expect(difference(after, had)).toMatchObject({ freezeLb: 0, leftLb: 60 });
    const all = planOf(week(0, [], { purchases: [taken('glut-of-plum', 61)] }));
    expect(difference(had, all).leftLb).toBe(0);
  });

  test('costs so much more money and time over the year', () => {
    const after = planOf(week(0, [], { spend: 800, kitchenMinutes: 60 }));
    expect(difference(before, after)).toMatchObject({ spend: 300, kitchenMinutes: -40 });
  });
});
