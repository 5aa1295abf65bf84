import { describe, expect, test } from 'vitest';
import { solveInBackground } from '../../../server/solver/plan-year.ts';
import { asCents } from '../../../shared/money.ts';
import { moreToAsk } from '../../../src/planning/explanation/more-to-ask.ts';
import { type More, worthOfMore } from '../../../src/planning/explanation/worth-of-more.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumWeeks, plumYear } from '../plum-year.ts';

// Weeks of five hours in one session: 300 minutes.
describe('what is worth asking about', () => {
  const week = (at: number, kitchenMinutes: number, change: object = {}) => ({
    week: plumWeeks[at],
    kitchenMinutes,
    sessions: [],
    purchases: [],
    ...change,
  });
  const loads = (...of: readonly (readonly [canner: string | null, loads: number])[]) =>
    of.map(([canner, count]) => ({ canner, loads: count }));
  const asked = (weeks: readonly object[], year: PlanningYear = plumYear()) =>
    moreToAsk(year, { weeks } as unknown as Plan);
  const hours = (all: readonly More[]) =>
    all.flatMap((more) => (more.what === 'hour' ? [plumWeeks.indexOf(more.week)] : []));
  const jarsBought = (...of: readonly (readonly [what: string, quantity: number, kind?: string])[]) => ({
    purchases: of.map(([what, quantity, kind = 'jars']) => ({ what, quantity, kind })),
  });

  test('is an hour in the two fullest weeks, by the share of their room that is taken; of equal ones the first', () => {
    const weeks = [week(0, 100), week(1, 200), week(2, 0), week(3, 200), week(4, 150)];
    expect(hours(asked(weeks))).toEqual([1, 3]);
    const time = { ...plumYear().time, maxSessionsByWeek: plumWeeks.map((_, at) => (at === 1 ? 4 : 1)) };
    expect(hours(asked(weeks, plumYear({ time })))).toEqual([3, 4]);
    const closed = { ...plumYear().time, maxSessionsByWeek: plumWeeks.map((_, at) => (at === 1 ? 0 : 1)) };
    expect(hours(asked(weeks, plumYear({ time: closed })))).toEqual([3, 4]);
    expect(hours(asked([week(0, 0)]))).toEqual([]);
  });

  test('is a load in the canner that takes most of them in the fullest week', () => {
    const load = (of: readonly (readonly [canner: string | null, loads: number])[]) =>
      asked([week(0, 100), week(1, 200, { sessions: loads(...of) })]).filter(({ what }) => what === 'load');
    expect(
      load([
        ['kettle', 1],
        ['pressure', 3],
        ['other', 2],
      ]),
    ).toEqual([{ what: 'load', week: plumWeeks[1], cannerId: 'pressure' }]);
    expect(
      load([
        ['kettle', 2],
        ['pressure', 2],
      ]),
    ).toMatchObject([{ cannerId: 'kettle' }]);
    expect(
      load([
        [null, 0],
        ['kettle', 1],
      ]),
    ).toMatchObject([{ cannerId: 'kettle' }]);
    expect(load([[null, 0]])).toEqual([]);
    expect(load([])).toEqual([]);
  });

  test('is a dozen of the two kinds of jar that most are bought of, over the year', () => {
    const kinds = (...weeks: readonly object[]) =>
      asked(weeks.map((change, at) => week(at, 0, change))).flatMap((more) =>
        more.what === 'dozen jars' ? [more.kind] : [],
      );
    expect(kinds(jarsBought(['pint', 12], ['quart', 12], ['half', 24]), jarsBought(['quart', 24]))).toEqual([
      'quart',
      'half',
    ]);
    expect(kinds(jarsBought(['b', 12], ['a', 12]))).toEqual(['a', 'b']);
    expect(kinds(jarsBought(['c', 12], ['a', 12], ['d', 12], ['b', 12]))).toEqual(['a', 'b']);
    expect(kinds(jarsBought(['pint', 12, 'lids']))).toEqual([]);
  });

  test('is ten dollars a week, always', () => {
    expect(asked([])).toEqual([{ what: 'weekly money', cents: 1000 }]);
    expect(asked([week(1, 200)]).at(-1)).toEqual({ what: 'weekly money', cents: 1000 });
  });
});

// Three batches of 7 are wanted in weeks 34 to 37; in them a relaxed plan may make parts of batches.
describe('what a little more is worth', () => {
  const worth = async (year: PlanningYear, more: More) =>
    (await worthOfMore(year, [more], solveInBackground))[0]?.cents ?? Number.NaN;
  const [processing] = [jamRecipe.processing as NonNullable<PlannedRecipe['processing']>];

  test('a dozen jars where none is there: what they would have cost, and nothing where there are enough', async () => {
    const [holding] = plumYear().jars;
    if (holding === undefined) throw new Error('expected jars');
    const rich = { opening: asCents(100_000), setAsideByWeek: plumYear().fund.setAsideByWeek };
    const none = plumYear({
      fund: rich,
      jars: [{ ...holding, empty: 0, owned: 30, returnShare: 0 }],
      items: plumYear().items.map((item) => ({
        ...item,
        openingLots: item.openingLots.map((lot) => ({ ...lot, jars: 0, jarKind: null })),
      })),
    });
    const more = { what: 'dozen jars', kind: holding.kind } as const;
    // 1,500 cents a dozen; a plan in any amount buys exactly what it fills.
    expect(await worth(none, more)).toBeGreaterThan(1400);
    expect(await worth(plumYear({ fund: rich }), more)).toBeLessThan(50);
    expect(await worth(none, { what: 'dozen jars', kind: 'quart/wide' })).toBe(0);
  });

  test('ten dollars a week where money is short, and nothing where it is not', async () => {
    const poor = plumYear({
      fund: { opening: asCents(0), setAsideByWeek: plumWeeks.map(() => asCents(20)) },
    });
    const rich = plumYear({
      fund: { opening: asCents(100_000), setAsideByWeek: plumWeeks.map(() => asCents(0)) },
    });
    const more = { what: 'weekly money', cents: 1000 } as const;
    expect(await worth(poor, more)).toBeGreaterThan(1000);
    expect(await worth(rich, more)).toBeLessThan(50);
  });

  test('a load more of the canner where its day is full, and nothing in a week without plums', async () => {
    const slow = { ...jamRecipe, processing: { ...processing, loadMinutes: 280, attendedMinutes: 5 } };
    const year = plumYear({
      recipes: [slow],
      fund: { opening: asCents(100_000), setAsideByWeek: plumWeeks.map(() => asCents(0)) },
      time: { ...plumYear().time, maxSessionsByWeek: plumWeeks.map((_, at) => (at === 35 ? 1 : 0)) },
    });
    const load = (at: number, cannerId = 'kettle') =>
      ({ what: 'load', week: plumWeeks[at] ?? ('' as never), cannerId }) as const;
    expect(await worth(year, load(35))).toBeGreaterThan(1000);
    expect(await worth(year, load(10))).toBe(0);
    expect(await worth(year, load(35, 'another'))).toBe(0);
  });

  test('is not told where the year cannot be solved at all', async () => {
    const never = async () => ({ status: 'time limit', detail: '' }) as never;
    expect(await worthOfMore(plumYear(), [{ what: 'weekly money', cents: 1000 }], never)).toEqual([]);
  });
});
