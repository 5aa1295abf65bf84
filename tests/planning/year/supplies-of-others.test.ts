import { describe, expect, test } from 'vitest';
import { asDate, weeksFrom } from '../../../shared/week.ts';
import type { CanningSession } from '../../../src/household/session.ts';
import {
  nextCanningWeek,
  standsOnUsualDay,
  weeksWithSessions,
} from '../../../src/planning/days/week-sessions.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import { weeksToKeep } from '../../../src/planning/stored-plan.ts';
import { isLimited } from '../../../src/planning/year/fund-ahead.ts';
import { isInMonths } from '../../../src/planning/year/months.ts';
import { supplyWeeks, withGivers } from '../../../src/planning/year/supply-weeks.ts';
import { uncountedVessels } from '../../../src/planning/year/vessels.ts';
import { gaveWayUnits, type YearWalk } from '../../../src/planning/year/year-walk.ts';

describe('what is made of what another batch leaves', () => {
  const need = (crop: string) => ({ crop, lb: 5 });
  const leather = {
    produce: [need('honey')],
    uses: [{ materialId: 'pulp' }],
    readyAfterWeeks: 0,
    allowedByWeek: null,
  };
  const jelly = { produce: [need('apple')], gives: [{ materialId: 'pulp' }], uses: [] };
  const syrup = { produce: [need('plum')], gives: [{ materialId: 'pulp' }], uses: [] };
  const needs = (ways: ReturnType<typeof withGivers>) =>
    ways.map(({ produce }) => produce.map(({ crop }) => crop));
  const none = new Set<string>();

  test('has the season of both: once for every recipe that leaves it', () => {
    expect(needs(withGivers([leather], [jelly, syrup], none))).toEqual([
      ['honey', 'apple'],
      ['honey', 'plum'],
    ]);
  });

  test('needs no giver while some of it waits already', () => {
    expect(needs(withGivers([leather], [jelly], new Set(['pulp'])))).toEqual([['honey']]);
    expect(needs(withGivers([leather], [], new Set(['pulp'])))).toEqual([['honey']]);
  });

  test('is no way where nothing leaves it, or only what is itself made of such', () => {
    expect(withGivers([leather], [], none)).toEqual([]);
    expect(withGivers([leather], [{ ...jelly, gives: [{ materialId: 'peels' }] }], none)).toEqual([]);
    expect(withGivers([leather], [{ ...jelly, uses: [{ materialId: 'peels' }] }], none)).toEqual([]);
  });

  test('of two by-products needs a giver of each', () => {
    const both = { ...leather, uses: [{ materialId: 'pulp' }, { materialId: 'peels' }] };
    const peeler = { produce: [need('pear')], gives: [{ materialId: 'peels' }], uses: [] };
    expect(needs(withGivers([both], [jelly, syrup, peeler], none))).toEqual([
      ['honey', 'apple', 'pear'],
      ['honey', 'plum', 'pear'],
    ]);
    expect(withGivers([both], [jelly], none)).toEqual([]);
  });

  test('what takes nothing of others stays as it is', () => {
    expect(needs(withGivers([{ ...leather, uses: [] }], [jelly], none))).toEqual([['honey']]);
  });
});

describe('weeks in which a batch of several days can be ready', () => {
  const ways = (stages: object) =>
    [{ produce: [], readyAfterWeeks: 0, allowedByWeek: null, stages }] as never;
  const open = (way: never) =>
    supplyWeeks(way, new Map(), [1, 1, 1, 1, 1]).flatMap((can, week) => (can ? [week] : []));

  test('are those of a load begun within the year, where its days allow it', () => {
    expect(open(ways({ weeks: 2, possibleByWeek: null }))).toEqual([2, 3, 4]);
    expect(open(ways({ weeks: 0, possibleByWeek: [true, false, true, false, true] }))).toEqual([0, 2, 4]);
  });
});

describe('the week whose canning is next', () => {
  const plan = (...weeks: readonly (readonly [week: string, sessions: number])[]) =>
    ({
      weeks: weeks.map(([week, count]) => ({ week, sessions: Array.from({ length: count }, () => ({})) })),
    }) as unknown as Plan;
  const session = (on: string) => ({ on: asDate(on) }) as CanningSession;
  // Sunday, August 9, 2026 is of week 32, or of week 33 where weeks begin on Sundays.
  const next = (
    of: Plan | null,
    begun: readonly CanningSession[] = [],
    today = '2026-08-05',
    startsOn: 'monday' | 'sunday' = 'monday',
  ) => nextCanningWeek(of, begun, asDate(today), startsOn);

  test('is this week’s while it has any, else the first after it', () => {
    expect(next(plan(['2026-W31', 1], ['2026-W32', 1], ['2026-W34', 1]))).toBe('2026-W32');
    expect(next(plan(['2026-W31', 1], ['2026-W32', 0], ['2026-W34', 1], ['2026-W33', 2]))).toBe('2026-W33');
    expect(next(plan(['2026-W31', 1]))).toBeNull();
    expect(next(null)).toBeNull();
  });

  test('may be one in which a day was begun without a plan', () => {
    expect(next(null, [session('2026-08-12')])).toBe('2026-W33');
    expect(next(null, [session('2026-08-02')])).toBeNull();
    expect(next(plan(['2026-W34', 1]), [session('2026-08-09')])).toBe('2026-W32');
    expect(next(plan(['2026-W34', 1]), [session('2026-08-09')], '2026-08-09', 'sunday')).toBe('2026-W33');
  });

  test('weeks without anything to put up are none of its weeks', () => {
    expect(weeksWithSessions(plan(['2026-W32', 0], ['2026-W33', 1])).map(({ week }) => week)).toEqual([
      '2026-W33',
    ]);
    expect(weeksWithSessions(null)).toEqual([]);
  });

  test('what is begun, or shares a by-product, stands on its usual day and no other', () => {
    const of = (change: object) => standsOnUsualDay(change as never);
    expect(of({})).toBe(false);
    expect(of({ begin: { week: '2026-W32', on: '2026-08-05' } })).toBe(true);
    expect(of({ begun: { id: 'a', on: '2026-08-05' } })).toBe(true);
    expect(of({ sharesByProduct: true })).toBe(true);
  });
});

describe('weeks of a plan to stay near', () => {
  const weeks = weeksFrom('2026-W32' as never, 10);
  const kept = (from: string, count: number, outcome = 'planned') =>
    ({ outcome, plan: { weeks: weeksFrom(from as never, count).map((week) => ({ week })) } }) as never;

  test('are those of one that was worked out and reaches over the next four weeks', () => {
    expect(weeksToKeep(kept('2026-W30', 6), weeks)).toHaveLength(6);
    expect(weeksToKeep(kept('2026-W30', 5), weeks)).toBeNull();
    expect(weeksToKeep(kept('2026-W33', 9), weeks)).toBeNull();
    expect(weeksToKeep(kept('2026-W30', 52, 'time limit'), weeks)).toBeNull();
    expect(weeksToKeep(null, weeks)).toBeNull();
  });
});

describe('what a plan leaves missing on a rung of its wishes', () => {
  const walk = (missing: number, reserve: number) => ({ missing, reserve }) as YearWalk;

  test('is of the reserve first, and of use what is missing beyond it', () => {
    expect(gaveWayUnits(walk(5, 3), { rung: 'reserve', amount: 9 })).toBe(3);
    expect(gaveWayUnits(walk(2, 3), { rung: 'reserve', amount: 9 })).toBe(2);
    expect(gaveWayUnits(walk(5, 3), { rung: 'use', amount: 9 })).toBe(2);
    expect(gaveWayUnits(walk(2, 3), { rung: 'use', amount: 9 })).toBe(0);
    expect(gaveWayUnits(walk(2.34, 1), { rung: 'use', amount: 9 })).toBe(1.3);
    expect(gaveWayUnits(walk(2, 3), { rung: 'variety', amount: 9 })).toBe(9);
  });
});

describe('jars and lids nobody counted', () => {
  test('are those a plan added to what was', () => {
    const jars = [{ kind: 'pint/regular' }, { kind: 'quart/wide' }] as never;
    const lids = [{ mouth: 'regular' }, { mouth: 'wide' }] as never;
    const counted = { jars: [{ kind: 'pint/regular' }], lids: [{ mouth: 'wide' }] } as never;
    expect(uncountedVessels({ jars, lids }, counted)).toEqual({
      jars: [{ kind: 'quart/wide' }],
      lids: [{ mouth: 'regular' }],
    });
    expect(uncountedVessels({ jars, lids }, { jars, lids })).toEqual({ jars: [], lids: [] });
  });
});

describe('months and money', () => {
  // Week 31 of 2026 has its Thursday on July 30, week 32 on August 6, week 36 on September 3, week 53 on December 31.
  test.each([
    ['2026-W31', 8, 8, false],
    ['2026-W32', 8, 8, true],
    ['2026-W36', 8, 8, false],
    ['2026-W53', 11, 2, true],
    ['2026-W05', 11, 2, true],
    ['2026-W12', 11, 2, false],
    ['2026-W45', 11, 2, true],
  ])('%s lies in months %i to %i: %s', (week, fromMonth, untilMonth, isIn) => {
    expect(isInMonths(week as never, { fromMonth, untilMonth })).toBe(isIn);
    expect(isInMonths(week as never, null)).toBe(true);
  });

  test('a fund limits what it holds, no fund limits nothing', () => {
    expect(isLimited(undefined)).toBe(false);
    expect(isLimited({ opening: 10_000_000 as never, setAsideByWeek: [] })).toBe(false);
    expect(isLimited({ opening: 9_999_999 as never, setAsideByWeek: [] })).toBe(true);
  });
});
