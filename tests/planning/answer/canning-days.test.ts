import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asDate, asWeek, type WeekStart } from '../../../shared/week.ts';
import { canningDays } from '../../../src/planning/answer/canning-days.ts';
import { type SessionHabits, sessionDates } from '../../../src/planning/days/session-dates.ts';

// 2026-W34 runs from Monday 17 to Sunday 23 August 2026.
const daysAround = (usualWeekday = 6, change: Partial<SessionHabits> = {}, startsOn: WeekStart = 'monday') =>
  sessionDates(
    { sessionsPerWeek: 7, hoursPerSession: 5, sessionWeekday: usualWeekday, weeks: [], ...change },
    asWeek('2026-W34'),
    startsOn,
  );
const week = { days: daysAround(), usualWeekday: 6, sessions: 2, setUpMinutes: 45 } as const;
const work = (name: string, minutes: number) => ({ name, minutes });

describe('the days of a week at the stove', () => {
  test('one session puts everything on the usual day, with its set-up', () => {
    const days = canningDays([work('peaches', 150), work('pickles', 90)], { ...week, sessions: 1 });

    expect(days).toEqual([
      { on: '2026-08-22', work: [work('peaches', 150), work('pickles', 90)], minutes: 285 },
    ]);
  });

  test('a second session is the day after, and the longest work stays on the usual day', () => {
    const days = canningDays([work('pickles', 90), work('peaches', 150), work('salsa', 80)], week);

    expect(days.map((day) => [day.on, day.work.map((piece) => piece.name)])).toEqual([
      ['2026-08-22', ['peaches']],
      ['2026-08-23', ['pickles', 'salsa']],
    ]);
  });

  test('where weeks start on Sunday, the Sunday after belongs to the next week and the day before is taken', () => {
    const days = canningDays([work('pickles', 90), work('peaches', 150)], {
      ...week,
      days: daysAround(6, {}, 'sunday'),
    });

    expect(days.map((day) => day.on)).toEqual(['2026-08-21', '2026-08-22']);
  });

  test('a usual day at the end of the week is joined by days before it only', () => {
    const days = canningDays([work('a', 60), work('b', 60), work('c', 60)], {
      ...week,
      days: daysAround(7),
      usualWeekday: 7,
      sessions: 3,
    });

    expect(days.map((day) => day.on)).toEqual(['2026-08-21', '2026-08-22', '2026-08-23']);
  });

  test('the longest work stands on the day that has the most time: an evening of two hours takes the short piece', () => {
    const days = [
      { on: asDate('2026-08-22'), hours: 5 },
      { on: asDate('2026-08-19'), hours: 2 },
    ];

    expect(
      canningDays([work('salsa', 60), work('peaches', 150), work('pickles', 90)], { ...week, days }).map(
        (day) => [day.on, day.work.map(({ name }) => name)],
      ),
    ).toEqual([
      ['2026-08-19', ['salsa']],
      ['2026-08-22', ['peaches', 'pickles']],
    ]);
  });

  test('no work, no day; more sessions than work leaves days free', () => {
    expect(canningDays([], week)).toEqual([]);
    expect(canningDays([work('jam', 70)], { ...week, sessions: 4 })).toHaveLength(1);
  });

  test('all work is placed once, inside the week, on no more days than sessions', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 400 }), { maxLength: 8 }),
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 1, max: 7 }),
        (minutes, sessions, usualWeekday) => {
          const pieces = minutes.map((long, place) => work(`w${place}`, long));

          const days = canningDays(pieces, {
            ...week,
            days: daysAround(usualWeekday),
            sessions,
            usualWeekday,
          });

          expect(days.flatMap((day) => day.work).sort((a, b) => (a.name < b.name ? -1 : 1))).toEqual(
            pieces.sort((a, b) => (a.name < b.name ? -1 : 1)),
          );
          expect(days.length).toBeLessThanOrEqual(sessions);
          expect(days.every((day) => day.on >= '2026-08-17' && day.on <= '2026-08-23')).toBe(true);
        },
      ),
    );
  });
});
