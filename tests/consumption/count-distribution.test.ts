import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  countWithSpread,
  exactly,
  negativeBinomial,
  plusCertain,
  poisson,
  steadyCount,
} from '../../src/consumption/count-distribution.ts';
import { mixtureOf } from '../../src/consumption/count-mixture.ts';
import { empiricalCount } from '../bench/empirical-count.ts';

const quantiles = (levels: readonly number[], of: { quantile(level: number): number }): number[] =>
  levels.map((level) => of.quantile(level));
const six = [0.1, 0.25, 0.5, 0.75, 0.9, 0.95];

// Newsvendor with Poisson demand: smallest k with F(k) >= ratio (standard result; numbers computed with SciPy).
describe('the fewest units that cover a wished share of demand', () => {
  it.each([
    { mean: 5, ratio: 0.8, units: 7, covered: 0.866628 },
    { mean: 2.5, ratio: 0.9, units: 5, covered: 0.957979 },
    { mean: 12, ratio: 0.75, units: 14, covered: 0.772025 },
  ])('is $units for a Poisson mean of $mean at $ratio', ({ mean, ratio, units, covered }) => {
    expect(poisson(mean).quantile(ratio)).toBe(units);
    expect(poisson(mean).atMost(units)).toBeCloseTo(covered, 6);
  });

  // neoprimate, IEOR notes, section 414: underage 6, overage 3; F(14) is exactly the critical ratio 2/3, a tie.
  it('counts a tie as reached for demand seen 10, 12, 14, 14, 16, 20', () => {
    const demand = empiricalCount([10, 12, 14, 14, 16, 20]);
    expect(demand.quantile(6 / (6 + 3))).toBe(14);
    expect(demand.atMost(14)).toBeCloseTo(2 / 3, 12);
    expect([10, 12, 14, 16, 18, 20].map((units) => demand.atMost(units))).toEqual(
      [1, 2, 4, 5, 5, 6].map((seen) => expect.closeTo(seen / 6, 12)),
    );
  });

  // Base-stock levels over a protection interval (standard result; computed with SciPy).
  it.each([
    { mean: 6, level: 0.95, units: 10, covered: 0.957379076417462 },
    { mean: 2.8, level: 0.95, units: 6, covered: 0.9755893804756552 },
    { mean: 16.9, level: 0.9, units: 22, covered: 0.9089905834262578 },
  ])('is a base stock of $units for mean $mean at $level', ({ mean, level, units, covered }) => {
    expect(poisson(mean).quantile(level)).toBe(units);
    expect(poisson(mean).atMost(units)).toBeCloseTo(covered, 12);
  });
});

// Johnson, Ott, Dogucu (2022), Bayes Rules!, chapter 5 (spam calls): prior gamma(10, 2), counts 6 2 2 1, posterior gamma(21, 6) read;
// predictive values computed.
describe('gamma-Poisson prediction after spam calls 6, 2, 2, 1', () => {
  const shape = 10 + 6 + 2 + 2 + 1;
  const rate = 2 + 4;
  const total = (days: number) => negativeBinomial((days * shape) / rate, 1 + days / rate);

  it('predicts the next day', () => {
    const next = total(1);
    const chances = [0.03927511, 0.11782533, 0.18515409, 0.20278782, 0.17381813, 0.12415581];
    for (const [count, chance] of chances.entries()) {
      expect(next.atMost(count) - next.atMost(count - 1)).toBeCloseTo(chance, 7);
    }
    expect(next.mean).toBeCloseTo(3.5, 12);
    expect(next.variance).toBeCloseTo(4.083333333333333, 12);
    expect(quantiles(six, next)).toEqual([1, 2, 3, 5, 6, 7]);
  });

  it('predicts the next thirteen days together', () => {
    expect(total(13).mean).toBeCloseTo(45.5, 12);
    expect(quantiles(six, total(13))).toEqual([31, 37, 45, 53, 61, 67]);
  });
});

// Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., section 2.6 (asthma mortality), from memory, recomputed. For a whole-number shape
// P(gamma(shape, rate) > 1) = P(Poisson(rate) < shape).
describe('gamma-Poisson with exposure', () => {
  it.each([
    { deaths: 3, exposure: 2, mean: 0.8571428571, above: 0.3007082762 },
    { deaths: 30, exposure: 20, mean: 1.32, above: 0.92854397 },
  ])('after $deaths in $exposure', ({ deaths, exposure, mean, above }) => {
    const shape = 3 + deaths;
    const rate = 5 + exposure;
    expect(shape / rate).toBeCloseTo(mean, 9);
    expect(poisson(rate).atMost(shape - 1)).toBeCloseTo(above, 8);
  });
});

// Hoff (2009), A First Course in Bayesian Statistical Methods, section 3.2 (births), from memory, recomputed.
describe('two groups compared by their predictions', () => {
  const groupA = negativeBinomial(219 / 112, 1 + 1 / 112);
  const groupB = negativeBinomial(68 / 45, 1 + 1 / 45);
  const chanceOf = (count: number, of: typeof groupA): number => of.atMost(count) - of.atMost(count - 1);
  const counts = Array.from({ length: 60 }, (_, count) => count);

  it('gives the chance that one counts more, and that they are equal', () => {
    const more = counts.reduce((sum, count) => sum + chanceOf(count, groupA) * groupB.atMost(count - 1), 0);
    const equal = counts.reduce((sum, count) => sum + chanceOf(count, groupA) * chanceOf(count, groupB), 0);
    expect(more).toBeCloseTo(0.4820894685, 8);
    expect(equal).toBeCloseTo(0.217675262, 8);
  });

  it('puts the 95 % interval of a rate where Poisson tails say (shape 219, rate 112)', () => {
    expect(poisson(112 * 1.70494315).atMost(218)).toBeCloseTo(0.975, 6);
    expect(poisson(112 * 2.22267902).atMost(218)).toBeCloseTo(0.025, 6);
  });
});

describe('the whole range of a pantry, 0.01 to 500 a week, up to 104 weeks', () => {
  it('keeps mean, variance and order, and never leaves 0..1', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        fc.constantFrom(1, 4, 13, 52, 104),
        fc.double({ min: 0.5, max: 30, noNaN: true }),
        (perWeek, weeks, spread) => {
          const count = countWithSpread(perWeek * weeks, spread);
          const top = count.quantile(1);
          let mean = 0;
          let square = 0;
          let before = 0;
          for (let units = 0; units <= top; units += 1) {
            const upTo = count.atMost(units);
            expect(upTo).toBeGreaterThanOrEqual(before);
            mean += units * (upTo - before);
            square += units * units * (upTo - before);
            before = upTo;
          }
          expect(before).toBeCloseTo(1, 12);
          expect(mean / (perWeek * weeks)).toBeCloseTo(1, 8);
          expect((square - mean * mean) / count.variance).toBeCloseTo(1, 5);
        },
      ),
      { numRuns: 60, seed: 11 },
    );
  });

  it('answers quantiles that are the first to reach their level', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 52_000, noNaN: true }),
        fc.double({ min: 0.5, max: 20, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (mean, spread, level) => {
          const count = countWithSpread(mean, spread);
          const units = count.quantile(level);
          expect(count.atMost(units)).toBeGreaterThanOrEqual(level - 1e-9);
          if (units > 0) expect(count.atMost(units - 1)).toBeLessThan(level);
        },
      ),
      { numRuns: 60, seed: 12 },
    );
  });

  // Far tails of a Poisson of mean 1 by direct sums of exp(-1)/k!.
  it('has true far tails', () => {
    const beyond10 = 1 - poisson(1).atMost(10);
    expect(beyond10 / 1.00477663757e-8).toBeCloseTo(1, 5);
  });

  it('meets Poisson where the spread is 1, from both sides', () => {
    for (const spread of [1 - 1e-7, 1, 1 + 1e-7]) {
      expect(countWithSpread(6.3, spread).atMost(7)).toBeCloseTo(poisson(6.3).atMost(7), 6);
    }
  });
});

describe('counts steadier than chance', () => {
  it.each([
    [20, 0.65],
    [3.66, 0.172],
    [12, 0.1],
    [150, 0.3],
  ])('keep a mean of %d exactly, and a spread of %d', (mean, spread) => {
    const count = steadyCount(mean, spread);
    expect(count.mean).toBeCloseTo(mean, 12);
    expect(count.variance / count.mean).toBeCloseTo(spread, 10);
  });

  it('are never steadier than whole units can be', () => {
    expect(steadyCount(3.66, 0.01).variance).toBeCloseTo(3.66 * (1 - 3.66 / 4), 10);
  });

  it('of less than one unit are a coin', () => {
    const coin = steadyCount(0.3, 0.5);
    expect([coin.atMost(0), coin.atMost(1)]).toEqual([expect.closeTo(0.7, 12), 1]);
  });
});

describe('mixtures and certain additions', () => {
  it('mix probabilities, not quantiles', () => {
    const mixed = mixtureOf([
      { weight: 1, count: exactly(2) },
      { weight: 3, count: exactly(10) },
    ]);
    expect(mixed.mean).toBe(8);
    expect(mixed.variance).toBe(12);
    expect(quantiles([0.25, 0.26], mixed)).toEqual([2, 10]);
  });

  it('shift by units that are sure', () => {
    const shifted = plusCertain(poisson(5), 2.5);
    expect(shifted.mean).toBe(7.5);
    expect(shifted.quantile(0.8)).toBe(9.5);
    expect(shifted.atMost(9.5)).toBeCloseTo(poisson(5).atMost(7), 12);
    expect(shifted.atMost(2)).toBe(0);
  });

  it('refuse impossible numbers', () => {
    expect(() => poisson(-1)).toThrow('poisson: mean must be a finite number, 0 or more, got -1');
    expect(() => negativeBinomial(1, Number.NaN)).toThrow(RangeError);
    expect(() => mixtureOf([])).toThrow(RangeError);
    expect(() => empiricalCount([1, 2], [1])).toThrow(RangeError);
  });
});
