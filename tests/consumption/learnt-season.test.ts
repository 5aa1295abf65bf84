import { describe, expect, it } from 'vitest';
import { asWeek, monthOf, weeksFrom } from '../../shared/week.ts';
import { ordinaryCalendar } from '../../src/consumption/household-calendar.ts';
import { learntPattern } from '../../src/consumption/learnt-season.ts';
import { allYear, type UsePattern } from '../../src/consumption/use-pattern.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';

// Eaten four times as much from November to February.
const years = (count: number): WeekOfUse[] =>
  weeksFrom(asWeek('2022-W01'), 52 * count).map((week) => ({
    week,
    taken: [11, 12, 1, 2].includes(monthOf(week)) ? 4 : 1,
    exposure: 1,
  }));
const byMonth = (pattern: UsePattern): readonly number[] =>
  pattern.kind === 'by-month' ? pattern.byMonth : [];

describe('a season', () => {
  it('is as declared for two years', () => {
    expect(learntPattern(years(1), allYear, ordinaryCalendar)).toBe(allYear);
    const declared: UsePattern = { kind: 'by-month', byMonth: [2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2] };
    expect(learntPattern(years(1), declared, ordinaryCalendar)).toBe(declared);
  });

  it('then moves towards what was eaten, part of the way', () => {
    const season = byMonth(learntPattern(years(3), allYear, ordinaryCalendar));
    const january = (season[0] ?? 0) / (season[6] ?? 1);
    expect(january).toBeGreaterThan(1.2);
    expect(january).toBeLessThan(4);
  });

  it('moves further the more years are seen', () => {
    const contrast = (count: number): number => {
      const season = byMonth(learntPattern(years(count), allYear, ordinaryCalendar));
      return (season[0] ?? 0) / (season[6] ?? 1);
    };
    expect(contrast(6)).toBeGreaterThan(contrast(3));
  });

  it('leaves the year as a whole unchanged', () => {
    const history = years(3);
    const season = byMonth(learntPattern(history, allYear, ordinaryCalendar));
    const worth = history.reduce((sum, week) => sum + (season[monthOf(week.week) - 1] ?? 0), 0);
    expect(worth).toBeCloseTo(history.length, 6);
  });

  it('of school weeks is kept as declared', () => {
    const pattern: UsePattern = { kind: 'school-weeks' };
    expect(learntPattern(years(3), pattern, ordinaryCalendar)).toBe(pattern);
  });
});
