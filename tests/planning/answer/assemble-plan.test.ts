import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { addDays, asDate } from '../../../shared/week.ts';
import { assemblePlan, neverRunsOut, type OutlookOf } from '../../../src/planning/answer/assemble-plan.ts';
import { buildModel } from '../../../src/planning/model/build-model.ts';
import { buyAsNeeded } from '../../../src/planning/packs/buy-as-needed.ts';
import type { BegunBatches, PlanningYear } from '../../../src/planning/planning-year.ts';
import type { BuyingDecision } from '../../../src/planning/solving/decision.ts';
import { batchOf, canningOf, food, pack, pint, shortYear, sourceOf, weekAt } from '../short-year.ts';

const proof = {
  objective: { total: 7 },
  bound: 5,
  gap: 0.25,
  solveSeconds: 3,
  packRounding: { cost: asCents(9), gap: 0.1 },
  rungs: [],
};

/** A plan in which only what is told is put up and bought. */
function assembled(
  year: PlanningYear,
  batches: Readonly<Record<string, readonly number[]>> = {},
  bought: Partial<BuyingDecision> = {},
  outlookOf?: OutlookOf,
) {
  const { sets, parameters } = buildModel(year);
  const { buying } = buyAsNeeded(sets, parameters);
  const nothing = {
    ...buying,
    packs: sets.items.map((item) => item.packs.map(() => year.weeks.map(() => 0))),
  };
  const decision = { canning: canningOf(year, batches), buying: { ...nothing, ...bought } };
  return outlookOf === undefined
    ? assemblePlan(sets, parameters, decision, proof)
    : assemblePlan(sets, parameters, decision, proof, outlookOf);
}
const canned = (jarsPerLoad: number, attendedMinutes = 10) => ({
  cannerId: 'kettle' as never,
  scheduleKey: 'jam',
  lowAcid: false,
  minutes: 10,
  psi: null,
  jarsPerLoad,
  loadMinutes: 40,
  attendedMinutes,
});

describe('a plan written out', () => {
  const year = shortYear(3, {
    foods: [
      food('honey', { jarKind: pint, packs: [pack('jar', 1, 700)] }),
      food('oats', { packs: [pack('bag', 2, [300, 250, 200]), pack('sack', 5, 600)], stands: 4 }),
    ],
    fund: { opening: asCents(1000), setAsideByWeek: [100, 200, 300].map(asCents) },
  });

  test('has the proof it is given, the year’s weeks from its first day on, and its paths', () => {
    const { plan, paths } = assembled(year);

    expect(plan).toMatchObject({ ...proof, asOf: '2027-01-04', horizonWeeks: 3 });
    expect(plan.weeks.map(({ week, from }) => [week, from])).toEqual([
      ['2027-W01', '2027-01-04'],
      ['2027-W02', undefined],
      ['2027-W03', undefined],
    ]);
    expect(plan.weeks[1]).not.toHaveProperty('from');
    expect(paths.map(({ item }) => item)).toEqual(['honey', 'oats']);
  });

  test('buys packs at the week’s price, and the fund after each week is what is left', () => {
    const { plan } = assembled(
      year,
      {},
      {
        packs: [
          [[0, 1, 0]],
          [
            [2, 0, 1],
            [0, 0, 1],
          ],
        ],
      },
    );

    expect(plan.weeks.map(({ purchases }) => purchases)).toEqual([
      [{ what: 'oats', kind: 'item', quantity: 4, unit: 'unit', packs: { id: 'bag', count: 2 }, cost: 600 }],
      [{ what: 'honey', kind: 'item', quantity: 1, unit: 'jar', packs: { id: 'jar', count: 1 }, cost: 700 }],
      [
        { what: 'oats', kind: 'item', quantity: 2, unit: 'unit', packs: { id: 'bag', count: 1 }, cost: 200 },
        { what: 'oats', kind: 'item', quantity: 5, unit: 'unit', packs: { id: 'sack', count: 1 }, cost: 600 },
      ],
    ]);
    expect(plan.weeks.map(({ spend }) => spend)).toEqual([600, 700, 800]);
    expect(plan.weeks.map(({ fundAfter }) => fundAfter)).toEqual([500, 0, -500]);
    // Only what is below nothing is said to be overdrawn.
    expect(plan.gaveWay.filter(({ rung }) => rung === 'cash and hours')).toEqual([
      { rung: 'cash and hours', what: '2027-W03', amount: 500, unit: 'cents' },
    ]);
  });

  test('says of each item what stands, its target, and how long it lasts', () => {
    const held = {
      ...year,
      items: year.items.map((item) => ({ ...item, yearlyTarget: 52, emergencyUnits: 3 })),
    };
    const { plan } = assembled(held, {}, {}, ({ item }) => ({
      runOutWeek: { p10: null, p50: weekAt(1), p90: null },
      chanceOfLasting: item === 'oats' ? 0.4 : 0.6,
    }));

    expect(plan.items).toEqual([
      {
        item: 'honey',
        yearlyTarget: 52,
        openingStock: 0,
        runOutWeek: { p10: null, p50: '2027-W02', p90: null },
        chanceOfLasting: 0.6,
      },
      {
        item: 'oats',
        yearlyTarget: 52,
        openingStock: 4,
        runOutWeek: { p10: null, p50: '2027-W02', p90: null },
        chanceOfLasting: 0.4,
      },
    ]);
  });

  test('counts on an item as use is expected where no one says how long it lasts', () => {
    const lasting = (stands: number) =>
      assembled(shortYear(3, { foods: [food('oats', { packs: [pack('bag', 1, 300)], stands })] })).plan
        .items[0];

    expect(neverRunsOut).toEqual({ runOutWeek: { p10: null, p50: null, p90: null }, chanceOfLasting: 1 });
    expect(lasting(3)).toMatchObject(neverRunsOut);
    expect(lasting(2.995)).toMatchObject(neverRunsOut);
    expect(lasting(1.5)).toMatchObject({
      runOutWeek: { p10: '2027-W02', p50: '2027-W02', p90: '2027-W02' },
      chanceOfLasting: 0,
    });
    expect(lasting(0)?.runOutWeek.p50).toBe('2027-W01');
  });
});

describe('sessions written out', () => {
  test('are batches with their jars, units, minutes and loads', () => {
    const year = shortYear(2, {
      foods: [food('jam', { jarKind: pint })],
      sources: [sourceOf('tree')],
      recipes: [
        batchOf('jam-of-plums', 'jam', { processing: canned(4), yieldLowUnits: 7, yieldHighJars: 9 }),
        batchOf('leather', 'jam', { jarKind: null, yieldLowUnits: 3 }),
      ],
      canners: [{ id: 'kettle' as never, name: 'Kettle', method: 'boiling-water' }],
    });
    const { plan } = assembled(year, { 'jam-of-plums': [0, 2], leather: [1, 0] });

    expect(plan.weeks[0]).toMatchObject({
      sessions: [
        { recipe: 'leather', batches: 1, jars: [], units: 3, handsOnMinutes: 30, canner: null, loads: 0 },
      ],
      kitchenSessions: 1,
      kitchenMinutes: 30 + 30,
    });
    // Nine jars are two loads of four and one jar aside.
    expect(plan.weeks[1]?.sessions).toEqual([
      {
        recipe: 'jam-of-plums',
        batches: 2,
        jars: [{ kind: pint, count: 18 }],
        units: 14,
        handsOnMinutes: 2 * (30 + 2 * 10),
        canner: 'kettle',
        loads: 4,
        jarsAside: 2,
      },
    ]);
    expect(plan.weeks[1]?.kitchenMinutes).toBe(30 + 100);
    expect(plan.weeks[0]).not.toHaveProperty('stageWork');
    expect(plan.weeks[0]).not.toHaveProperty('leftOver');
    expect(plan.weeks[0]?.sessions[0]).not.toHaveProperty('jarsAside');
    expect(plan.weeks[0]?.sessions[0]).not.toHaveProperty('sharesByProduct');
  });

  test('of several days tell when they are begun, and their work stands in the weeks before', () => {
    const year = shortYear(4, {
      foods: [food('jam', { jarKind: pint })],
      sources: [sourceOf('tree')],
      recipes: [
        batchOf('pickled', 'jam', {
          stages: { weeks: 2, daysFromMonday: 5, handsOnByWeek: [20, 5, 15], possibleByWeek: null },
        }),
        batchOf('rested', 'jam', {
          stages: { weeks: 1, daysFromMonday: -1, handsOnByWeek: [0, 10], possibleByWeek: null },
        }),
      ],
    });
    const { plan } = assembled(year, { pickled: [0, 0, 2, 1], rested: [0, 1, 0, 0] });

    expect(plan.weeks[2]?.sessions[0]).toMatchObject({
      recipe: 'pickled',
      handsOnMinutes: 30,
      begin: { week: '2027-W01', on: '2027-01-09' },
    });
    expect(plan.weeks[1]?.sessions[0]?.begin).toEqual({
      week: '2027-W01',
      on: addDays(asDate('2027-01-04'), -1),
    });
    expect(plan.weeks.map(({ stageWork }) => stageWork)).toEqual([
      // Work of no minutes is none.
      [{ recipe: 'pickled', batches: 2, loadWeek: '2027-W03', minutes: 40 }],
      [
        { recipe: 'pickled', batches: 2, loadWeek: '2027-W03', minutes: 10 },
        { recipe: 'pickled', batches: 1, loadWeek: '2027-W04', minutes: 20 },
      ],
      [{ recipe: 'pickled', batches: 1, loadWeek: '2027-W04', minutes: 5 }],
      undefined,
    ]);
    expect(plan.weeks.map(({ kitchenMinutes }) => kitchenMinutes)).toEqual([
      40,
      30 + 10 + 30,
      30 + 30 + 5,
      30 + 15,
    ]);
  });

  test('of what is begun say which and since when, and never when to begin', () => {
    const begun: BegunBatches = {
      id: 'crock',
      recipeId: 'pickled' as BegunBatches['recipeId'],
      jarKind: pint,
      batches: 3,
      begunOn: asDate('2027-01-02'),
      mayLoadByWeek: [true, true],
    };
    const year = shortYear(2, {
      foods: [food('jam', { jarKind: pint })],
      sources: [sourceOf('tree')],
      recipes: [
        batchOf('pickled', 'jam', {
          stages: { weeks: 1, daysFromMonday: 0, handsOnByWeek: [20, 15], possibleByWeek: null },
        }),
      ],
      begun: [begun],
    });
    const { plan } = assembled(year, { crock: [1, 1] });

    expect(plan.weeks[0]?.sessions[0]).toMatchObject({ begun: { id: 'crock', on: '2027-01-02' } });
    expect(plan.weeks[0]?.sessions[0]).not.toHaveProperty('begin');
    // Two of three are loaded.
    expect(plan.gaveWay).toContainEqual({
      rung: 'cash and hours',
      what: 'pickled begun 2027-01-02',
      amount: 1,
      unit: 'batches',
      batches: { recipe: 'pickled', pinnedIn: null, begunOn: '2027-01-02' },
    });
    expect(assembled(year, { crock: [1, 2] }).plan.gaveWay.filter(({ batches }) => batches)).toEqual([]);
  });

  test('that share a by-product in a week say so, both of them', () => {
    const year = shortYear(2, {
      foods: [food('jam', { jarKind: pint })],
      sources: [sourceOf('tree')],
      recipes: [
        batchOf('a-juice', 'jam', { gives: [{ materialId: 'pulp', quantity: 2 }] }),
        batchOf('b-stones', 'jam', { gives: [{ materialId: 'stones', quantity: 2 }] }),
        batchOf('c-pulp', 'jam', { produce: [], uses: [{ materialId: 'pulp', quantity: 2 }] }),
      ],
      materials: ['pulp', 'stones'].map((id) => ({
        id,
        name: id,
        unit: 'qt',
        opening: 9,
        keepsDaysCold: 9,
        keepsMonthsFrozen: null,
        quartsPerUnit: 1,
      })),
    });
    const { plan } = assembled(year, { 'a-juice': [1, 1], 'b-stones': [1, 0], 'c-pulp': [1, 0] });
    const sharing = plan.weeks.map(({ sessions }) =>
      sessions.filter(({ sharesByProduct }) => sharesByProduct).map(({ recipe }) => recipe),
    );

    expect(sharing).toEqual([['a-juice', 'c-pulp'], []]);
    expect(plan.weeks[1]?.sessions[0]).not.toHaveProperty('sharesByProduct');
  });
});

describe('lines written out', () => {
  const year = shortYear(2, {
    foods: [food('jam', { jarKind: pint })],
    sources: [
      sourceOf('at-hand', { isAtHand: true }),
      sourceOf('stall', { priceCentsPerLbByWeek: [33, 50].map(asCents) }),
      sourceOf('tree', { kind: 'garden', lbByWeek: [20, 12] }),
    ],
    recipes: [batchOf('jam-of-plums', 'jam')],
    supplies: [
      { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 5, packPrice: asCents(400) },
    ],
    jars: [{ kind: pint, owned: 0, empty: 0, pack: 6, packPrice: asCents(900), returnShare: 0 }],
    lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(250) }],
  });

  test('are what is eaten, produce by the pound, supplies, jars and lids', () => {
    const { plan } = assembled(
      year,
      {},
      {
        produceLb: [
          [9, 0],
          [5.05, 0],
          [0, 3],
        ],
        supplyPacks: [[2, 0]],
        jarPacks: [[3, 0]],
        lidBoxes: [[1, 0]],
      },
    );

    expect(plan.weeks[0]?.purchases).toEqual([
      { what: 'stall', kind: 'produce', quantity: 5.05, unit: 'lb', packs: null, cost: 167 },
      {
        what: 'sugar',
        kind: 'supply',
        quantity: 10,
        unit: 'lb',
        packs: { id: 'sugar', count: 2 },
        cost: 800,
      },
      { what: pint, kind: 'jars', quantity: 18, unit: 'jar', packs: { id: pint, count: 3 }, cost: 2700 },
      {
        what: 'regular',
        kind: 'lids',
        quantity: 12,
        unit: 'lid',
        packs: { id: 'regular', count: 1 },
        cost: 250,
      },
    ]);
    expect(plan.weeks[1]?.purchases).toEqual([
      { what: 'tree', kind: 'produce', quantity: 3, unit: 'lb', packs: null, cost: 300 },
    ]);
  });

  test('leave over what our own garden gives beyond them, from half a pound on', () => {
    const left = (lb: number) => {
      const { plan } = assembled(
        year,
        {},
        {
          produceLb: [
            [0, 0],
            [0, 0],
            [20, 12 - lb],
          ],
        },
      );
      return [plan.weeks[0]?.leftOver, plan.weeks[1]?.leftOver];
    };

    expect(left(0.5)).toEqual([undefined, [{ source: 'tree', lb: 0.5 }]]);
    expect(left(0.49)).toEqual([undefined, undefined]);
    expect(left(4.126)).toEqual([undefined, [{ source: 'tree', lb: 4.13 }]]);
  });
});

describe('material written out', () => {
  const year = shortYear(2, {
    foods: [food('jam', { jarKind: pint })],
    sources: [sourceOf('tree')],
    recipes: [
      batchOf('jam-of-plums', 'jam', { gives: [{ materialId: 'pulp', quantity: 2 }] }),
      batchOf('jam-of-pulp', 'jam', { produce: [], uses: [{ materialId: 'pulp', quantity: 2 }] }),
    ],
    materials: [
      {
        id: 'pulp',
        name: 'Pulp',
        unit: 'qt',
        opening: 0,
        keepsDaysCold: 9,
        keepsMonthsFrozen: 6,
        quartsPerUnit: 1,
      },
    ],
  });
  const none = [
    [0, 0],
    [0, 0],
  ];
  const moved = (change: object) => {
    const materials = { freeze: none, thaw: none, waiting: none, frozen: none, lost: none, ...change };
    return assembled(year, {}, { materials }).plan.weeks.map(({ materials }) => materials);
  };

  test('is told in the weeks in which anything of it moves or stands, a crop in pounds', () => {
    const quiet = { freeze: 0, thaw: 0, waiting: 0, frozen: 0, lost: 0 };

    expect(
      moved({
        freeze: [
          [2, 0],
          [0, 0],
        ],
        frozen: [
          [2, 0],
          [0, 0],
        ],
      }),
    ).toEqual([[{ ...quiet, what: 'plum', unit: 'lb', freeze: 2, frozen: 2 }], []]);
    for (const kind of ['freeze', 'thaw', 'waiting', 'frozen', 'lost'])
      expect(
        moved({
          [kind]: [
            [0, 0],
            [0, 3],
          ],
        }),
      ).toEqual([[], [{ ...quiet, what: 'pulp', unit: 'qt', [kind]: 3 }]]);
  });

  test('is not told below a thousandth', () => {
    expect(
      moved({
        lost: [
          [0, 0],
          [0.001, 0.0009],
        ],
      }).map((list) => list.length),
    ).toEqual([1, 0]);
  });
});

describe('pins that a plan does not keep', () => {
  const pinned = (
    planned: readonly number[],
    decision: 'pinned' | 'ruled-out' = 'pinned',
    week = weekAt(1),
  ) => {
    const year = shortYear(2, {
      foods: [food('jam', { jarKind: pint })],
      sources: [sourceOf('tree')],
      recipes: [batchOf('jam-of-plums', 'jam')],
      kept: [{ recipeId: 'jam-of-plums' as never, week, decision, batches: 2 }],
    });
    return assembled(year, { 'jam-of-plums': planned }).plan.gaveWay.filter(({ unit }) => unit === 'batches');
  };

  test('are told with what is missing of them in their week', () => {
    expect(pinned([2, 1])).toEqual([
      {
        rung: 'cash and hours',
        what: 'jam-of-plums in 2027-W02',
        amount: 1,
        unit: 'batches',
        batches: { recipe: 'jam-of-plums', pinnedIn: '2027-W02', begunOn: null },
      },
    ]);
  });

  test('are none where as many stand or more, where the pin is beyond the year, and of what is ruled out', () => {
    expect(pinned([0, 2])).toEqual([]);
    expect(pinned([0, 3])).toEqual([]);
    expect(pinned([0, 0], 'pinned', weekAt(9))).toEqual([]);
    expect(pinned([0, 0], 'ruled-out')).toEqual([]);
  });
});

describe('what gave way', () => {
  test('is told from money and hours to the freshness of an item', () => {
    const year = shortYear(2, {
      foods: [
        food('jam', { kind: 'preserve', jarKind: pint, useByWeek: [0, 4] }),
        food('oats', { packs: [pack('bag', 1, 900)] }),
      ],
      sources: [sourceOf('tree', { kind: 'garden' })],
      recipes: [batchOf('jam-of-plums', 'jam')],
      kept: [{ recipeId: 'jam-of-plums' as never, week: weekAt(0), decision: 'pinned', batches: 1 }],
      fund: { opening: asCents(0), setAsideByWeek: [0, 0].map(asCents) },
      groups: [
        {
          id: 'all' as never,
          name: 'All',
          members: [{ itemId: 'oats' as never, groupUnitsPerUnit: 1 }],
          totalUnits: 9,
          leastKinds: 1,
          largestShare: 1,
        },
      ],
    });
    const { plan } = assembled(year, {}, { packs: [[], [[1, 0]]] });

    expect(plan.gaveWay.map(({ rung, what }) => `${rung}: ${what}`)).toEqual([
      'cash and hours: 2027-W01',
      'cash and hours: 2027-W02',
      'cash and hours: jam-of-plums in 2027-W01',
      'garden crop: plum',
      'group: all',
      'use: jam',
      'use: oats',
    ]);
  });
});
