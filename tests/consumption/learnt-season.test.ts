import { describe, expect, it } from 'vitest';
import { asWeek, monthOf, weeksFrom } from '../../shared/week.ts';
import { ordinaryCalendar } from '../../src/consumption/household-calendar.ts';
import { learntSeason } from '../../src/consumption/learnt-season.ts';
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

const learntPattern = (history: readonly WeekOfUse[], pattern: UsePattern): UsePattern =>
  learntSeason(history, pattern, ordinaryCalendar).pattern;

describe('a season', () => {
  it('is as declared for a year', () => {
    expect(learntPattern(years(1), allYear)).toBe(allYear);
    const declared: UsePattern = { kind: 'by-month', byMonth: [2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2] };
    expect(learntPattern(years(1), declared)).toBe(declared);
  });

  it('then moves towards what was eaten, the further the more years speak for it', () => {
    const contrast = (count: number): number => {
      const season = byMonth(learntPattern(years(count), allYear));
      return (season[0] ?? 0) / (season[6] ?? 1);
    };
    expect(contrast(2)).toBeGreaterThan(1.2);
    expect(contrast(3)).toBeGreaterThan(contrast(2));
    expect(contrast(4)).toBeGreaterThan(3.5);
    expect(contrast(4)).toBeLessThan(4.5);
  });

  it('leaves the year as a whole unchanged', () => {
    const history = years(3);
    const season = byMonth(learntPattern(history, allYear));
    const worth = history.reduce((sum, week) => sum + (season[monthOf(week.week) - 1] ?? 0), 0);
    expect(worth).toBeCloseTo(history.length, 6);
  });

  it('that somebody denied has to show itself far more clearly', () => {
    const history = years(2).slice(0, 75);
    const { trust } = learntSeason(history, allYear, ordinaryCalendar);
    expect(trust).toBeGreaterThan(0.05);
    expect(learntSeason(history, allYear, ordinaryCalendar, true).trust).toBeLessThan(0.25 * trust);
  });

  it('of school weeks is kept as declared', () => {
    const pattern: UsePattern = { kind: 'school-weeks' };
    expect(learntPattern(years(3), pattern)).toBe(pattern);
  });

  it('of months that were never eaten in stays without use where that was declared, and not where something was taken', () => {
    const never = [1, 1, 0, 1, 1, 0, 1, 1, 1, 1, 1, 1];
    const history = years(4).map((week) => (monthOf(week.week) === 3 ? { ...week, taken: 0 } : week));
    const season = byMonth(learntPattern(history, { kind: 'by-month', byMonth: never }));
    expect(season[2]).toBe(0);
    // June was declared to have none, and a jar a week was taken in it.
    expect(season[5]).toBeGreaterThan(0);
    // A month in which nothing was taken, but some was declared, is still not never.
    const august = years(4).map((week) => (monthOf(week.week) === 8 ? { ...week, taken: 0 } : week));
    expect(
      byMonth(learntPattern(august, { kind: 'by-month', byMonth: new Array<number>(12).fill(1) }))[7],
    ).toBeGreaterThan(0);
  });

  it('needs sixty weeks that count', () => {
    expect(learntSeason(years(2).slice(0, 59), allYear, ordinaryCalendar)).toEqual({
      pattern: allYear,
      trust: 0,
    });
    expect(learntSeason(years(2).slice(0, 60), allYear, ordinaryCalendar).trust).toBeGreaterThan(0);
    const half = years(2).map((week) => ({ ...week, exposure: 0.5 }));
    expect(learntSeason(half, allYear, ordinaryCalendar).trust).toBe(0);
  });

  it('is not seen where the year is all alike, however long it is looked at', () => {
    const flat = years(5).map((week) => ({ ...week, taken: 2 }));
    expect(learntSeason(flat, allYear, ordinaryCalendar).trust).toBeLessThan(0.2);
  });
});
