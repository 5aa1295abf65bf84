import { type CountDistribution, levelTolerance } from './count-distribution.ts';

export interface MixturePart {
  /** Weight of the part; the weights are divided by their sum. */
  readonly weight: number;
  readonly count: CountDistribution;
}

/**
 * Mixture of count distributions: each part is right with the probability of its weight,
 * https://en.wikipedia.org/wiki/Mixture_distribution. Throws when there is no part or no weight.
 */
export function mixtureOf(parts: readonly MixturePart[]): CountDistribution {
  const whole = parts.reduce((sum, part) => sum + part.weight, 0);
  if (!(whole > 0)) throw new RangeError(`mixtureOf: weights must sum to more than 0, got ${whole}`);
  const kept = parts.filter((part) => part.weight > 0);
  const [only] = kept;
  if (only && kept.length === 1) return only.count;

  const mean = kept.reduce((sum, part) => sum + part.weight * part.count.mean, 0) / whole;
  const secondMoment =
    kept.reduce((sum, part) => sum + part.weight * (part.count.variance + part.count.mean ** 2), 0) / whole;
  const atMost = (units: number): number =>
    kept.reduce((sum, part) => sum + part.weight * part.count.atMost(units), 0) / whole;

  return {
    mean,
    variance: secondMoment - mean ** 2,
    atMost,
    quantile(level) {
      // The mixture's quantile lies between the smallest and the largest quantile of its parts.
      const answers = kept.map((part) => part.count.quantile(level));
      let low = Math.min(...answers);
      let high = Math.max(...answers);
      while (high - low >= 1) {
        const middle = low + Math.floor((high - low) / 2);
        if (atMost(middle) >= level - levelTolerance) high = middle;
        else low = middle + 1;
      }
      return high;
    },
  };
}
