import { describe, expect, it } from 'vitest';
import { exactly, negativeBinomial, poisson } from '../../src/consumption/count-distribution.ts';
import { calibrationHistogram, crps, pinball } from '../../src/consumption/forecast-scores.ts';
import { poissonDraw, seeded } from '../shelf/households-use.ts';

// Closed forms of Wei and Held (2014), TEST 23, 787-805; definition of Gneiting and Raftery (2007), JASA 102, 359-378: from memory,
// recomputed two ways that agree to 1e-13.
describe('continuous ranked probability score', () => {
  it.each([
    [0.4, 0, 0.1125409458861171],
    [2.5, 4, 0.9727607867632035],
    [2.5, 0, 1.6312173011153228],
    [7.3, 5, 1.2781402927621868],
  ])('of Poisson %d when %d is observed', (mean, observed, expected) => {
    expect(crps(poisson(mean), observed)).toBeCloseTo(expected, 12);
  });

  it.each([
    [21, 6 / 7, 2, 0.777699745747734],
    [1.5, 0.4, 0, 1.038823788975133],
    [0.8, 0.3, 6, 3.315828877571768],
  ])(
    'of a negative binomial with size %d, chance %d when %d is observed',
    (size, chance, observed, expected) => {
      const forecast = negativeBinomial((size * (1 - chance)) / chance, 1 / chance);
      expect(crps(forecast, observed)).toBeCloseTo(expected, 11);
    },
  );

  it('of a certain forecast is its absolute error', () => {
    expect(crps(exactly(3), 7)).toBe(4);
    expect(crps(exactly(7), 3)).toBe(4);
  });
});

describe('pinball score', () => {
  it('charges the level above the quantile and the rest below it, by hand', () => {
    expect(pinball(exactly(4), 7, [0.9])).toBeCloseTo(0.9 * 3, 12);
    expect(pinball(exactly(4), 1, [0.9])).toBeCloseTo(0.1 * 3, 12);
  });
});

describe('calibration histogram', () => {
  const random = seeded(3);
  const cases = Array.from({ length: 20_000 }, () => {
    const mean = 0.5 + 20 * random();
    return { forecast: poisson(mean), observed: poissonDraw(mean, random) };
  });

  it('is flat when the forecast is the truth', () => {
    const shares = calibrationHistogram(cases);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 10);
    for (const share of shares) expect(Math.abs(share - 0.1)).toBeLessThan(0.01);
  });

  it('piles up at both ends when the forecast is too sure', () => {
    const tooSure = cases.map(({ forecast, observed }) => ({
      forecast: exactly(Math.round(forecast.mean)),
      observed,
    }));
    const shares = calibrationHistogram(tooSure);
    expect((shares[0] ?? 0) + (shares[9] ?? 0)).toBeGreaterThan(0.6);
  });
});
