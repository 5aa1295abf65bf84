import { describe, expect, test } from 'vitest';
import type { ItemId } from '../../../shared/ids.ts';
import type { PlanningAnswer } from '../../../src/planning/make-plan.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { aimBefore, aimedPlan, reachedBy } from '../../../src/planning/simulation/aimed-plan.ts';
import type { AimedPlan } from '../../../src/planning/simulation/plan-with-aim.ts';
import type { SimulatedPlan } from '../../../src/planning/simulation/simulated-plan.ts';
import { asOf, berries, factsOf, lotOf, oats, peaches, yearOf } from '../year/orchard-street.ts';

// Peaches can be put up in weeks 33 to 36, nine pints a batch; a pint a week is eaten.
const loaded = yearOf();
const planOf = (
  batchesByWeek: Readonly<Record<string, number>> = {},
  year: PlanningYear = loaded.year,
): Plan =>
  ({
    weeks: year.weeks.map((week) => {
      const batches = batchesByWeek[week] ?? 0;
      return {
        week,
        sessions:
          batches > 0
            ? [{ recipe: 'peach-batch', batches, jars: [], units: 9 * batches, loads: batches }]
            : [],
        purchases: [],
        materials: [],
        spend: 0,
      };
    }),
  }) as unknown as Plan;
const planned = (batchesByWeek: Readonly<Record<string, number>> = {}) =>
  ({ outcome: 'planned', plan: planOf(batchesByWeek) }) as unknown as PlanningAnswer;
const options = (change: object = {}) => ({
  outlookOf: () => ({ runOutWeek: { p10: null, p50: null, p90: null }, chanceOfLasting: 1 }),
  pause: async () => {},
  ...change,
});

describe('a plan that is aimed', () => {
  test('is the first plan, played as many years as asked, where nothing else may be tried', async () => {
    const first = planned({ '2026-W33': 4, '2026-W34': 4 });
    let again = 0;
    const aimed = await aimedPlan(
      loaded,
      first,
      async () => {
        again += 1;
        return first;
      },
      { years: 20, rounds: 0 },
      options(),
    );
    expect(aimed.answer).toBe(first);
    expect(aimed.simulated?.years).toBe(20);
    expect(again).toBe(0);
  });

  test('is planned again with more in reserve where what can only be made lasts too seldom, near the plan before it', async () => {
    const few = planned({ '2026-W33': 4 });
    const asked: { readonly year: PlanningYear; readonly earlier: unknown; readonly outlookOf: unknown }[] =
      [];
    const aim = options();
    await aimedPlan(
      loaded,
      few,
      async (year, given) => {
        asked.push({ year, earlier: given?.earlier, outlookOf: given?.outlookOf });
        return few;
      },
      { years: 50, rounds: 1 },
      aim,
    );
    expect(asked).toHaveLength(1);
    expect(asked[0]?.earlier).toBe(few.outcome === 'planned' ? few.plan.weeks : null);
    expect(asked[0]?.outlookOf).toBe(aim.outlookOf);
    const reserve = (id: ItemId) => asked[0]?.year.items.find((item) => item.id === id)?.reserveForAim ?? 0;
    expect(reserve(peaches.id)).toBeGreaterThan(0);
    // Oats are bought: nothing is held for them.
    expect(reserve(oats.id)).toBe(0);
  });

  test.each([true, false])(
    'begins from the plan before it where it is told to: %s',
    async (beginsFromEarlier) => {
      const few = planned({ '2026-W33': 4 });
      const begun: unknown[] = [];
      await aimedPlan(
        loaded,
        few,
        async (_, given) => {
          begun.push(given?.beginsFrom);
          return few;
        },
        { years: 50, rounds: 1 },
        options({ beginsFromEarlier }),
      );
      expect(begun).toEqual([
        beginsFromEarlier ? { year: loaded.year, plan: few.outcome === 'planned' && few.plan } : undefined,
      ]);
    },
  );

  test('lets others go on between two sampled years', async () => {
    let paused = 0;
    await aimedPlan(
      loaded,
      planned(),
      async () => planned(),
      { years: 7, rounds: 0 },
      options({
        pause: async () => {
          paused += 1;
        },
      }),
    );
    expect(paused).toBe(7);
  });

  test('stops when it is told to', async () => {
    const stopped = AbortSignal.abort(new Error('stopped'));
    await expect(
      aimedPlan(
        loaded,
        planned(),
        async () => planned(),
        { years: 7, rounds: 0 },
        options({ signal: stopped }),
      ),
    ).rejects.toThrow('stopped');
  });

  test('what was set by hand varies around what it says, not around what was seen to be eaten', async () => {
    const lasting = async (change: object) => {
      const of = yearOf({ lots: [lotOf('a', { unitsLeft: 60 })], recipes: [], ...change });
      const first = { outcome: 'planned', plan: planOf({}, of.year) } as unknown as PlanningAnswer;
      const { simulated } = await aimedPlan(
        of,
        first,
        async () => first,
        { years: 200, rounds: 0 },
        options(),
      );
      return simulated?.items.find(({ item }) => item === peaches.id)?.missedUnits.value ?? Number.NaN;
    };
    const firstSupply = { recipes: factsOf().recipes };
    const byUse = await lasting(firstSupply);
    const byHand = await lasting({
      ...firstSupply,
      handTargets: new Map([[peaches.id, { units: 300, setOn: asOf }]]),
    });
    expect(byHand).toBeGreaterThan(byUse + 50);
  });
});

describe('an aim of the same week before', () => {
  const withReserve = {
    ...loaded.year,
    items: loaded.year.items.map((item) => (item.id === peaches.id ? { ...item, reserveForAim: 6 } : item)),
  };
  const wanted = loaded.facts.items.find(({ id }) => id === peaches.id)?.chanceWanted ?? Number.NaN;
  const kept = (change: object = {}, aim = wanted) => ({
    year: withReserve,
    outcome: 'planned' as const,
    reached: {
      years: 1000,
      items: [{ item: peaches.id, lasts: 0.7, standardError: 0.01, aim, isAllMade: false }],
    },
    ...change,
  });
  const reserveOf = (before: ReturnType<typeof aimBefore>) =>
    before?.loaded.year.items.find(({ id }) => id === peaches.id)?.reserveForAim;

  test('is gone on from: with its reserves, of the items it aimed', () => {
    const before = aimBefore(loaded, kept());

    expect(reserveOf(before)).toBe(6);
    expect(before?.aimedBefore).toEqual(new Set([peaches.id]));
    expect(before?.loaded.year.items.filter(({ id }) => id !== peaches.id)).toEqual(
      loaded.year.items.filter(({ id }) => id !== peaches.id),
    );
    expect(loaded.year.items.some(({ reserveForAim }) => reserveForAim !== undefined)).toBe(false);
  });

  test('says nothing of an item whose wished chance is another now', () => {
    const before = aimBefore(loaded, kept({}, wanted / 2));

    expect(reserveOf(before)).toBeUndefined();
    expect(before?.aimedBefore.size).toBe(0);
  });

  test.each([
    ['no plan', null],
    ['a plan of another week', kept({ year: { ...withReserve, weeks: withReserve.weeks.slice(1) } })],
    ['a plan that was never played', kept({ reached: null })],
    ['a plan the solver did not find', kept({ outcome: 'solver crashed' })],
  ])('is aimed anew after %s', (_, before) => {
    expect(aimBefore(loaded, before)).toBeNull();
  });
});

describe('what was reached', () => {
  const estimate = (value: number) => ({ value, standardError: 0.01 });
  const simulated = (...items: readonly (readonly [id: ItemId, lasts: number])[]) =>
    ({
      years: 500,
      items: items.map(([item, lasts]) => ({ item, lasts: estimate(lasts) })),
    }) as unknown as SimulatedPlan;
  const reached = (answer: unknown, played: SimulatedPlan | null, of = loaded) =>
    reachedBy({ year: of.year, answer, simulated: played, roundsUsed: 0 } as AimedPlan, of);
  const all = simulated([peaches.id, 0.95], [berries.id, 0.7], [oats.id, 0.5]);

  test('is told of what can only be made, with what was wished for it', () => {
    expect(reached(planned(), all)).toMatchObject({
      years: 500,
      items: [
        { item: 'peaches', lasts: 0.95, standardError: 0.01, aim: 0.9 },
        { item: 'berries', lasts: 0.7, aim: 0.9 },
      ],
    });
    const wished = yearOf({ items: [{ ...peaches, chanceWanted: 0.8 }, berries, oats] });
    expect(reached(planned(), all, wished)?.items[0]?.aim).toBe(0.8);
    expect(reached(planned(), simulated(['gone' as ItemId, 0.2]))?.items).toEqual([]);
    expect(reached(planned(), all, yearOf({ recipes: [] }))?.items).toEqual([]);
  });

  test('is not told of a plan that was not played', () => {
    expect(reached(planned(), null)).toBeNull();
  });

  // Weeks 33 to 36 have one session of six hours: of 340 minutes a batch takes 90 and its stay at the stove, and peaches are 70 lb a week.
  test('says where every batch that could be made is planned, so that no reserve helps', () => {
    const isAllMade = (answer: unknown) =>
      reached(answer, all)?.items.find(({ item }) => item === 'peaches')?.isAllMade;
    const most = { '2026-W33': 99, '2026-W34': 99, '2026-W35': 99, '2026-W36': 99 };
    expect(isAllMade(planned(most))).toBe(true);
    expect(isAllMade(planned({ ...most, '2026-W35': 0 }))).toBe(false);
    expect(isAllMade(planned({ ...most, '2026-W35': 1 }))).toBe(false);
    expect(isAllMade({ outcome: 'time limit', fallback: { plan: planOf(most) } })).toBe(true);
    expect(isAllMade({ outcome: 'time limit', fallback: { plan: planOf({}) } })).toBe(false);
    const begun = planOf(most);
    const withBegun = {
      ...begun,
      weeks: begun.weeks.map((week) => ({
        ...week,
        sessions: week.sessions.map((session) => ({ ...session, begun: { id: 'a', on: asOf } })),
      })),
    };
    expect(isAllMade({ outcome: 'planned', plan: withBegun })).toBe(false);
    expect(reached(planned(most), all)?.items.find(({ item }) => item === 'berries')?.isAllMade).toBe(false);
  });
});
