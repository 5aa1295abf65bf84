import { describe, expect, test } from 'vitest';
import { countWithSpread } from '../../src/consumption/count-distribution.ts';
import { logLikelihood } from '../../src/consumption/count-likelihood.ts';
import { mixtureOf } from '../../src/consumption/count-mixture.ts';

describe('how likely a count is', () => {
  // ln of the probabilities: Poisson 2: e^-2·2^3/3! = 0.180447; negative binomial by hand, mean 2 and variance 4 (r 2, p 1/2): (k+1)/2^(k+2).
  test.each([
    { count: 3, mean: 2, spread: 1, p: 0.18044704 },
    { count: 0, mean: 2, spread: 1, p: 0.13533528 },
    { count: 0, mean: 2, spread: 2, p: 1 / 4 },
    { count: 3, mean: 2, spread: 2, p: 4 / 32 },
    { count: 30, mean: 2, spread: 2, p: 31 / 2 ** 32 },
    { count: 3, mean: 2, spread: 0.5, p: 0.18044704 },
  ])('$count where $mean are expected, $spread: $p', ({ count, mean, spread, p }) => {
    expect(logLikelihood(count, mean, spread)).toBeCloseTo(Math.log(p), 6);
  });

  test('where nothing is expected nothing is certain, and anything impossible', () => {
    for (const mean of [0, -1]) {
      expect(logLikelihood(0, mean, 2)).toBe(0);
      expect(logLikelihood(1, mean, 2)).toBe(Number.NEGATIVE_INFINITY);
    }
  });

  test('is that of the distribution that is forecast with, count by count', () => {
    for (const spread of [1, 1.4, 3])
      for (let count = 0; count <= 40; count += 1) {
        const distribution = countWithSpread(6, spread);
        const p = distribution.atMost(count) - (count > 0 ? distribution.atMost(count - 1) : 0);
        if (p > 1e-9) expect(logLikelihood(count, 6, spread)).toBeCloseTo(Math.log(p), 4);
      }
  });

  test('lies between its neighbors for part of a jar', () => {
    expect(logLikelihood(10.5, 4, 2)).toBeLessThan(logLikelihood(10, 4, 2));
    expect(logLikelihood(10.5, 4, 2)).toBeGreaterThan(logLikelihood(11, 4, 2));
  });
});

describe('a mixture of counts', () => {
  const [few, many] = [countWithSpread(2, 1), countWithSpread(10, 1)];

  test('without any part, or any weight, is an error', () => {
    for (const parts of [[], [{ weight: 0, count: few }]])
      expect(() => mixtureOf(parts)).toThrow('mixtureOf: weights must sum to more than 0, got 0');
  });

  test('of one part that counts is that part', () => {
    expect(
      mixtureOf([
        { weight: 3, count: few },
        { weight: 0, count: many },
      ]),
    ).toBe(few);
  });

  test('has the mean of its parts by weight, and their spread with the distance between them', () => {
    const mixed = mixtureOf([
      { weight: 3, count: few },
      { weight: 1, count: many },
    ]);
    expect(mixed.mean).toBeCloseTo((3 * 2 + 10) / 4, 12);
    // Variance: mean of the variances (4) and of the squared distances from 4 (12).
    expect(mixed.variance).toBeCloseTo((3 * 2 + 10) / 4 + (3 * 4 + 36) / 4, 9);
    expect(mixed.atMost(5)).toBeCloseTo(0.75 * few.atMost(5) + 0.25 * many.atMost(5), 12);
  });

  test('its quantile is the first count that reaches the level', () => {
    const mixed = mixtureOf([
      { weight: 1, count: few },
      { weight: 2, count: many },
    ]);
    for (const level of [0.05, 0.3, 0.5, 0.8, 0.99]) {
      const units = mixed.quantile(level);
      expect(mixed.atMost(units)).toBeGreaterThanOrEqual(level - 1e-9);
      expect(mixed.atMost(units - 1)).toBeLessThan(level);
    }
  });
});
