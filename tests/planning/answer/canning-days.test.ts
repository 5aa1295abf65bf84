import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asDate, asWeek, type WeekStart } from '../../../shared/week.ts';
import { canningDays, type WorkToPlace } from '../../../src/planning/answer/canning-days.ts';
import {
  type SessionDate,
  type SessionHabits,
  sessionDates,
} from '../../../src/planning/days/session-dates.ts';

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

describe('days and work that differ', () => {
  const dates = {
    wednesday: { on: asDate('2026-08-19'), hours: 5 },
    friday: { on: asDate('2026-08-21'), hours: 5 },
    saturday: { on: asDate('2026-08-22'), hours: 5 },
    sunday: { on: asDate('2026-08-23'), hours: 5 },
  };
  const placed = (
    pieces: Parameters<typeof canningDays<WorkToPlace & { readonly name: string }>>[0],
    days: readonly SessionDate[],
    change: Partial<Parameters<typeof canningDays>[1]> = {},
  ) =>
    canningDays(pieces, { ...week, days, sessions: days.length, ...change }).map(
      (day) => `${day.on.slice(8)} ${day.work.map(({ name }) => name).join(' ')}: ${day.minutes}`,
    );
  const waiting = (name: string, minutes: number) => ({ name, minutes, onUsualDay: true });
  const { wednesday, friday, saturday, sunday } = dates;

  test('work of days that are equally free goes to the one that is named first, work of one length in its order', () => {
    expect(placed([work('a', 60), work('b', 60), work('c', 60)], [saturday, friday])).toEqual([
      '21 b: 105',
      '22 a c: 165',
    ]);
  });

  test('the longest is placed first, whatever was named first', () => {
    expect(placed([work('short', 60), work('long', 200), work('middle', 100)], [saturday, sunday])).toEqual([
      '22 long: 245',
      '23 middle short: 205',
    ]);
  });

  test('a week without a session named has one for its work', () => {
    expect(placed([work('a', 60), work('b', 60)], [saturday, sunday], { sessions: 0 })).toEqual([
      '22 a b: 165',
    ]);
  });

  test('work begun for the usual day stands on it, before all other and however full it is', () => {
    expect(
      placed([work('long', 250), waiting('pickles', 60), waiting('kraut', 90)], [friday, saturday]),
    ).toEqual(['21 long: 295', '22 kraut pickles: 195']);
    expect(placed([waiting('a', 200), waiting('b', 200)], [friday, saturday])).toEqual(['22 a b: 445']);
  });

  test('the usual day is held where work waits for it, though others come first', () => {
    const pieces = [waiting('pickles', 60)];

    expect(placed(pieces, [wednesday, friday, saturday], { sessions: 1 })).toEqual(['22 pickles: 105']);
    expect(placed([work('jam', 60)], [wednesday, friday, saturday], { sessions: 1 })).toEqual([
      '19 jam: 105',
    ]);
    // A day that comes first anyway is one day.
    expect(placed([...pieces, work('jam', 60)], [saturday, friday])).toEqual([
      '21 jam: 105',
      '22 pickles: 105',
    ]);
    // Beside it the first of the others.
    expect(placed([...pieces, work('jam', 60)], [wednesday, friday, saturday], { sessions: 2 })).toEqual([
      '19 jam: 105',
      '22 pickles: 105',
    ]);
  });

  test('where the usual day is none of them, what waits for it stands on the first', () => {
    expect(placed([waiting('pickles', 60), work('jam', 50)], [friday, wednesday])).toEqual([
      '19 jam: 95',
      '21 pickles: 105',
    ]);
  });

  test('a day on which two are there holds more than one on which one is', () => {
    const alone = { ...saturday, who: ['ann'] } as unknown as SessionDate;
    const together = { ...sunday, hours: 4, who: ['ann', 'bob'] } as unknown as SessionDate;

    // Alone 255 minutes after setting up; together 195, for one and three quarters pairs of hands.
    expect(placed([work('jam', 60)], [alone, together])).toEqual(['23 jam: 105']);
    expect(placed([work('jam', 60)], [saturday, { ...sunday, hours: 4 }])).toEqual(['22 jam: 105']);
    expect(placed([work('jam', 60)], [saturday, { ...sunday, hours: 6 }])).toEqual(['23 jam: 105']);
  });
});
