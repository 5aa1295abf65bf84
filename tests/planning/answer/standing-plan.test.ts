import { describe, expect, test } from 'vitest';
import type { BatchDecision } from '../../../src/household/decision.ts';
import type { LinePurchase } from '../../../src/household/purchase.ts';
import { planAtTheStove, standingPlan, withFundNow } from '../../../src/planning/answer/standing-plan.ts';
import type { PlannedPurchase, PlannedSession, PlannedWeek } from '../../../src/planning/plan.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';

// Three weeks of a plan: two batches of peach halves and one of plum jam in the first, nothing in the second, two of jam in the third.
// A batch of halves takes 10 lb of peaches, 2 lb of sugar and pints; one of jam 5 lb of plums, 4 lb of sugar and half-pints.

const recipes = [
  {
    id: 'halves',
    itemId: 'peaches',
    jarKind: 'pint/regular',
    produce: [{ crop: 'peach', lb: 10 }],
    supplies: [{ supplyId: 'sugar' }],
    readyAfterWeeks: 0,
  },
  {
    id: 'jam',
    itemId: 'plums',
    jarKind: 'half-pint/wide',
    produce: [{ crop: 'plum', lb: 5 }],
    supplies: [{ supplyId: 'sugar' }, { supplyId: 'pectin' }],
    readyAfterWeeks: 1,
  },
];
const sources = [
  { id: 'orchard', crop: 'peach', lbByWeek: [90, 0, 0] },
  { id: 'tree', crop: 'plum', lbByWeek: [30, 0, 30] },
];

const session = (recipe: string, batches: number, change: object = {}): PlannedSession =>
  ({
    recipe,
    batches,
    jars: [{ kind: recipe === 'halves' ? 'pint/regular' : 'half-pint/wide', count: 9 * batches }],
    units: 9 * batches,
    handsOnMinutes: 100 * batches,
    canner: 'kettle',
    loads: batches,
    ...change,
  }) as unknown as PlannedSession;
const line = (
  kind: string,
  what: string,
  quantity: number,
  cost: number,
  packs: { readonly id: string; readonly count: number } | null = null,
): PlannedPurchase => ({ kind, what, quantity, unit: 'x', packs, cost }) as unknown as PlannedPurchase;

const usualLists = [
  line('produce', 'orchard', 20, 3000),
  line('produce', 'tree', 5, 500),
  line('supply', 'sugar', 10, 800, { id: '5-lb', count: 2 }),
  line('supply', 'pectin', 1, 300, { id: 'box', count: 1 }),
  line('jars', 'pint/regular', 24, 2400, { id: 'dozen', count: 2 }),
  line('lids', 'wide', 12, 400, { id: 'box', count: 1 }),
  line('item', 'oats', 10, 1000, { id: 'bag', count: 2 }),
];
const weekOf = (week: string, sessions: readonly PlannedSession[], purchases: readonly PlannedPurchase[]) =>
  ({
    week,
    sessions,
    purchases,
    materials: [],
    kitchenSessions: sessions.length > 0 ? 1 : 0,
    kitchenMinutes: sessions.reduce((sum, one) => sum + one.handsOnMinutes, sessions.length > 0 ? 20 : 0),
    spend: purchases.reduce((sum, { cost }) => sum + cost, 0),
    fundAfter: 0,
  }) as unknown as PlannedWeek;

const pathOf = (
  item: string,
  made: readonly number[],
  ready: readonly number[],
  bought: readonly number[],
) => ({
  item,
  madeByWeek: made,
  readyByWeek: ready,
  boughtByWeek: bought,
  takenByWeek: [0, 0, 0],
  missedByWeek: [0, 0, 0],
  stockByWeek: [0, 0, 0],
  olderByWeek: [0, 0, 0],
});

const kept = (change: { weeks?: readonly PlannedWeek[]; year?: object } = {}): StoredPlan =>
  ({
    plan: {
      weeks: change.weeks ?? [
        weekOf('2026-W33', [session('halves', 2), session('jam', 1)], usualLists),
        weekOf('2026-W34', [], []),
        weekOf(
          '2026-W35',
          [session('jam', 2)],
          [line('produce', 'tree', 10, 1000), line('supply', 'sugar', 5, 400)],
        ),
      ],
    },
    year: {
      weeks: ['2026-W33', '2026-W34', '2026-W35'],
      recipes,
      sources,
      kept: [],
      time: { setUpMinutes: 20 },
      ...change.year,
    },
    paths: [
      pathOf('peaches', [18, 0, 0], [18, 0, 0], [0, 0, 0]),
      pathOf('plums', [9, 0, 18], [0, 9, 0], [0, 0, 0]),
      pathOf('oats', [0, 0, 0], [0, 0, 0], [10, 0, 0]),
    ],
  }) as unknown as StoredPlan;

const done = (recipeId: string, batches: number, week = '2026-W33') =>
  ({ recipeId, week, decision: 'done', batches }) as BatchDecision;
const ruledOut = (recipeId: string, week = '2026-W33') =>
  ({ recipeId, week, decision: 'ruled-out' }) as BatchDecision;
const pinned = (recipeId: string, batches: number, week: string) =>
  ({ recipeId, week, decision: 'pinned', batches }) as BatchDecision;
const bought = (kind: string, what: string, quantity: number, change: object = {}): LinePurchase =>
  ({
    id: `${kind}-${what}-${quantity}`,
    week: '2026-W33',
    kind,
    what,
    pack: null,
    decision: 'bought',
    quantity,
    cost: 0,
    on: '2026-08-12',
    settles: true,
    ...change,
  }) as unknown as LinePurchase;

const standing = (
  decisions: readonly BatchDecision[],
  purchases: readonly LinePurchase[] = [],
  of: StoredPlan = kept(),
) => standingPlan(of, decisions, purchases);
const batches = ({ plan }: StoredPlan, week = 0) =>
  plan.weeks[week]?.sessions.map((one) => [one.recipe, one.batches]);
const lists = ({ plan }: StoredPlan, week = 0) =>
  plan.weeks[week]?.purchases.map(({ what, quantity, cost }) => [
    what,
    Math.round(quantity * 1000) / 1000,
    cost,
  ]);
const pathIn = ({ paths }: StoredPlan, item: string) => paths.find((path) => path.item === item);

describe('a plan to which nothing happened', () => {
  test('stands as it was made, the very same', () => {
    const plan = kept();
    expect(standingPlan(plan, [])).toBe(plan);
    expect(standingPlan(plan, [pinned('halves', 2, '2026-W33'), done('halves', 1, '2026-W40')])).toBe(plan);
  });
});

describe('batches written down since', () => {
  test('are out of it, with the minutes, jars and units that go with them', () => {
    const one = standing([done('halves', 1)]);
    expect(batches(one)).toEqual([
      ['halves', 1],
      ['jam', 1],
    ]);
    expect(one.plan.weeks[0]?.sessions[0]).toMatchObject({
      jars: [{ kind: 'pint/regular', count: 9 }],
      units: 9,
      handsOnMinutes: 100,
      loads: 1,
    });
    expect(one.plan.weeks[0]).toMatchObject({ kitchenMinutes: 220, kitchenSessions: 1 });
    expect(batches(standing([done('halves', 2)]))).toEqual([['jam', 1]]);
    expect(batches(standing([done('halves', 5)]))).toEqual([['jam', 1]]);
  });

  test('part of a session leaves whole jars and loads: half of 9 jars in one load are 5 in one', () => {
    const odd = kept({
      weeks: [
        weekOf(
          '2026-W33',
          [session('halves', 2, { jars: [{ kind: 'pint/regular', count: 9 }], loads: 1 })],
          [],
        ),
      ],
    });
    expect(standing([done('halves', 1)], [], odd).plan.weeks[0]?.sessions[0]).toMatchObject({
      jars: [{ kind: 'pint/regular', count: 5 }],
      loads: 1,
    });
  });

  test('are taken from the sessions of their recipe in turn', () => {
    const twice = kept({ weeks: [weekOf('2026-W33', [session('halves', 2), session('halves', 2)], [])] });
    expect(batches(standing([done('halves', 3)], [], twice))).toEqual([['halves', 1]]);
    expect(batches(standing([done('halves', 2)], [], twice))).toEqual([['halves', 2]]);
  });

  test('that the plan knew of when it was made are in it already', () => {
    const knew = kept({ year: { kept: [done('halves', 1)] } });
    expect(standingPlan(knew, [done('halves', 1)])).toBe(knew);
    expect(batches(standing([done('halves', 2)], [], knew))).toEqual([
      ['halves', 1],
      ['jam', 1],
    ]);
    const ruled = kept({ year: { kept: [ruledOut('halves')] } });
    expect(standingPlan(ruled, [ruledOut('halves')])).toBe(ruled);
    expect(batches(standing([done('halves', 1)], [], ruled))?.[0]).toEqual(['halves', 1]);
    const early = kept({ year: { kept: undefined } });
    expect(batches(standing([ruledOut('halves')], [], early))).toEqual([['jam', 1]]);
  });

  test('once all are done nothing of the day is left', () => {
    const all = standing([done('halves', 2), ruledOut('jam')]);
    expect(all.plan.weeks[0]).toMatchObject({ sessions: [], kitchenSessions: 0, kitchenMinutes: 0 });
    expect(lists(all)).toEqual([['oats', 10, 1000]]);
    expect(all.plan.weeks[0]?.spend).toBe(1000);
  });

  test('bring no more jars than are still to come, when they are ready', () => {
    const one = standing([done('halves', 1), ruledOut('jam'), done('jam', 1, '2026-W35')]);
    expect(pathIn(one, 'peaches')).toMatchObject({ madeByWeek: [9, 0, 0], readyByWeek: [9, 0, 0] });
    // Jam is ready a week after it was made; what is ready beyond the year stands in no week.
    expect(pathIn(one, 'plums')).toMatchObject({ madeByWeek: [0, 0, 9], readyByWeek: [0, 0, 0] });
    expect(pathIn(one, 'oats')).toEqual(pathIn(kept(), 'oats'));
  });

  test('a recipe that stands twice in the year, once for each jar, is taken off once', () => {
    const [halves, jam] = recipes;
    const quarts = { ...halves, jarKind: 'quart/regular' };
    const both = kept({ year: { recipes: [halves, quarts, jam] } });
    expect(pathIn(standing([done('halves', 1)], [], both), 'peaches')?.madeByWeek).toEqual([9, 0, 0]);
  });
});

describe('what was to be bought for batches that are gone', () => {
  test('is less: of produce what they would have taken, of jars and supplies what nothing left takes', () => {
    expect(lists(standing([done('halves', 1)]))).toEqual([
      ['orchard', 10, 1500],
      ['tree', 5, 500],
      ['sugar', 10, 800],
      ['pectin', 1, 300],
      ['pint/regular', 24, 2400],
      ['wide', 12, 400],
      ['oats', 10, 1000],
    ]);
    expect(lists(standing([done('halves', 2)]))).toEqual([
      ['tree', 5, 500],
      ['sugar', 10, 800],
      ['pectin', 1, 300],
      ['wide', 12, 400],
      ['oats', 10, 1000],
    ]);
    expect(lists(standing([ruledOut('jam')]))).toEqual([
      ['orchard', 20, 3000],
      ['sugar', 10, 800],
      ['pint/regular', 24, 2400],
      ['oats', 10, 1000],
    ]);
  });

  test('is what it cost together', () => {
    const { spend } = standing([done('halves', 1)]).plan.weeks[0] ?? { spend: 0 };
    expect(spend).toBe(1500 + 500 + 800 + 300 + 2400 + 400 + 1000);
  });

  test('what nobody took part in stays, jars of a recipe that is not done among it', () => {
    const strange = kept({
      weeks: [
        weekOf(
          '2026-W33',
          [session('halves', 2), session('jam', 1)],
          [
            line('supply', 'salt', 1, 100),
            line('produce', 'market', 3, 200),
            line('jars', 'quart/wide', 12, 900),
          ],
        ),
      ],
    });
    expect(lists(standing([done('halves', 2), ruledOut('jam')], [], strange))).toEqual([
      ['salt', 1, 100],
      ['market', 3, 200],
      ['quart/wide', 12, 900],
    ]);
  });

  test('several sources of a crop give less alike', () => {
    const two = kept({
      weeks: [
        weekOf(
          '2026-W33',
          [session('halves', 2)],
          [line('produce', 'orchard', 15, 1500), line('produce', 'stall', 5, 1000)],
        ),
      ],
      year: { sources: [...sources, { id: 'stall', crop: 'peach', lbByWeek: [9, 0, 0] }] },
    });
    expect(lists(standing([done('halves', 1)], [], two))).toEqual([
      ['orchard', 7.5, 750],
      ['stall', 2.5, 500],
    ]);
  });

  test('what is at hand went into them first', () => {
    const hand = { id: 'hand', crop: 'peach', lbByWeek: [4, 0, 0], isAtHand: true };
    const withHand = kept({ year: { sources: [...sources, hand] } });
    expect(lists(standing([done('halves', 1)], [], withHand))?.[0]).toEqual(['orchard', 14, 2100]);
    // At hand now is not at hand in two weeks.
    const plumHand = { ...hand, crop: 'plum', lbByWeek: [4, 0, 4] };
    const later = kept({ year: { sources: [...sources, plumHand] } });
    expect(lists(standing([done('jam', 1, '2026-W35')], [], later), 2)).toEqual([
      ['tree', 5, 500],
      ['sugar', 5, 400],
    ]);
  });

  test('so did what was fetched since the plan was made', () => {
    const fetched = bought('produce', 'orchard', 6, { settles: false });
    // 20 lb asked for, 6 fetched: 14 more; of the 10 of one batch 6 were there, so 4 fewer.
    expect(lists(standing([done('halves', 1)], [fetched]))?.[0]).toEqual(['orchard', 10, 1500]);
    const elsewhere = bought('produce', 'nowhere', 6, { settles: false });
    expect(lists(standing([done('halves', 1)], [elsewhere]))?.[0]).toEqual(['orchard', 10, 1500]);
    const nextWeek = bought('produce', 'orchard', 6, { settles: false, week: '2026-W34' });
    expect(lists(standing([done('halves', 1)], [nextWeek]))?.[0]).toEqual(['orchard', 10, 1500]);
    const supply = bought('supply', 'orchard', 6);
    expect(lists(standing([done('halves', 1)], [supply]))?.[0]).toEqual(['orchard', 10, 1500]);
  });
});

describe('what an early plan or a changed household leaves unsaid', () => {
  test('takes nothing off a list for a recipe nobody has any more', () => {
    const strange = kept({
      weeks: [
        weekOf(
          '2026-W33',
          [session('gone', 1)],
          [
            line('produce', 'orchard', 3, 200),
            line('jars', 'pint', 12, 900),
            line('lids', 'wide', 12, 400),
            line('supply', 'sugar', 5, 400),
          ],
        ),
      ],
    });
    expect(lists(standing([done('gone', 1)], [], strange))).toEqual([
      ['orchard', 3, 200],
      ['pint', 12, 900],
      ['wide', 12, 400],
      ['sugar', 5, 400],
    ]);
  });

  test('batches known to be done in one week take none off another', () => {
    const knew = kept({ year: { kept: [done('jam', 1)] } });
    expect(batches(standing([done('jam', 2, '2026-W35'), done('jam', 1)], [], knew), 2)).toEqual([]);
  });

  test('a plan that kept no decisions has batches moved in it as well', () => {
    const early = kept({ year: { kept: undefined } });
    const plan = standing([ruledOut('halves'), pinned('halves', 2, '2026-W34')], [], early);
    expect(batches(plan, 1)).toEqual([['halves', 2]]);
  });
});

describe('names that are alike', () => {
  test('a supply called as a source is no pound of its crop', () => {
    const alike = kept({
      weeks: [
        weekOf(
          '2026-W33',
          [session('halves', 2)],
          [line('produce', 'orchard', 20, 3000), line('supply', 'orchard', 20, 100)],
        ),
      ],
    });
    expect(lists(standing([done('halves', 1)], [], alike))).toEqual([
      ['orchard', 10, 1500],
      ['orchard', 20, 100],
    ]);
  });

  test('a supply called as an item is nothing to eat of it', () => {
    const alike = kept({
      weeks: [weekOf('2026-W33', [], [line('supply', 'oats', 4, 100), line('item', 'oats', 10, 1000)])],
    });
    expect(pathIn(standing([], [bought('supply', 'oats', 4)], alike), 'oats')?.boughtByWeek).toEqual([
      10, 0, 0,
    ]);
  });

  test('what goes into no jar takes no lids along', () => {
    const [halves, jam] = recipes;
    const bags = kept({ year: { recipes: [{ ...halves, jarKind: null }, jam] } });
    expect(lists(standing([done('halves', 2), ruledOut('jam')], [], bags))?.map(([what]) => what)).toEqual([
      'pint/regular',
      'oats',
    ]);
  });
});

describe('lines that were bought or skipped', () => {
  test('are off the list of their week, and of no other', () => {
    const off = standing([], [bought('supply', 'sugar', 10, { pack: '5-lb' })]);
    expect(lists(off)?.map(([what]) => what)).not.toContain('sugar');
    expect(lists(off, 2)).toEqual(lists(kept(), 2));
    expect(off.plan.weeks[0]?.spend).toBe(8400 - 800);
    expect(
      lists(standing([], [bought('supply', 'sugar', 0, { pack: '5-lb', decision: 'skipped' })])),
    ).toHaveLength(6);
  });

  test('in another pack, or of another kind, are another line', () => {
    for (const other of [
      bought('supply', 'sugar', 10, { pack: '10-lb' }),
      bought('item', 'sugar', 10, { pack: '5-lb' }),
      bought('supply', 'sugar', 10, { pack: '5-lb', week: '2026-W34' }),
    ])
      expect(lists(standing([], [other]))).toEqual(lists(kept()));
  });

  test('that the plan knew of are in it already', () => {
    const sugar = bought('supply', 'sugar', 10, { pack: '5-lb' });
    const knew = kept({ year: { purchasesKnown: [sugar.id] } });
    expect(standingPlan(knew, [], [sugar])).toBe(knew);
  });

  test('in part are asked for with what is left, in whole packs', () => {
    const part = (quantity: number) =>
      standing(
        [],
        [bought('supply', 'sugar', quantity, { pack: '5-lb', settles: false })],
      ).plan.weeks[0]?.purchases.find(({ what }) => what === 'sugar');
    expect(part(5)).toMatchObject({ quantity: 5, cost: 400, packs: { id: '5-lb', count: 1 } });
    expect(part(4)).toMatchObject({ quantity: 10, cost: 800, packs: { id: '5-lb', count: 2 } });
    expect(part(9.96)).toBeUndefined();
    expect(part(9.94)).toMatchObject({ quantity: 5, packs: { count: 1 } });
    expect(part(12)).toBeUndefined();
  });

  test('loose, in part, are asked for with what is left to the ounce', () => {
    const two = [3, 4].map((quantity) => bought('produce', 'orchard', quantity, { settles: false }));
    expect(lists(standing([], two))?.[0]).toEqual(['orchard', 13, 1950]);
  });

  test('leave the others of their week as they are, however little those ask for', () => {
    const little = kept({
      weeks: [
        weekOf('2026-W33', [], [line('produce', 'orchard', 0.04, 10), line('produce', 'tree', 5, 500)]),
      ],
    });
    expect(lists(standing([], [bought('produce', 'tree', 5)], little))).toEqual([['orchard', 0.04, 10]]);
  });

  test('in part are nothing more to go for below a twentieth, and something from it on', () => {
    const rest = (quantity: number) =>
      lists(
        standing(
          [],
          [bought('produce', 'orchard', 0.1 - quantity, { settles: false })],
          kept({ weeks: [weekOf('2026-W33', [], [line('produce', 'orchard', 0.1, 100)])] }),
        ),
      );
    expect(rest(0.05)).toEqual([['orchard', 0.05, 50]]);
    expect(rest(0.04)).toEqual([]);
  });

  test('of an item that is bought stand on the shelf already', () => {
    const off = standing([], [bought('item', 'oats', 10, { pack: 'bag' })]);
    expect(pathIn(off, 'oats')?.boughtByWeek).toEqual([0, 0, 0]);
    const half = standing([], [bought('item', 'oats', 5, { pack: 'bag', settles: false })]);
    expect(pathIn(half, 'oats')?.boughtByWeek).toEqual([5, 0, 0]);
    expect(pathIn(half, 'peaches')).toEqual(pathIn(kept(), 'peaches'));
  });
});

describe('batches moved to another week since', () => {
  const moved = [ruledOut('halves'), pinned('halves', 2, '2026-W34')];

  test('stand there as they stood, with what is to be fetched for them alone', () => {
    const plan = standing(moved);
    expect(batches(plan)).toEqual([['jam', 1]]);
    expect(batches(plan, 1)).toEqual([['halves', 2]]);
    expect(plan.plan.weeks[1]).toMatchObject({ kitchenSessions: 1, kitchenMinutes: 220, spend: 3000 + 2400 });
    // Sugar is still on the list of the week before, for the jam.
    expect(lists(plan, 1)).toEqual([
      ['orchard', 20, 3000],
      ['pint/regular', 24, 2400],
    ]);
  });

  test('beside what stands there already', () => {
    const plan = standing([ruledOut('halves'), pinned('halves', 2, '2026-W35')]);
    expect(batches(plan, 2)).toEqual([
      ['jam', 2],
      ['halves', 2],
    ]);
    expect(plan.plan.weeks[2]).toMatchObject({ kitchenSessions: 1, kitchenMinutes: 20 + 200 + 200 });
    expect(lists(plan, 2)?.map(([what]) => what)).toEqual(['tree', 'sugar', 'orchard', 'pint/regular']);
  });

  test('are asked for no more than what was not bought yet', () => {
    const plan = standing(moved, [bought('produce', 'orchard', 20)]);
    expect(lists(plan, 1)).toEqual([['pint/regular', 24, 2400]]);
  });

  test('bring their stages with them, as many weeks later', () => {
    const begin = { week: '2026-W32', on: '2026-08-09' };
    const weeks = [
      weekOf('2026-W33', [session('halves', 2, { begin })], []),
      weekOf('2026-W34', [], []),
      weekOf('2026-W35', [], []),
    ];
    const plan = standing([ruledOut('halves'), pinned('halves', 2, '2026-W35')], [], kept({ weeks }));
    expect(plan.plan.weeks[2]?.sessions[0]?.begin).toEqual({ week: '2026-W34', on: '2026-08-23' });
    expect(standing(moved).plan.weeks[1]?.sessions[0]).not.toHaveProperty('begin');
  });

  test('what was only pinned, or pinned before the plan was made, moves nothing', () => {
    expect(batches(standing([pinned('halves', 2, '2026-W34')]), 1)).toEqual([]);
    const before = kept({ year: { kept: [pinned('halves', 2, '2026-W34')] } });
    expect(batches(standing(moved, [], before), 1)).toEqual([]);
    const ofAnother = kept({
      year: { kept: [pinned('jam', 2, '2026-W34'), pinned('halves', 1, '2026-W35')] },
    });
    expect(batches(standing(moved, [], ofAnother), 1)).toEqual([['halves', 2]]);
  });

  test('may move to a week in which they were ruled out when the plan was made', () => {
    const before = kept({ year: { kept: [ruledOut('halves', '2026-W34')] } });
    expect(batches(standing(moved, [], before), 1)).toEqual([['halves', 2]]);
  });

  test('where the recipe stands in its new week already they are not put there twice', () => {
    const plan = standing([ruledOut('jam'), pinned('jam', 1, '2026-W35')]);
    expect(batches(plan, 2)).toEqual([['jam', 2]]);
  });

  test('come from a week in which they stood, not from one that was only ruled out', () => {
    const plan = standing([
      ruledOut('jam', '2026-W33'),
      ruledOut('jam', '2026-W35'),
      pinned('jam', 1, '2026-W34'),
    ]);
    expect(batches(plan, 1)).toEqual([['jam', 1]]);
    const later = standing([
      ruledOut('halves', '2026-W34'),
      ruledOut('jam', '2026-W35'),
      pinned('jam', 2, '2026-W34'),
    ]);
    expect(batches(later, 1)).toEqual([['jam', 2]]);
    const none = standing([ruledOut('halves', '2026-W35'), pinned('halves', 2, '2026-W34')]);
    expect(batches(none, 1)).toEqual([]);
  });

  test('bring what their own week asks for no more, though another still does', () => {
    const plan = standing([ruledOut('jam', '2026-W35'), pinned('jam', 2, '2026-W34')]);
    expect(lists(plan, 1)).toEqual([
      ['tree', 10, 1000],
      ['sugar', 5, 400],
    ]);
    expect(lists(plan)).toEqual(lists(kept()));
  });

  test('bring a supply beside an item that is called the same', () => {
    const weeks = [
      weekOf(
        '2026-W33',
        [session('halves', 1)],
        [line('item', 'sugar', 2, 300), line('supply', 'sugar', 5, 400)],
      ),
      weekOf('2026-W34', [], [line('item', 'sugar', 2, 300)]),
    ];
    const plan = standing([ruledOut('halves'), pinned('halves', 1, '2026-W34')], [], kept({ weeks }));
    expect(lists(plan, 1)).toEqual([
      ['sugar', 2, 300],
      ['sugar', 5, 400],
    ]);
  });

  test('bring their jars from that week on', () => {
    expect(pathIn(standing(moved), 'peaches')).toMatchObject({
      madeByWeek: [0, 18, 0],
      readyByWeek: [0, 18, 0],
    });
    const jam = standing([ruledOut('jam'), pinned('jam', 1, '2026-W34')]);
    expect(pathIn(jam, 'plums')).toMatchObject({ madeByWeek: [0, 9, 18], readyByWeek: [0, 0, 9] });
  });
});

describe('the plan at the stove', () => {
  test('has what was done in it, and not what was ruled out or moved', () => {
    const plan = planAtTheStove(kept(), [done('halves', 1), ruledOut('jam')]);
    expect(plan.weeks[0]?.sessions.map((one) => [one.recipe, one.batches])).toEqual([['halves', 2]]);
  });
});

describe('what the season fund holds after each week', () => {
  const fundOf = (opening: number) => ({ opening, setAsideByWeek: [0, 1000, 1000] });
  const plan = () => standing([], [], kept({ year: { fund: fundOf(10_000) } }));
  const nowWith = (opening: number, weeks = ['2026-W33', '2026-W34', '2026-W35']) =>
    ({ weeks, fund: fundOf(opening) }) as unknown as Parameters<typeof withFundNow>[1];
  const holds = ({ plan: { weeks } }: StoredPlan) => weeks.map(({ fundAfter }) => fundAfter);
  const spend = () => plan().plan.weeks.map((week) => week.spend);

  test('is what is in it now with the shares to come, less what is still to be bought', () => {
    const [first = 0, second = 0, third = 0] = spend();
    expect(holds(withFundNow(plan(), nowWith(7000)))).toEqual([
      7000 - first,
      7000 + 1000 - first - second,
      7000 + 2000 - first - second - third,
    ]);
  });

  test('of a week that is over stays as it was planned', () => {
    const [, second = 0] = spend();
    const [over, now] = holds(withFundNow(plan(), nowWith(7000, ['2026-W34', '2026-W35'])));
    expect([over, now]).toEqual([0, 7000 - second]);
  });

  test('is not spoken of where there is no fund, and nothing changes where it holds what was planned', () => {
    const none = 10_000_000;
    const without = standing([], [], kept({ year: { fund: fundOf(none) } }));
    expect(withFundNow(without, nowWith(7000))).toBe(without);
    expect(withFundNow(plan(), nowWith(none))).toEqual(plan());
    const now = withFundNow(plan(), nowWith(7000));
    expect(withFundNow(now, nowWith(7000))).toBe(now);
  });
});
