import { describe, expect, it } from 'vitest';
import { addDays, asDate, mondayOf, weekOf, weeksFrom } from '../../../shared/week.ts';
import type { SourceYear } from '../../../src/harvest/source-years.ts';
import { canningDaysOf, lastUseWeekAtHand, lastUseWeeks } from '../../../src/planning/year/fruit-waits.ts';

// Weeks of August 2026: Mondays the 3rd, 10th, 17th and 24th, canned on Saturdays the 8th, 15th, 22nd and 29th.
const asOf = asDate('2026-08-03');
const weeks = weeksFrom(weekOf(asOf), 4);
const saturdays = { sessionsPerWeek: 1, hoursPerSession: 5, sessionWeekday: 6, weeks: [] };
const days = {
  weeks,
  startsOn: 'monday' as const,
  asOf,
  away: [],
  canningDays: canningDaysOf(saturdays, weeks, 'monday', asOf),
};
const ripe = (from: string, to: string): readonly SourceYear[] => [
  {
    season: {
      year: 2026,
      beginsOn: asDate(from),
      endsOn: asDate(to),
      plannedFrom: asDate(from),
      plannedTo: asDate(to),
      plannedOn: 'whole-season',
    },
    lbPerWeek: 20,
    writtenFor: 2026,
    shiftDays: 0,
  },
];

describe('what is picked waits by days', () => {
  it.each([
    // Picked on Tuesday the 4th alone: 4 days to its own Saturday, 11 to the next, 18 to the one after.
    { keeps: 3, last: -1, why: 'not even for its own Saturday' },
    { keeps: 4, last: 0, why: 'for its own Saturday' },
    { keeps: 10, last: 0, why: 'not for the Saturday of the next week, though it keeps a week' },
    { keeps: 11, last: 1, why: 'for the Saturday of the next week' },
    { keeps: 18, last: 2, why: 'for the one after' },
  ])('a harvest of a Tuesday that keeps $keeps days: $why', ({ keeps, last }) => {
    expect(lastUseWeeks(ripe('2026-08-04', '2026-08-04'), keeps, days)[0]).toBe(last);
  });

  it('what ripens all week is picked as late as it can be', () => {
    // For its own Saturday on that day; for the next on the Sunday, six days before.
    expect(lastUseWeeks(ripe('2026-08-01', '2026-09-20'), 1, days).slice(0, 3)).toEqual([0, 1, 2]);
    expect(lastUseWeeks(ripe('2026-08-01', '2026-09-20'), 5, days).slice(0, 3)).toEqual([0, 1, 2]);
    expect(lastUseWeeks(ripe('2026-08-01', '2026-09-20'), 6, days).slice(0, 2)).toEqual([1, 2]);
  });

  it('is not canned before it is ripe', () => {
    expect(lastUseWeeks(ripe('2026-08-09', '2026-09-20'), 5, days)[0]).toBe(-1);
    expect(lastUseWeeks(ripe('2026-08-09', '2026-09-20'), 5, days)[1]).toBe(1);
  });

  it('is not picked while nobody is at home', () => {
    const away = [{ fromOn: asDate('2026-08-06'), untilOn: asDate('2026-08-08') }];

    // Wednesday the 5th is the last day at home before Saturday the 8th.
    expect(lastUseWeeks(ripe('2026-08-01', '2026-08-07'), 2, { ...days, away })[0]).toBe(-1);
    expect(lastUseWeeks(ripe('2026-08-01', '2026-08-07'), 3, { ...days, away })[0]).toBe(0);
  });

  it('is picked no more before today', () => {
    const today = { ...days, asOf: asDate('2026-08-05') };
    // Ripe on Monday and Tuesday alone: nothing is picked in this week, nor in one with nothing ripe.
    expect(lastUseWeeks(ripe('2026-08-03', '2026-08-04'), 1, today)).toEqual([0, 1, 2, 3]);
    expect(lastUseWeeks(ripe('2026-08-03', '2026-08-05'), 2, today)[0]).toBe(-1);
    expect(lastUseWeeks(ripe('2026-08-03', '2026-08-05'), 3, today)[0]).toBe(0);
  });

  it('is ripe from its first day to its last', () => {
    expect(lastUseWeeks(ripe('2026-08-08', '2026-08-08'), 0, days)).toEqual([0, 1, 2, 3]);
    expect(lastUseWeeks(ripe('2026-08-08', '2026-08-08'), 7, days)[0]).toBe(1);
    expect(lastUseWeeks(ripe('2026-08-08', '2026-08-10'), 5, days)).toEqual([0, 1, 2, 3]);
    expect(lastUseWeeks(ripe('2026-08-08', '2026-08-10'), 4, days)[1]).toBe(0);
  });

  it('may be ripe twice', () => {
    const twice = [...ripe('2026-08-04', '2026-08-04'), ...ripe('2026-08-20', '2026-08-20')];
    expect(lastUseWeeks(twice, 4, days)).toEqual([0, 1, 2, 3]);
    expect(lastUseWeeks(twice, 2, days)).toEqual([-1, 1, 2, 3]);
    expect(lastUseWeeks(twice, 1, days)).toEqual([-1, 1, 1, 3]);
  });

  it('waits for the last canning day of a week that has several', () => {
    const several = {
      ...days,
      canningDays: weeks.map((week) => [3, 6].map((day) => addDays(mondayOf(week), day - 1))),
    };
    expect(lastUseWeeks(ripe('2026-08-03', '2026-08-03'), 4, several)[0]).toBe(-1);
    expect(lastUseWeeks(ripe('2026-08-03', '2026-08-03'), 5, several)[0]).toBe(0);
    // Wednesday the 12th is nine days after, Saturday the 15th twelve.
    expect(lastUseWeeks(ripe('2026-08-03', '2026-08-03'), 11, several)[0]).toBe(0);
    expect(lastUseWeeks(ripe('2026-08-03', '2026-08-03'), 12, several)[0]).toBe(1);
  });

  it('waits no longer than the weeks that are looked at', () => {
    expect(lastUseWeeks(ripe('2026-08-04', '2026-08-04'), 400, days)[0]).toBe(3);
  });

  it('at hand, it is used on the last canning day its own last day allows', () => {
    expect(lastUseWeekAtHand(asDate('2026-08-07'), days)).toBe(-1);
    expect(lastUseWeekAtHand(asDate('2026-08-08'), days)).toBe(0);
    expect(lastUseWeekAtHand(asDate('2026-08-14'), days)).toBe(0);
    expect(lastUseWeekAtHand(asDate('2026-08-15'), days)).toBe(1);
  });
});
