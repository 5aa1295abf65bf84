import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asDate, asWeek, weeksFrom } from '../../shared/week.ts';
import { assumedSchoolHolidays } from '../../src/consumption/household-calendar.ts';
import { type DeclaredUse, forecastUse } from '../../src/consumption/use-forecast.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';

const said = (changes: Partial<DeclaredUse> = {}): DeclaredUse => ({
  perWeek: 1.5,
  weight: 6,
  pattern: allYear,
  occasions: [],
  ...changes,
});
const weeksOf = (taken: readonly number[], exposure = 1): WeekOfUse[] =>
  weeksFrom(asWeek('2026-W01'), taken.length).map((week, at) => ({ week, taken: taken[at] ?? 0, exposure }));
const wednesday = asDate('2026-03-04');
const monday = asDate('2026-03-02');

describe('a forecast before anything was seen', () => {
  const forecast = forecastUse([], said(), monday, 52);

  it('is what was declared, with wide doubt', () => {
    expect(forecast.perWeek).toBeCloseTo(1.5, 12);
    expect(forecast.weeklyMean).toHaveLength(52);
    for (const mean of forecast.weeklyMean) expect(mean).toBeCloseTo(1.5, 12);
    expect(forecast.perWeekRange.low).toBeLessThan(0.9);
    expect(forecast.perWeekRange.high).toBeGreaterThan(2.1);
    expect(forecast.evidence).toEqual({
      takings: 0,
      weeksThatCounted: 0,
      declaredPerWeek: 1.5,
      observedPerWeek: undefined,
    });
  });

  it('doubts less the more firmly it was declared', () => {
    const width = (weight: number): number => {
      const { low, high } = forecastUse([], said({ weight }), monday, 52).perWeekRange;
      return high - low;
    };
    expect(width(8)).toBeLessThan(width(4));
  });
});

describe('the evidence in words: declared 1.5, then 11 jars in 9 weeks', () => {
  const forecast = forecastUse(weeksOf([2, 1, 0, 2, 1, 1, 2, 1, 1]), said(), monday, 52);

  it('is counted', () => {
    expect(forecast.evidence.takings).toBe(11);
    expect(forecast.evidence.weeksThatCounted).toBe(9);
    expect(forecast.evidence.observedPerWeek).toBeCloseTo(11 / 9, 12);
  });

  it('puts the forecast between what was said and what was seen, inside its range', () => {
    expect(forecast.perWeek).toBeGreaterThan(11 / 9);
    expect(forecast.perWeek).toBeLessThan(1.5);
    expect(forecast.perWeekRange.low).toBeLessThan(forecast.perWeek);
    expect(forecast.perWeekRange.high).toBeGreaterThan(forecast.perWeek);
  });
});

describe('weeks ahead', () => {
  it('begin with the rest of this week', () => {
    const forecast = forecastUse([], said(), wednesday, 3);
    expect(forecast.weeks.map((week) => week.ordinaryWeeks)).toEqual([expect.closeTo(5 / 7, 12), 1, 1]);
    expect(forecast.weeks[0]?.week).toBe('2026-W10');
  });

  it('carry absences, months and occasions', () => {
    const forecast = forecastUse(
      [],
      said({
        pattern: { kind: 'by-month', byMonth: [1, 1, 2, 0, 1, 1, 1, 1, 1, 1, 1, 1] },
        occasions: [{ on: asDate('2026-03-17'), units: 4, name: 'Feast' }],
      }),
      monday,
      6,
      { away: [{ from: asDate('2026-03-23'), until: asDate('2026-03-30') }], schoolHolidays: [] },
    );
    expect(forecast.weeklyMean.map((mean) => Number(mean.toFixed(6)))).toEqual([3, 3, 7, 0, 0, 0]);
    expect(forecast.totalOver(6).mean).toBeCloseTo(13, 10);
    expect(forecast.inWeek(2).quantile(0.001)).toBeGreaterThanOrEqual(4);
    expect(forecast.inWeek(3).quantile(0.99)).toBe(0);
  });

  it('follow school weeks', () => {
    const forecast = forecastUse([], said({ pattern: { kind: 'school-weeks' } }), asDate('2026-06-08'), 13, {
      away: [],
      schoolHolidays: assumedSchoolHolidays(2026),
    });
    expect(forecast.weeks.map((week) => week.ordinaryWeeks)).toEqual([1, ...new Array(11).fill(0), 0.8]);
  });

  it('refuse a stretch beyond the horizon, and a horizon of none', () => {
    const forecast = forecastUse([], said(), monday, 4);
    expect(() => forecast.totalOver(5)).toThrow('totalOver: expected weeks within 0..4');
    expect(() => forecast.totalOver(1, 4)).toThrow(RangeError);
    expect(() => forecastUse([], said(), monday, 0)).toThrow(RangeError);
    expect(() => forecastUse([], said({ perWeek: 0 }), monday, 4)).toThrow(RangeError);
  });
});

describe('totals', () => {
  it('have the sum of the weekly means, and more doubt than weeks apart', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 60 }),
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        fc.integer({ min: 1, max: 52 }),
        (counts, perWeek, weeks) => {
          const forecast = forecastUse(weeksOf(counts), said({ perWeek }), asDate('2027-03-01'), 52);
          const total = forecast.totalOver(weeks);
          const means = forecast.weeklyMean.slice(0, weeks).reduce((sum, mean) => sum + mean, 0);
          expect(total.mean).toBeCloseTo(means, 8);
          const apart = Array.from({ length: weeks }, (_, at) => forecast.inWeek(at).variance);
          expect(total.variance).toBeGreaterThanOrEqual(
            apart.reduce((sum, variance) => sum + variance, 0) * 0.75,
          );
          expect(forecast.totalOver(weeks).quantile(0.9)).toBeGreaterThanOrEqual(total.quantile(0.1));
        },
      ),
      { numRuns: 40, seed: 21 },
    );
  });

  it('grow with what was taken: one more jar never lowers the forecast', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 20 }),
        fc.nat(),
        (counts, at) => {
          const more = counts.map((count, week) => (week === at % counts.length ? count + 1 : count));
          const asOf = asDate('2026-06-01');
          const withMore = forecastUse(weeksOf(more), said({ perWeek: 2 }), asOf, 4).perWeek;
          const without = forecastUse(weeksOf(counts), said({ perWeek: 2 }), asOf, 4).perWeek;
          expect(withMore).toBeGreaterThanOrEqual(without);
          // In the first weeks both may be held to a quarter of what was said; later none is.
          if (counts.length >= 14) expect(withMore).toBeGreaterThan(without);
        },
      ),
      { numRuns: 60, seed: 22 },
    );
  });
});

describe('what counts as seen', () => {
  it('is only the part of a week that was exposed', () => {
    const whole = forecastUse(weeksOf([1, 1, 1, 1, 1, 1, 1, 1]), said(), monday, 4);
    const half = forecastUse(weeksOf([0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5], 0.5), said(), monday, 4);
    expect(half.evidence.observedPerWeek).toBeCloseTo(1, 12);
    expect(half.perWeek).toBeGreaterThan(whole.perWeek);
    expect(half.perWeek).toBeLessThan(1.5);
  });

  it('is nothing in weeks without exposure', () => {
    const nothing = forecastUse(weeksOf([0, 0, 0, 0], 0), said(), monday, 4);
    expect(nothing.perWeek).toBeCloseTo(1.5, 12);
    expect(nothing.evidence.weeksThatCounted).toBe(0);
  });

  it('starts anew from a change of habit', () => {
    const changed = forecastUse(
      weeksOf([5, 5, 5, 5, 1, 1]),
      said({ since: asDate('2026-01-26') }),
      monday,
      4,
    );
    expect(changed.evidence).toMatchObject({ takings: 2, weeksThatCounted: 2 });
  });

  it('does not look beyond today', () => {
    const today = asDate('2026-01-11');
    expect(forecastUse(weeksOf([1, 1, 9, 9]), said(), today, 4).evidence.takings).toBe(2);
  });

  it('cares about the sum of an interval read off one count, not how it was spread', () => {
    const spread = (counts: readonly number[]) =>
      forecastUse(
        weeksOf(counts).map((week) => ({ ...week, countInterval: 1 })),
        said(),
        monday,
        4,
      );
    expect(spread([1, 1, 1, 1]).dispersion).toBeCloseTo(spread([0, 4, 0, 0]).dispersion, 12);
  });

  it('is not led away by one party', () => {
    const calm = weeksOf(new Array(20).fill(1));
    const party = calm.map((week, at) => (at === 15 ? { ...week, taken: 30 } : week));
    const asOf = asDate('2026-05-18');
    const { perWeek } = forecastUse(party, said({ perWeek: 1 }), asOf, 4);
    expect(perWeek).toBeLessThan(1.6);
  });
});
