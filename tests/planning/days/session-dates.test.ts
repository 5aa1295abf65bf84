import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addDays,
  asDate,
  asWeek,
  dayOfMonth,
  daysBetween,
  daysOfWeek,
  weekdayOf,
  weekHolding,
  weeksFrom,
} from '../../../shared/week.ts';
import { lastDayAtHome } from '../../../src/harvest/source-years.ts';
import type { SessionRule } from '../../../src/household/kitchen.ts';
import {
  isPaused,
  nextSessionDates,
  type SessionHabits,
  sessionDates,
} from '../../../src/planning/days/session-dates.ts';
import { kitchenWeeks } from '../../../src/planning/year/kitchen-weeks.ts';

// August 2026 begins on a Saturday: its Saturdays are the 1st, 8th, 15th, 22nd and 29th.

const habits: SessionHabits = { sessionsPerWeek: 2, hoursPerSession: 5, sessionWeekday: 6, weeks: [] };
const rule = (weekday: number, which: SessionRule['which'] = 'every', hours = 5): SessionRule => ({
  id: `${weekday}-${which}`,
  weekday,
  which,
  hours,
});
const from = asDate('2026-07-27');
const weeks = weeksFrom(asWeek('2026-W31'), 60);
const next = (change: Partial<SessionHabits>, count = 6) =>
  nextSessionDates({ ...habits, ...change }, weeks, from, 'monday', count).map(
    ({ on, hours }) => `${on} ${hours} h`,
  );

describe('sessions by rule', () => {
  test('Saturdays', () => {
    expect(next({ rules: [rule(6)] }, 3)).toEqual(['2026-08-01 5 h', '2026-08-08 5 h', '2026-08-15 5 h']);
  });

  // Said as "the second Saturday of the month", it took some forty entries by hand.
  test('the second Saturday of the month', () => {
    expect(next({ rules: [rule(6, 'second')] }, 3)).toEqual([
      '2026-08-08 5 h',
      '2026-09-12 5 h',
      '2026-10-10 5 h',
    ]);
  });

  test('the last Saturday, and evenings of two hours', () => {
    expect(next({ rules: [rule(6, 'last'), rule(3, 'every', 2)] }, 6)).toEqual([
      '2026-07-29 2 h',
      '2026-08-05 2 h',
      '2026-08-12 2 h',
      '2026-08-19 2 h',
      '2026-08-26 2 h',
      '2026-08-29 5 h',
    ]);
  });

  test('not while away, nor in the first two weeks of August, each year', () => {
    const pauses = [{ id: 'a', fromOn: asDate('2020-08-01'), untilOn: asDate('2020-08-15'), eachYear: true }];
    const away = [{ fromOn: asDate('2026-08-20'), untilOn: asDate('2026-08-25') }];

    expect(next({ rules: [rule(6)], pauses, away }, 2)).toEqual(['2026-08-15 5 h', '2026-08-29 5 h']);
    expect(next({ pauses }, 2)).toEqual(['2026-08-15 5 h', '2026-08-16 5 h']);
  });

  test('a pause over the turn of the year comes back over each', () => {
    const pause = { id: 'a', fromOn: asDate('2025-12-20'), untilOn: asDate('2026-01-07'), eachYear: true };

    expect(
      ['2026-12-19', '2026-12-20', '2027-01-06', '2027-01-07', '2030-01-01'].map((day) =>
        isPaused(asDate(day), pause),
      ),
    ).toEqual([false, true, true, false, true]);
  });

  test('a week with a long and a short day counts with their mean, and one batch with the longest', () => {
    const time = kitchenWeeks(
      { ...habits, rules: [rule(6), rule(3, 'every', 2)], setUpMinutes: 45, away: [] },
      weeksFrom(asWeek('2026-W34'), 1),
      asDate('2026-08-17'),
    );

    expect(time).toMatchObject({
      maxSessionsByWeek: [2],
      hoursPerSessionByWeek: [3.5],
      longestSessionByWeek: [5],
    });
  });

  test('fall on days that were said alone, at home, once a day, in the week they count to, whatever the rules', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.integer({ min: 1, max: 7 }),
            fc.constantFrom(...(['every', 'first', 'second', 'third', 'fourth', 'last'] as const)),
            fc.integer({ min: 1, max: 8 }),
          ),
          { minLength: 1, maxLength: 5 },
        ),
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: 0, max: 30 }),
        fc.constantFrom('monday' as const, 'sunday' as const),
        (said, start, days, startsOn) => {
          const rules = said.map(([weekday, which, hours]) => rule(weekday, which, hours));
          const awayFrom = addDays(from, start);
          const away = [{ fromOn: awayFrom, untilOn: addDays(awayFrom, days + 1) }];
          const expected = new Set<string>();
          // Counted day by day, by what the words of a rule mean.
          for (let at = 0; at < 420; at += 1) {
            const day = addDays(from, at);
            const nth = Math.ceil(dayOfMonth(day) / 7);
            const isLast = dayOfMonth(addDays(day, 7)) <= 7;
            const isSaid = rules.some(
              ({ weekday, which }) =>
                weekdayOf(day) === weekday &&
                (which === 'every' ||
                  (which === 'last'
                    ? isLast
                    : nth === ['first', 'second', 'third', 'fourth'].indexOf(which) + 1)),
            );
            const isAway = daysBetween(awayFrom, day) >= 0 && daysBetween(awayFrom, day) <= days;
            if (isSaid && !isAway) expected.add(day);
          }
          const given = weeks.flatMap((week) => {
            const own = sessionDates({ ...habits, rules, away }, week, startsOn);
            for (const { on } of own) {
              expect(weekHolding(on, startsOn)).toBe(week);
              expect(daysOfWeek(week, startsOn)).toContain(on);
            }
            return own.map(({ on }) => on);
          });

          expect(given.length).toBe(new Set(given).size);
          expect(given.filter((day) => day >= from && day < addDays(from, 410)).toSorted()).toEqual(
            [...expected].filter((day) => day < addDays(from, 410)).toSorted(),
          );
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('where no days are said', () => {
  test('the usual day and as many around it as sessions are held; none in a week whose usual day is away', () => {
    expect(next({}, 4)).toEqual(['2026-08-01 5 h', '2026-08-02 5 h', '2026-08-08 5 h', '2026-08-09 5 h']);
    const away = [{ fromOn: asDate('2026-08-01'), untilOn: asDate('2026-08-02') }];
    expect(next({ away }, 1)).toEqual(['2026-08-08 5 h']);
  });

  test('a day on which nobody is at home is passed over', () => {
    const away = [{ fromOn: asDate('2026-08-02'), untilOn: asDate('2026-08-03') }];
    expect(next({ away }, 2)).toEqual(['2026-07-31 5 h', '2026-08-01 5 h']);
  });

  test('a Sunday as usual day begins the week where weeks begin on Sunday, and ends it where they begin on Monday', () => {
    const sundays = { ...habits, sessionsPerWeek: 1, sessionWeekday: 7 };

    expect(sessionDates(sundays, asWeek('2026-W34'), 'sunday')).toEqual([{ on: '2026-08-16', hours: 5 }]);
    expect(sessionDates(sundays, asWeek('2026-W34'), 'monday')).toEqual([{ on: '2026-08-23', hours: 5 }]);
  });
});

test('a trip is made on the last day at home before it is due, and on the day itself where there is none', () => {
  const away = [{ fromOn: asDate('2026-08-20'), untilOn: asDate('2026-08-24') }];

  expect(lastDayAtHome(asDate('2026-08-23'), away, asDate('2026-08-17'))).toBe('2026-08-19');
  expect(lastDayAtHome(asDate('2026-08-26'), away, asDate('2026-08-17'))).toBe('2026-08-26');
  expect(lastDayAtHome(asDate('2026-08-23'), away, asDate('2026-08-21'))).toBe('2026-08-23');
});
