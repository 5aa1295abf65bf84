import { describe, expect, test } from 'vitest';
import { asWeek, monthOf, weeksFrom } from '../../shared/week.ts';
import { monthsSeen } from '../../src/consumption/seen-months.ts';
import { suspectedSeason } from '../../src/consumption/suspected-season.ts';
import { allYear, type UsePattern } from '../../src/consumption/use-pattern.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';

// Weeks from January 2025 on, by what is taken in a week of each month; the year is looked at in its last week unless said.
const seen = (
  takenIn: (month: number) => number,
  { from = '2025-W01', weeks = 52, exposure = 1 }: { from?: string; weeks?: number; exposure?: number } = {},
): WeekOfUse[] =>
  weeksFrom(asWeek(from), weeks).map((week) => ({ week, taken: takenIn(monthOf(week)), exposure }));
const inMonths =
  (months: readonly number[], high: number, low: number) =>
  (month: number): number =>
    months.includes(month) ? high : low;
const suspect = (history: readonly WeekOfUse[], pattern: UsePattern = allYear) =>
  suspectedSeason(history, pattern);

describe('a season that stands out', () => {
  test('is asked about with its months, and what was eaten in them and elsewhere', () => {
    // June to August: 13 weeks of 4; the other 39 of 0.5.
    expect(suspect(seen(inMonths([6, 7, 8], 4, 0.5)))).toEqual({
      months: [6, 7, 8],
      taken: 13 * 4,
      takenInAll: 13 * 4 + 39 * 0.5,
      perWeek: 4,
      perWeekElsewhere: 0.5,
    });
  });

  test('may go over New Year, and be a single month', () => {
    // Weeks from March on, so that the winter is over when it is asked about.
    const winter = seen(inMonths([12, 1, 2], 4, 0.2), { from: '2025-W12' });
    expect(suspect(winter)?.months).toEqual([12, 1, 2]);
    expect(suspect(seen(inMonths([7], 9, 0.5)))?.months).toEqual([7]);
  });

  test('has six months at most', () => {
    expect(suspect(seen(inMonths([4, 5, 6, 7, 8, 9], 4, 0)))?.months).toEqual([4, 5, 6, 7, 8, 9]);
    const seven = suspect(seen(inMonths([4, 5, 6, 7, 8, 9, 10], 4, 0)));
    expect(seven === null || seven.months.length <= 6).toBe(true);
  });

  test('is asked about when it is over, not while it may be a new habit', () => {
    const summer = inMonths([6, 7, 8], 4, 0.5);
    const untilAugust = seen(summer, { from: '2024-W35' });
    expect(suspect(untilAugust)).toBeNull();
    expect(suspect([...untilAugust, ...seen(summer, { from: '2025-W35', weeks: 3 })])?.months).toEqual([
      6, 7, 8,
    ]);
  });
});

describe('nothing is asked', () => {
  const summer = inMonths([6, 7, 8], 4, 0.5);

  test('where a season was declared', () => {
    expect(suspect(seen(summer), { kind: 'school-weeks' })).toBeNull();
    expect(suspect(seen(summer), { kind: 'by-month', byMonth: new Array(12).fill(1) })).toBeNull();
  });

  test('of less than 44 weeks that counted', () => {
    expect(suspect(seen(summer, { exposure: 44 / 52 + 1e-9 }))?.months).toEqual([6, 7, 8]);
    expect(suspect(seen(summer, { exposure: 43.9 / 52 }))).toBeNull();
  });

  test('where two months are not known at all', () => {
    const without = (...months: readonly number[]) =>
      seen(summer, { from: '2024-W40', weeks: 64 }).filter(({ week }) => !months.includes(monthOf(week)));
    expect(suspect(without(3))?.months).toEqual([6, 7, 8]);
    expect(suspect(without(3, 4))).toBeNull();
    expect(suspect([])).toBeNull();
  });

  test('of fewer than eight units', () => {
    const few = (high: number) => seen(inMonths([7], high, 0));
    // July has five Thursdays in 2025.
    expect(suspect(few(1.6))?.takenInAll).toBeCloseTo(8, 9);
    expect(suspect(few(1.59))).toBeNull();
  });

  test('of less than three times as much, however clear it is', () => {
    // So many units that any difference stands out by far.
    expect(suspect(seen(inMonths([6, 7, 8], 300, 100)))?.months).toEqual([6, 7, 8]);
    expect(suspect(seen(inMonths([6, 7, 8], 299, 100)))).toBeNull();
  });

  // With a quarter of the weeks and a share q of N units in them the season lies N(q - 1/4) / sqrt(1.5·N·3/16) deviations out.
  test('of what lies within four and a half deviations', () => {
    const summerUnits = (scale: number) => suspect(seen(inMonths([6, 7, 8], 3 * scale, scale)));
    const deviations = (scale: number) => {
      const [inRun, all] = [13 * 3 * scale, 13 * 3 * scale + 39 * scale];
      return (inRun - all / 4) / Math.sqrt(1.5 * all * (3 / 16));
    };
    const edge = (4.5 / deviations(1)) ** 2;
    expect(deviations(edge)).toBeCloseTo(4.5, 9);
    expect(summerUnits(edge * 1.01)?.months).toEqual([6, 7, 8]);
    expect(summerUnits(edge * 0.99)).toBeNull();
  });

  test('of what is eaten all year alike, or only in one kind of year', () => {
    expect(suspect(seen(() => 2))).toBeNull();
    expect(suspect(seen(() => 0))).toBeNull();
  });
});

describe('months that were seen', () => {
  test('hold the weeks of their Thursdays, with what they were worth; worthless ones are left out', () => {
    // Week 1 of 2026 has its Thursday on January 1; week 5 on January 29, week 6 on February 5.
    const history = weeksFrom(asWeek('2026-W01'), 7).map((week, at) => ({
      week,
      taken: at + 1,
      exposure: at === 1 ? 0 : 0.5,
    }));
    expect(monthsSeen(history, ({ exposure }) => exposure)).toEqual([
      { slot: 12 * 2026, month: 0, taken: 1 + 3 + 4 + 5, worth: 2 },
      { slot: 12 * 2026 + 1, month: 1, taken: 6 + 7, worth: 1 },
    ]);
  });

  test('of two years are two', () => {
    const history = [
      ...seen(() => 1, { from: '2025-W01', weeks: 1 }),
      ...seen(() => 1, { from: '2026-W01', weeks: 1 }),
    ];
    expect(monthsSeen(history, () => 1).map(({ slot }) => slot)).toEqual([12 * 2025, 12 * 2026]);
  });
});
