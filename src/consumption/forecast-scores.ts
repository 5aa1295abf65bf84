import type { CountDistribution } from './count-distribution.ts';

/** Levels at which quantiles of counts are judged. */
export const scoredLevels = [0.1, 0.25, 0.5, 0.75, 0.9, 0.95] as const;

/**
 * Continuous ranked probability score of a forecast of a count, 0 or more, lower is better:
 * `sum over k >= 0 of (F(k) - [k >= observed])²`, in units of the count.
 *
 * `observed` is a whole number, 0 or more. The sum ends where the forecast has no probability left beyond and the observed
 * count is passed. A forecast that is certain scores its absolute error.
 * Source: Gneiting and Raftery (2007), Journal of the American Statistical Association 102, 359-378 (from memory); checked
 * against closed forms of Wei and Held (2014).
 */
export function crps(forecast: CountDistribution, observed: number): number {
  let score = 0;
  for (let count = 0; ; count += 1) {
    const below = forecast.atMost(count);
    const passed = count >= observed;
    if (passed && below >= 1 - 1e-14) return score;
    score += passed ? (1 - below) ** 2 : below ** 2;
  }
}

/**
 * Pinball (quantile) score: mean over the levels of `level · (observed - q)` when the observed count reaches the quantile `q`,
 * else `(1 - level) · (q - observed)`; 0 or more, lower is better, without the factor 2.
 */
export function pinball(
  forecast: CountDistribution,
  observed: number,
  levels: readonly number[] = scoredLevels,
): number {
  const losses = levels.map((level) => {
    const quantile = forecast.quantile(level);
    return observed >= quantile ? level * (observed - quantile) : (1 - level) * (quantile - observed);
  });
  return losses.reduce((sum, loss) => sum + loss, 0) / levels.length;
}

/**
 * Probability integral transform histogram of forecasts of counts, mean over the cases: with calibrated forecasts every bin
 * holds `1 / bins`.
 *
 * Each case spreads its one unit evenly between `F(observed - 1)` and `F(observed)` (the non-randomised form for counts).
 * Source: Czado, Gneiting and Held (2009), Biometrics 65, 1254-1261 (from memory).
 */
export function calibrationHistogram(
  cases: readonly { readonly forecast: CountDistribution; readonly observed: number }[],
  bins = 10,
): number[] {
  const shares = new Array<number>(bins).fill(0);
  for (const { forecast, observed } of cases) {
    const upper = forecast.atMost(observed);
    const lower = observed > 0 ? forecast.atMost(observed - 1) : 0;
    for (let bin = 0; bin < bins; bin += 1) {
      const part = reached(bin + 1, lower, upper, bins) - reached(bin, lower, upper, bins);
      shares[bin] = (shares[bin] ?? 0) + part / cases.length;
    }
  }
  return shares;
}

const reached = (edge: number, lower: number, upper: number, bins: number): number => {
  const level = edge / bins;
  if (level <= lower) return edge === bins && upper <= lower ? 1 : 0;
  return level >= upper ? 1 : (level - lower) / (upper - lower);
};
