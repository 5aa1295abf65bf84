import { describe, expect, it } from 'vitest';
import { asDate, asWeek, weeksFrom } from '../../shared/week.ts';
import { forecastUse, type UseForecast } from '../../src/consumption/use-forecast.ts';
import { allYear } from '../../src/consumption/use-pattern.ts';
import { yearlyTarget } from '../../src/consumption/yearly-target.ts';
import { poissonDraw, seeded } from '../shelf/households-use.ts';

// Draws whole stretches of use from what a forecast believes, week by week, by a sampler of its own: a reading by its share, a rate from a
// gamma distribution with that reading's mean and doubt, weeks that are Poisson, lumpier by a rate of their own, or
// steadier as throws of a coin. It shares no line with
// the distribution of totals the target is made from.
const draws = 1500;

const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** Marsaglia and Tsang (2000), ACM Transactions on Mathematical Software 26, 363-372 (from memory). */
function gammaDraw(shape: number, random: () => number): number {
  if (shape < 1) return gammaDraw(shape + 1, random) * random() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal(random);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - random()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** One stretch of use; a lumpy week draws its own rate, so that its variance over mean is `dispersion`. */
function stretchOfUse({ belief }: UseForecast, weeks: number, random: () => number): number {
  let place = random();
  const reading = belief.readings.find(({ share }) => {
    place -= share;
    return place < 0;
  });
  if (reading === undefined) return stretchOfUse({ belief } as UseForecast, weeks, random);
  const doubt = (1.95 * belief.blockDispersion) / reading.weeksOfEvidence;
  const perWeek = gammaDraw(reading.perWeek / doubt, random) * doubt;
  const lump = belief.blockDispersion - 1;
  if (lump < 0) return steadierThanChance(perWeek * weeks, -lump, random);
  let eaten = 0;
  for (let left = weeks; left > 1e-9; left -= 1) {
    const mean = perWeek * Math.min(1, left);
    eaten += poissonDraw(lump > 0.01 ? gammaDraw(mean / lump, random) * lump : mean, random);
  }
  return eaten;
}

/** So many throws of one coin that their variance is `1 - steadier` of their mean; a broken number of throws is rounded by chance. */
function steadierThanChance(mean: number, steadier: number, random: () => number): number {
  const throws = Math.max(Math.ceil(mean), Math.floor(mean / steadier + random()));
  let heads = 0;
  for (let left = throws; left > 0; left -= 1) if (random() < mean / throws) heads += 1;
  return heads;
}

const weeks = weeksFrom(asWeek('2024-W01'), 150);

describe.each([7, 19, 104])('items drawn with seed %i, each with a wish of its own', (seed) => {
  const random = seeded(seed);
  const items = Array.from({ length: 12 }, (_, place) => {
    const perWeek = 0.1 + 3 * random() ** 2;
    const weeksSeen = [0, 5, 30, 70, 150][place % 5] ?? 0;
    const lump = 0.2 + random();
    const history = weeks.slice(0, weeksSeen).map((week) => ({
      week,
      taken: poissonDraw(gammaDraw(perWeek / lump, random) * lump, random),
      exposure: 1,
    }));
    const said = { perWeek: perWeek * (0.7 + 0.6 * random()), weight: 5, pattern: allYear, occasions: [] };
    const forecast = forecastUse(history, said, asDate('2026-11-16'), 52);
    const wish = [0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99][place % 7] ?? 0.9;
    return { perWeek, forecast, wish, gap: [52, 52, 38, 20][place % 4] ?? 52 };
  });

  it.each(items)('$perWeek a week lasts $gap weeks with a chance of $wish', ({ forecast, wish, gap }) => {
    const target = yearlyTarget(forecast, {
      dated: [],
      chanceOfLasting: wish,
      longestGapWeeks: gap,
      crop: null,
      keepsWeeks: 260,
      discardAfterWeeks: 52,
      byHand: null,
    });
    // What stands when the gap begins: the year's units less what is eaten in its other weeks.
    const standing = target.fromForecast - target.parts.use + forecast.perWeek * gap;
    const stretches = Array.from({ length: draws }, () => stretchOfUse(forecast, gap, random));
    const lasted = stretches.filter((eaten) => eaten <= standing + 1e-9).length / draws;
    // One unit fewer must not be enough, beyond what the mean alone would cover: the wish is not overfilled either.
    const withOneLess = stretches.filter((eaten) => eaten <= standing - 1).length / draws;
    const sampling = 3.5 * Math.sqrt((wish * (1 - wish)) / draws);

    expect(lasted).toBeGreaterThanOrEqual(wish - sampling);
    if (target.parts.hungryYear > 0) expect(withOneLess).toBeLessThan(wish + sampling);
  });
});
