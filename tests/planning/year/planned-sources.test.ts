import { describe, expect, it } from 'vitest';
import { asDate, asWeek, weeksFrom } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { FetchedProduce } from '../../../src/household/purchase.ts';
import { canningDaysOf, lastUseWeekAtHand } from '../../../src/planning/year/fruit-waits.ts';
import { leftToFetch, plannedSource, producedAtHand } from '../../../src/planning/year/planned-sources.ts';
import { sourceOf } from './orchard-street.ts';

// Wednesday, August 5, 2026 is in week 32; cans on Saturdays, the first on August 8.
const asOf = asDate('2026-08-05');
const weeks = weeksFrom(asWeek('2026-W32'), 3);
const waiting = {
  weeks,
  startsOn: 'monday' as const,
  asOf,
  away: [],
  canningDays: weeks.map((_, at) => [asDate(['2026-08-08', '2026-08-15', '2026-08-22'][at] ?? '')]),
};
const fetched = (change: Partial<FetchedProduce>): FetchedProduce => ({
  sourceId: 'orchard' as never,
  crop: 'peach' as never,
  on: asDate('2026-08-04'),
  useBy: asDate('2026-08-16'),
  lb: 30,
  lbLeft: 30,
  ...change,
});
const facts = (weekStartsOn: 'monday' | 'sunday', ...list: readonly FetchedProduce[]) =>
  ({ fetched: list, household: { weekStartsOn } }) as unknown as HouseholdFacts;

describe('a source as the planner takes it', () => {
  it('gives what it gives in each week, at its price in all of them', () => {
    const orchard = sourceOf('orchard', 'peach', [], {
      poorYearChance: 0.2,
      poorYearShare: 0.4,
      fallBack: 'buy',
    });
    expect(plannedSource(orchard, [10, 20, 0], weeks, [0, 2, 2])).toEqual({
      id: 'orchard',
      name: 'orchard',
      crop: 'peach',
      kind: 'market',
      lbByWeek: [10, 20, 0],
      priceCentsPerLbByWeek: [150, 150, 150],
      useByDays: 3,
      lastUseWeekByWeek: [0, 2, 2],
      poorYearChance: 0.2,
      poorYearShare: 0.4,
      fallBack: 'buy',
    });
  });

  it('gives in a week no more than is left of what was fetched in it', () => {
    const orchard = sourceOf('orchard', 'peach', []);
    const left = (startsOn: 'monday' | 'sunday', ...list: readonly FetchedProduce[]) =>
      leftToFetch(facts(startsOn, ...list), orchard, [50, 20, 5], weeks);
    expect(left('monday')).toEqual([50, 20, 5]);
    expect(left('monday', fetched({}), fetched({ lb: 5 }))).toEqual([15, 20, 5]);
    expect(left('monday', fetched({ lb: 60 }))).toEqual([0, 20, 5]);
    expect(left('monday', fetched({ sourceId: 'stall' as never }))).toEqual([50, 20, 5]);
    // Sunday, August 9: the last day of week 32, or the first of week 33.
    expect(left('monday', fetched({ on: asDate('2026-08-09'), lb: 10 }))).toEqual([40, 20, 5]);
    expect(left('sunday', fetched({ on: asDate('2026-08-09'), lb: 10 }))).toEqual([50, 10, 5]);
  });
});

describe('what lies at hand', () => {
  it('is a source of its own for each last day, that gives it now, for nothing', () => {
    const atHand = producedAtHand(
      facts(
        'monday',
        fetched({}),
        fetched({ lbLeft: 4 }),
        fetched({ useBy: asDate('2026-08-09'), lbLeft: 7 }),
      ),
      weeks,
      waiting,
    );
    expect(atHand).toHaveLength(2);
    expect(atHand[0]).toEqual({
      id: 'peach--at-hand-until-2026-08-16',
      name: 'peach at hand',
      crop: 'peach',
      kind: 'market',
      lbByWeek: [34, 0, 0],
      priceCentsPerLbByWeek: [0, 0, 0],
      useByDays: 11,
      lastUseWeekByWeek: [1, 1, 2],
      poorYearChance: 0,
      poorYearShare: 1,
      fallBack: 'do-without',
      isAtHand: true,
    });
    expect(atHand[1]).toMatchObject({ lbByWeek: [7, 0, 0], useByDays: 4, lastUseWeekByWeek: [0, 1, 2] });
  });

  it('is none of what is used up or past its day, and stands on its last day', () => {
    const of = (change: Partial<FetchedProduce>) =>
      producedAtHand(facts('monday', fetched(change)), weeks, waiting).length;
    expect(of({ lbLeft: 0 })).toBe(0);
    expect(of({ useBy: asDate('2026-08-04') })).toBe(0);
    expect(of({ useBy: asOf })).toBe(1);
  });

  it('that keeps beyond the year is used by its end', () => {
    const [long] = producedAtHand(facts('monday', fetched({ useBy: asDate('2027-08-01') })), weeks, waiting);
    expect(long?.lastUseWeekByWeek).toEqual([2, 1, 2]);
  });

  it('waits for the last canning day on or before its own, from today on', () => {
    expect(lastUseWeekAtHand(asDate('2026-08-15'), waiting)).toBe(1);
    expect(lastUseWeekAtHand(asDate('2026-08-14'), waiting)).toBe(0);
    expect(lastUseWeekAtHand(asDate('2026-08-07'), waiting)).toBe(-1);
    const passed = { ...waiting, asOf: asDate('2026-08-09') };
    expect(lastUseWeekAtHand(asDate('2026-08-14'), passed)).toBe(-1);
    const twice = { ...waiting, canningDays: [['2026-08-05', '2026-08-08'].map(asDate)] };
    expect(lastUseWeekAtHand(asDate('2026-08-07'), twice)).toBe(0);
    expect(lastUseWeekAtHand(asDate('2026-08-05'), twice)).toBe(0);
    expect(lastUseWeekAtHand(asDate('2026-08-04'), twice)).toBe(-1);
  });
});

describe('the canning days of a week', () => {
  const habits = (sessionsPerWeek: number) => ({
    sessionsPerWeek,
    hoursPerSession: 4,
    sessionWeekday: 6,
    weeks: [],
    away: [],
  });
  const days = (sessionsPerWeek: number, on = asOf) =>
    canningDaysOf(habits(sessionsPerWeek) as never, weeks.slice(0, 2), 'monday', on);

  it('are those that are held, in their order', () => {
    expect(days(1)).toEqual([['2026-08-08'], ['2026-08-15']]);
    const [first = []] = days(2);
    expect(first).toEqual(first.toSorted());
    expect(first).toContain('2026-08-08');
  });

  it('are the usual one where none is held', () => {
    expect(days(0)).toEqual([['2026-08-08'], ['2026-08-15']]);
  });

  it('are those to come, or the passed ones where all are', () => {
    expect(days(1, asDate('2026-08-09'))[0]).toEqual(['2026-08-08']);
    const [all = []] = days(2);
    const [left = []] = days(2, asDate(all.at(-1) ?? ''));
    expect(left).toEqual(all.slice(-1));
    expect(all).toHaveLength(2);
    expect(days(2, asDate('2026-08-10'))[0]).toEqual(all);
  });
});
