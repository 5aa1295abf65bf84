import { describe, expect, test } from 'vitest';
import { asDate, asWeek } from '../../../shared/week.ts';
import type { SessionPause, SessionRule } from '../../../src/household/kitchen.ts';
import {
  isPaused,
  nextSessionDates,
  type SessionHabits,
  sessionDates,
  usualWeekday,
  whoIsThere,
} from '../../../src/planning/days/session-dates.ts';

// Week 34 of 2026 is Monday, August 17 to Sunday, August 23.
const habits: SessionHabits = { sessionsPerWeek: 1, hoursPerSession: 5, sessionWeekday: 4, weeks: [] };
const rule = (weekday: number, hours: number, change: Partial<SessionRule> = {}): SessionRule => ({
  id: `${weekday}`,
  weekday,
  which: 'every',
  hours,
  ...change,
});
const pause = (fromOn: string, untilOn: string, eachYear = false): SessionPause => ({
  id: 'p',
  fromOn: asDate(fromOn),
  untilOn: asDate(untilOn),
  eachYear,
});
const week = asWeek('2026-W34');
const dates = (change: Partial<SessionHabits>) =>
  sessionDates({ ...habits, ...change }, week, 'monday').map(({ on, hours }) => `${on.slice(8)}: ${hours} h`);
const own = (sessions: number, hoursPerSession: number | null = null, of = week) => [
  { week: of, sessions, hoursPerSession },
];

describe('the days around the usual one', () => {
  test('are that day, the day after, the day before, and so on, as many as sessions', () => {
    const days = (sessionsPerWeek: number) =>
      dates({ sessionsPerWeek }).map((day) => Number(day.slice(0, 2)));
    expect(days(7)).toEqual([20, 21, 19, 22, 18, 23, 17]);
    expect(days(3)).toEqual([20, 21, 19]);
    expect(days(0)).toEqual([]);
  });

  test('a pause takes its days out, and puts none in their place', () => {
    expect(dates({ sessionsPerWeek: 3, pauses: [pause('2026-08-20', '2026-08-21')] })).toEqual([
      '21: 5 h',
      '19: 5 h',
    ]);
    expect(
      dates({
        sessionsPerWeek: 3,
        pauses: [pause('2026-08-21', '2026-08-22'), pause('2026-08-19', '2026-08-20')],
      }),
    ).toEqual(['20: 5 h']);
  });
});

describe('the days of rules', () => {
  test('are the longest first, of equal ones as they were said; one on two of them counts once, as the longer', () => {
    expect(dates({ rules: [rule(1, 2), rule(6, 4), rule(3, 2)] })).toEqual(['22: 4 h', '17: 2 h', '19: 2 h']);
    expect(dates({ rules: [rule(6, 2), rule(6, 4), rule(6, 3)] })).toEqual(['22: 4 h']);
    expect(dates({ rules: [rule(6, 2, { which: 'fourth' }), rule(6, 4, { which: 'third' })] })).toEqual([
      '22: 2 h',
    ]);
  });

  test('the usual day is theirs: that of the longest, the first said of equal ones', () => {
    expect(usualWeekday({ sessionWeekday: 4 })).toBe(4);
    expect(usualWeekday({ sessionWeekday: 4, rules: [] })).toBe(4);
    expect(usualWeekday({ sessionWeekday: 4, rules: [rule(1, 2), rule(6, 4), rule(3, 4)] })).toBe(6);
  });

  test('as many days as were said are held, whatever the usual number', () => {
    expect(dates({ sessionsPerWeek: 1, rules: [rule(1, 2), rule(6, 4)] })).toHaveLength(2);
    expect(dates({ sessionsPerWeek: 3, rules: [rule(6, 4)] })).toHaveLength(1);
  });
});

describe('a week of its own', () => {
  test('has as many days as it says, the days of rules first and then those around the longest', () => {
    expect(dates({ weeks: own(3) })).toEqual(['20: 5 h', '21: 5 h', '19: 5 h']);
    expect(dates({ weeks: own(0) })).toEqual([]);
    const rules = [rule(1, 2), rule(6, 4)];
    expect(dates({ rules, weeks: own(1) })).toEqual(['22: 4 h']);
    expect(dates({ rules, weeks: own(4) })).toEqual(['22: 4 h', '17: 2 h', '23: 5 h', '21: 5 h']);
    // A week of its own is that week alone.
    expect(dates({ weeks: own(3, null, asWeek('2026-W35')) })).toHaveLength(1);
  });

  test('is as long as it says, else as long as usual', () => {
    expect(dates({ weeks: own(2, 7) })).toEqual(['20: 7 h', '21: 7 h']);
    expect(dates({ rules: [rule(1, 2)], weeks: own(2, 7) })).toEqual(['17: 7 h', '18: 7 h']);
  });

  test('is held in a pause too, but never by somebody who is away', () => {
    const pauses = [pause('2026-08-01', '2026-09-01')];
    expect(dates({ pauses })).toEqual([]);
    expect(dates({ pauses, weeks: own(1) })).toEqual(['20: 5 h']);
    expect(dates({ pauses, rules: [rule(6, 4)], weeks: own(1) })).toEqual(['22: 4 h']);
    const away = [{ fromOn: asDate('2026-08-20'), untilOn: asDate('2026-08-22') }];
    expect(dates({ away, weeks: own(2) })).toEqual(['19: 5 h', '22: 5 h']);
    expect(dates({ away, rules: [rule(5, 4)], weeks: own(1) })).toEqual(['22: 5 h']);
  });
});

describe('who is there', () => {
  const who = ['Ada', 'Bo'];
  const thursday = asDate('2026-08-20');

  test('on a day of a rule those it names, else those who usually are, else nobody by name', () => {
    expect(whoIsThere({}, thursday)).toEqual([]);
    expect(whoIsThere({ who }, thursday)).toEqual(who);
    expect(whoIsThere({ who, rules: [rule(4, 2, { who: ['Cy'] })] }, thursday)).toEqual(['Cy']);
    expect(whoIsThere({ who, rules: [rule(4, 2)] }, thursday)).toEqual(who);
    expect(whoIsThere({ who, rules: [rule(5, 2, { who: ['Cy'] })] }, thursday)).toEqual(who);
    // Of two rules that give the day, the longer.
    expect(
      whoIsThere({ rules: [rule(4, 2, { who: ['Cy'] }), rule(4, 3, { who: ['Di'] })] }, thursday),
    ).toEqual(['Di']);
  });

  test('is written beside a day where somebody was named', () => {
    const days = (change: Partial<SessionHabits>) => sessionDates({ ...habits, ...change }, week, 'monday');
    expect(days({ who })).toEqual([{ on: '2026-08-20', hours: 5, who }]);
    expect(days({ who: [] })).toEqual([{ on: '2026-08-20', hours: 5 }]);
    expect(days({ who, rules: [rule(6, 3)] })).toEqual([{ on: '2026-08-22', hours: 3, who }]);
    expect(days({ who, rules: [rule(6, 3, { who: ['Cy'] })] })).toEqual([
      { on: '2026-08-22', hours: 3, who: ['Cy'] },
    ]);
    expect(days({ who, weeks: own(1) })).toEqual([{ on: '2026-08-20', hours: 5, who }]);
  });
});

describe('a pause', () => {
  const on = (days: readonly string[], of: SessionPause) => days.map((day) => isPaused(asDate(day), of));
  const ends = ['2026-07-31', '2026-08-01', '2026-08-14', '2026-08-15'];

  test('runs from its first day to the day before its end, in its own year alone', () => {
    expect(on(ends, pause('2026-08-01', '2026-08-15'))).toEqual([false, true, true, false]);
    expect(on(['2027-08-05', '2025-08-05'], pause('2026-08-01', '2026-08-15'))).toEqual([false, false]);
  });

  test('comes back each year where that was said, in years before it too', () => {
    expect(on(ends, pause('2020-08-01', '2020-08-15', true))).toEqual([false, true, true, false]);
    expect(on(ends, pause('2028-08-01', '2028-08-15', true))).toEqual([false, true, true, false]);
  });
});

describe('the next days', () => {
  const weeks = [week, asWeek('2026-W35')];
  const next = (from: string, count: number, change: Partial<SessionHabits> = {}) =>
    nextSessionDates({ ...habits, ...change }, weeks, asDate(from), 'monday', count).map(({ on }) =>
      Number(on.slice(8)),
    );

  test('stand in their order, from the day itself on, as many as are asked for and the weeks hold', () => {
    expect(next('2026-08-20', 2)).toEqual([20, 27]);
    expect(next('2026-08-21', 2)).toEqual([27]);
    expect(next('2026-08-01', 1)).toEqual([20]);
    expect(next('2026-08-01', 4, { sessionsPerWeek: 3 })).toEqual([19, 20, 21, 26]);
  });
});
