import { describe, expect, test } from 'vitest';
import { asDate, weeksFrom } from '../../shared/week.ts';
import { countWithSpread } from '../../src/consumption/count-distribution.ts';
import { forecastUse } from '../../src/consumption/use-forecast.ts';
import { allYear, type UsePattern } from '../../src/consumption/use-pattern.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';
import { drawCount, drawGamma } from '../../src/shelf/draws.ts';
import { drawWeeks, predictedUse } from '../../src/shelf/predicted-use.ts';
import { projectShelf } from '../../src/shelf/projection.ts';
import { seeded } from './households-use.ts';

const asOf = asDate('2026-11-25');
const draws = 40_000;
/** Five standard errors of a share of one half. */
const shareError = 5 * Math.sqrt(0.25 / draws);
const meanOf = (sample: readonly number[]): number =>
  sample.reduce((sum, one) => sum + one, 0) / sample.length;
const varianceOf = (sample: readonly number[]): number => {
  const mean = meanOf(sample);
  return meanOf(sample.map((one) => (one - mean) ** 2));
};

describe('drawn counts follow the distribution they are drawn from', () => {
  test.each([
    [0.2, 1],
    [3, 1],
    [0.7, 1.8],
    [12, 4],
    [2.4, 0.6],
    [0.3, 0.5],
    [80, 2],
  ])('mean %d, variance/mean %d', (mean, spread) => {
    const random = seeded(17);
    const count = countWithSpread(mean, spread);

    const sample = Array.from({ length: draws }, () => drawCount(mean, spread, random));

    for (const units of [0, 1, Math.floor(mean), Math.ceil(mean * 1.5), Math.ceil(mean * 2) + 1]) {
      const share = sample.filter((one) => one <= units).length / draws;
      expect(Math.abs(share - count.atMost(units))).toBeLessThan(shareError);
    }
  });
});

// 1, 50 and 90 % points of gamma distributions with scale 1: shape 1 is exponential; shape 1/2 is half a chi-squared with one
// degree of freedom, shape 5 half a chi-squared with ten. Chi-squared points as printed in any table, from memory. The low
// point is there because the method's proposal is already right in the middle.
test.each([
  [1, -Math.log(0.99), Math.log(2), Math.log(10)],
  [0.5, 0.000157088 / 2, 0.454936 / 2, 2.705543 / 2],
  [5, 2.558212 / 2, 9.341818 / 2, 15.987179 / 2],
])(
  'drawn gamma numbers of shape %d lie below its known points as often as they should',
  (shape, ...points) => {
    const random = seeded(3);

    const sample = Array.from({ length: draws }, () => drawGamma(shape, random));

    [0.01, 0.5, 0.9].forEach((level, place) => {
      const share = sample.filter((one) => one <= (points[place] ?? 0)).length / draws;
      expect(Math.abs(share - level)).toBeLessThan(5 * Math.sqrt((level * (1 - level)) / draws));
    });
  },
);

const history = (taken: readonly number[]): WeekOfUse[] =>
  weeksFrom('2026-W20' as WeekOfUse['week'], taken.length).map((week, place) => ({
    week,
    taken: taken[place] ?? 0,
    exposure: 1,
  }));
const schoolWeeks: UsePattern = { kind: 'by-month', byMonth: [1, 1, 1, 1, 1, 0.5, 0, 0, 1, 1, 1, 2] };

describe('courses of the weeks ahead', () => {
  test.each([
    { name: 'nothing seen yet', taken: [], pattern: allYear },
    { name: 'steady', taken: Array.from({ length: 26 }, () => 1), pattern: allYear },
    {
      name: 'lumpy, with a season',
      taken: [0, 6, 0, 0, 1, 0, 8, 0, 0, 0, 5, 0, 0, 1, 9, 0],
      pattern: schoolWeeks,
    },
  ])(
    'have the mean and variance of the forecast over every stretch from now: $name',
    ({ taken, pattern }) => {
      const forecast = forecastUse(
        history(taken),
        {
          perWeek: 1.2,
          weight: 6,
          pattern,
          occasions: [{ on: asDate('2026-12-24'), units: 2.5, name: 'feast' }],
        },
        asOf,
        52,
      );
      const random = seeded(2026);
      const use = predictedUse(forecast);

      const totals = new Map<number, number[]>([1, 4, 13, 52].map((weeks) => [weeks, []]));
      for (let path = 0; path < 20_000; path += 1) {
        const wanted = Array.from(drawWeeks(use, random));
        for (const [weeks, sample] of totals)
          sample.push(wanted.slice(0, weeks).reduce((sum, one) => sum + one, 0));
      }

      for (const [weeks, sample] of totals) {
        const { mean, variance } = use.totalOver(weeks);
        expect(Math.abs(meanOf(sample) - mean)).toBeLessThan(5 * Math.sqrt(variance / sample.length) + 1e-9);
        // Heavy tails: the standard error of a variance is taken generously as 6 % at 20,000 courses.
        if (weeks > 1) expect(Math.abs(varianceOf(sample) / variance - 1)).toBeLessThan(0.12);
      }
    },
  );

  test('a projection from drawn courses agrees with the closed form when the new batch comes too late to matter', () => {
    const forecast = forecastUse(
      history([1, 2, 0, 1, 1, 3, 0, 1]),
      { perWeek: 1.2, weight: 6, pattern: allYear, occasions: [] },
      asOf,
      52,
    );
    const use = predictedUse(forecast);
    const lots = [{ lotId: 'a', units: 30, readyFrom: asOf, bestQualityUntil: asDate('2027-06-01') }];
    const late = {
      week: '2027-W40' as WeekOfUse['week'],
      units: 10,
      readyFrom: asOf,
      bestQualityUntil: asDate('2028-06-01'),
    };
    const facts = { asOf, weeks: 52, lots, use, nextSupplyWeek: null };

    const exact = projectShelf({ ...facts, incoming: [] });
    const drawn = projectShelf({ ...facts, incoming: [late] }, { paths: 4000, seed: 8 });

    // The two laws share mean and variance, not every shape: 3 in 100 beyond five standard errors of the sample.
    const allowed = 5 * Math.sqrt(0.25 / 4000) + 0.03;
    for (const week of [4, 12, 20, 30, 40]) {
      const share = use.totalOver(week + 1).atMost(30);
      const closing = drawn.weeks[week]?.closing;
      expect(exact.method.kind).toBe('exact');
      expect(drawn.method.kind).toBe('simulated');
      expect(Math.abs((closing?.expected ?? 0) - (exact.weeks[week]?.closing.expected ?? 0))).toBeLessThan(
        0.6,
      );
      expect(share).toBeGreaterThanOrEqual(0);
    }
    expect(Math.abs(exact.chanceOfLasting - drawn.chanceOfLasting)).toBeLessThan(allowed);
  });
});
