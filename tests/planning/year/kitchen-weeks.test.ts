import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { asDate, asWeek, weekOf, weeksFrom } from '../../../shared/week.ts';
import { fundAhead } from '../../../src/planning/year/fund-ahead.ts';
import { type KitchenHabits, kitchenWeeks } from '../../../src/planning/year/kitchen-weeks.ts';
import { isInMonths } from '../../../src/planning/year/months.ts';

const habits: KitchenHabits = {
  sessionsPerWeek: 2,
  hoursPerSession: 5,
  setUpMinutes: 45,
  sessionWeekday: 6,
  weeks: [{ week: asWeek('2026-W36'), sessions: 3, hoursPerSession: 7 }],
  away: [{ fromOn: asDate('2026-08-28'), untilOn: asDate('2026-09-07') }],
};
// Monday 17 August 2026 is in W34.
const monday = asDate('2026-08-17');

describe('sessions by week', () => {
  test('are as usual, none when away on the usual day, and as said for a week of its own', () => {
    const time = kitchenWeeks(habits, weeksFrom(weekOf(monday), 4), monday);

    // Nobody is at home in the week of its own: nobody cans in it either.
    expect(time.maxSessionsByWeek).toEqual([2, 0, 0, 2]);
    expect(kitchenWeeks({ ...habits, away: [] }, weeksFrom(weekOf(monday), 4), monday)).toMatchObject({
      maxSessionsByWeek: [2, 2, 3, 2],
      hoursPerSessionByWeek: [5, 5, 7, 5],
    });
  });

  test('this week has one less once its usual day has passed', () => {
    const sunday = asDate('2026-08-23');

    expect(kitchenWeeks(habits, weeksFrom(weekOf(sunday), 1), sunday).maxSessionsByWeek).toEqual([1]);
    expect(
      kitchenWeeks(habits, weeksFrom(weekOf(sunday), 1), asDate('2026-08-22')).maxSessionsByWeek,
    ).toEqual([2]);
  });
});

describe('the hours of a week', () => {
  const weeks = weeksFrom(weekOf(monday), 2);
  // Saturdays for six hours, and the third Wednesday of a month, here August 19, for two.
  const unlike: KitchenHabits = {
    ...habits,
    weeks: [],
    away: [],
    rules: [
      { id: 'saturdays', weekday: 6, which: 'every', hours: 6 },
      { id: 'wednesdays', weekday: 3, which: 'third', hours: 2 },
    ],
  };

  test('are the mean of its days, and the longest of them bounds a batch', () => {
    expect(kitchenWeeks(unlike, weeks, monday)).toEqual({
      setUpMinutes: 45,
      maxSessionsByWeek: [2, 1],
      hoursPerSessionByWeek: [4, 6],
      longestSessionByWeek: [6, 6],
    });
  });

  test('name no longest where all are of one length', () => {
    expect(kitchenWeeks({ ...habits, away: [] }, weeks, monday)).not.toHaveProperty('longestSessionByWeek');
    // The Wednesday has passed.
    const thursday = asDate('2026-08-20');
    expect(kitchenWeeks(unlike, weeks, thursday)).not.toHaveProperty('longestSessionByWeek');
    expect(kitchenWeeks(unlike, weeks, thursday).hoursPerSessionByWeek).toEqual([6, 6]);
  });

  test('are the usual ones, or those of its own, where nothing is held', () => {
    const closed = { ...habits, away: [{ fromOn: monday, untilOn: asDate('2026-09-07') }] };
    expect(kitchenWeeks(closed, weeksFrom(weekOf(monday), 3), monday)).toMatchObject({
      maxSessionsByWeek: [0, 0, 0],
      hoursPerSessionByWeek: [5, 5, 7],
      awayByWeek: [true, true, true],
    });
    expect(
      kitchenWeeks(
        { ...closed, weeks: [{ week: asWeek('2026-W34'), sessions: 1, hoursPerSession: null }] },
        weeks,
        monday,
      ),
    ).toMatchObject({
      hoursPerSessionByWeek: [5, 5],
    });
  });

  test('are none before today', () => {
    expect(kitchenWeeks(unlike, weeks, asDate('2026-08-19')).maxSessionsByWeek).toEqual([2, 1]);
    expect(kitchenWeeks(unlike, weeks, asDate('2026-08-20')).maxSessionsByWeek).toEqual([1, 1]);
    expect(kitchenWeeks(unlike, weeks, asDate('2026-08-23')).maxSessionsByWeek).toEqual([0, 1]);
  });
});

describe('pairs of hands in a week', () => {
  const weeks = weeksFrom(weekOf(monday), 3);
  const crew = (saturday: readonly string[], wednesday: readonly string[]): KitchenHabits => ({
    ...habits,
    weeks: [],
    away: [],
    rules: [
      { id: 'saturdays', weekday: 6, which: 'every', hours: 6, who: saturday },
      { id: 'wednesdays', weekday: 3, which: 'third', hours: 2, who: wednesday },
    ],
  });

  test('are one where nobody was named, or one alone', () => {
    expect(kitchenWeeks(crew([], []), weeks, monday)).not.toHaveProperty('handsByWeek');
    expect(kitchenWeeks(crew(['Ada'], ['Ben']), weeks, monday)).not.toHaveProperty('handsByWeek');
  });

  test('count by the minutes of each day beside its set-up', () => {
    const { handsByWeek = [] } = kitchenWeeks(crew(['Ada', 'Ben'], []), weeks, monday);
    // 315 minutes of two people, 1.75 pairs, and 75 of one; then Saturdays alone.
    expect(handsByWeek[0]).toBeCloseTo((315 * 1.75 + 75) / 390, 12);
    expect(handsByWeek.slice(1)).toEqual([1.75, 1.75]);
  });

  test('are one where no session is longer than its set-up, or none is held', () => {
    const away = [{ fromOn: asDate('2026-08-24'), untilOn: asDate('2026-08-31') }];
    expect(kitchenWeeks({ ...crew(['Ada', 'Ben'], []), away }, weeks, monday).handsByWeek?.[1]).toBe(1);
    expect(
      kitchenWeeks({ ...crew(['Ada', 'Ben'], []), setUpMinutes: 360 }, weeks, monday),
    ).not.toHaveProperty('handsByWeek');
    // The Wednesday is all set-up: it counts for nothing, not against the Saturday.
    const short = kitchenWeeks({ ...crew(['Ada', 'Ben'], []), setUpMinutes: 150 }, weeks, monday).handsByWeek;
    expect(short).toEqual([1.75, 1.75, 1.75]);
  });
});

describe('weeks in which nobody is at home', () => {
  // Sunday 2 August 2026 to Saturday 8: one week where weeks start on Sunday, parts of two where they start on Monday.
  const trip = {
    ...habits,
    weeks: [],
    away: [{ fromOn: asDate('2026-08-02'), untilOn: asDate('2026-08-09') }],
  };
  const weeks = weeksFrom(asWeek('2026-W31'), 3);

  test('are those without a day at home, as the household counts its weeks', () => {
    expect(kitchenWeeks(trip, weeks, monday, 'sunday').awayByWeek).toEqual([false, true, false]);
    expect(kitchenWeeks(trip, weeks, monday, 'monday').awayByWeek).toBeUndefined();
  });

  test('a week with one day at home has no more sessions than that', () => {
    const short = { ...trip, away: [{ fromOn: asDate('2026-08-03'), untilOn: asDate('2026-08-08') }] };

    expect(
      kitchenWeeks({ ...short, sessionsPerWeek: 4 }, weeks, asDate('2026-07-20'), 'sunday').maxSessionsByWeek,
    ).toEqual([4, 2, 4]);
  });
});

describe('the season fund ahead', () => {
  test('has grown by each week since it was told, less what was spent', () => {
    const told = {
      balance: asCents(10_000),
      balanceOn: asDate('2026-08-05'),
      weekly: asCents(2_000),
      spentSince: asCents(1_500),
    };

    expect(fundAhead(told, weeksFrom(weekOf(monday), 3))).toEqual({
      opening: 12_500,
      setAsideByWeek: [0, 2_000, 2_000],
    });
  });

  test('without a fund money does not limit', () => {
    expect(fundAhead(null, weeksFrom(weekOf(monday), 1)).opening).toBeGreaterThan(1_000_000);
  });
});

test('months may run over the end of the year', () => {
  const winter = { fromMonth: 10, untilMonth: 4 };

  expect(
    ['2026-W40', '2026-W41', '2027-W10', '2027-W17', '2027-W19'].map((week) =>
      isInMonths(asWeek(week), winter),
    ),
  ).toEqual([true, true, true, true, false]);
});
