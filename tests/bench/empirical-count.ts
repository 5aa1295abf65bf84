import { type CountDistribution, levelTolerance } from '../../src/consumption/count-distribution.ts';

/**
 * The distribution of counts that were seen: `F(k)` is the (weighted) share of them that is at most `k`.
 * `values` and `weights` have the same length; throws RangeError for none or for weights that sum to 0.
 *
 * Example: counts 10, 12, 14, 14, 16, 20 reach the level 2/3 at 14.
 */
export function empiricalCount(
  values: readonly number[],
  weights: readonly number[] = values.map(() => 1),
): CountDistribution {
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  if (values.length !== weights.length || !(whole > 0)) {
    throw new RangeError(
      `empiricalCount: expected as many weights as values and a positive sum, got ${values.length} values and ${weights.length} weights that sum to ${whole}`,
    );
  }
  const weightByValue = new Map<number, number>();
  for (const [place, value] of values.entries()) {
    weightByValue.set(value, (weightByValue.get(value) ?? 0) + (weights[place] ?? 0));
  }
  const steps = [...weightByValue].sort(([left], [right]) => left - right);
  const mean = steps.reduce((sum, [value, weight]) => sum + (weight * value) / whole, 0);

  return {
    mean,
    variance: steps.reduce((sum, [value, weight]) => sum + (weight * (value - mean) ** 2) / whole, 0),
    atMost: (units) => steps.reduce((sum, [value, weight]) => sum + (value <= units ? weight : 0), 0) / whole,
    quantile(level) {
      let below = 0;
      for (const [value, weight] of steps) {
        below += weight;
        if (below / whole >= level - levelTolerance) return value;
      }
      return steps[steps.length - 1]?.[0] ?? 0;
    },
  };
}
