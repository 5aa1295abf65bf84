import { type CountDistribution, negativeBinomial } from '../../src/consumption/count-distribution.ts';
import { mixtureOf } from '../../src/consumption/count-mixture.ts';
import { empiricalCount } from './empirical-count.ts';

/**
 * Simple and well-known forecasts of counts, exactly as in the benchmark's protocol, to measure our own against. Each takes the
 * counts seen so far, oldest first, and answers for the next period and for the sum of the next `periods`.
 */
export interface PeriodForecast {
  readonly next: CountDistribution;
  total(periods: number): CountDistribution;
}
export type ForecastMethod = (counts: readonly number[]) => PeriodForecast;

const negativeBinomialAt = (mean: number, spread: number): PeriodForecast => ({
  next: negativeBinomial(mean, spread),
  total: (periods) => negativeBinomial(periods * mean, spread),
});

/** Sample variance (divisor n-1) divided by the mean, at least 1; 1 when the mean is 0. */
function sampleSpread(counts: readonly number[]): number {
  const mean = meanOf(counts);
  if (mean === 0) return 1;
  const squares = counts.reduce((sum, count) => sum + (count - mean) ** 2, 0);
  return Math.max(1, squares / (counts.length - 1) / mean);
}

const meanOf = (counts: readonly number[]): number =>
  counts.reduce((sum, count) => sum + count, 0) / counts.length;

/** `mean_D`: negative binomial at the mean of all counts, with their own spread. */
export const meanWithSpread: ForecastMethod = (counts) =>
  negativeBinomialAt(meanOf(counts), sampleSpread(counts));

/** `ses_D`: negative binomial at the simple exponential smoothing level, which starts at the mean of the first 8 counts. */
export const smoothedWithSpread =
  (smoothing: number): ForecastMethod =>
  (counts) => {
    const level = counts
      .slice(8)
      .reduce((before, count) => before + smoothing * (count - before), meanOf(counts.slice(0, 8)));
    return negativeBinomialAt(level, sampleSpread(counts));
  };

/** `gp_static`: gamma-Poisson without forgetting, started at one unit of evidence for `priorMean`. */
export const staticGammaPoisson =
  (priorMean: number): ForecastMethod =>
  (counts) => {
    const evidence = 1 / priorMean + counts.length;
    const rate = (1 + counts.reduce((sum, count) => sum + count, 0)) / evidence;
    return {
      next: negativeBinomial(rate, 1 + 1 / evidence),
      total: (periods) => negativeBinomial(periods * rate, 1 + periods / evidence),
    };
  };

export interface DiscountedSettings {
  readonly discount: number;
  readonly priorMean: number;
  readonly priorDispersion: number;
}

/** Level, evidence and dispersion after all counts: one filter with one discount. */
export function discountedState(
  counts: readonly number[],
  { discount, priorMean, priorDispersion }: DiscountedSettings,
): { readonly rate: number; readonly evidence: number; readonly dispersion: number } {
  let shape = 1;
  let evidence = 1 / priorMean;
  let surprise = 0;
  let weight = 0;
  for (const count of counts) {
    const rate = shape / evidence;
    surprise = 0.97 * surprise + (count - rate) ** 2 / (Math.max(rate, 0.05) * (1 + 1 / evidence));
    weight = 0.97 * weight + 1;
    shape = discount * shape + count;
    evidence = discount * evidence + 1;
  }
  const dispersion = Math.max(0.5, (15 * priorDispersion + surprise) / (15 + weight));
  return { rate: shape / evidence, evidence, dispersion };
}

/** `gpd`: discounted gamma-Poisson with a learnt dispersion. */
export const discountedGammaPoisson =
  (settings: DiscountedSettings): ForecastMethod =>
  (counts) => {
    const { rate, evidence, dispersion } = discountedState(counts, settings);
    const total = (periods: number): CountDistribution =>
      negativeBinomial(periods * rate, Math.max(1, dispersion * (1 + periods / evidence)));
    return { next: total(1), total };
  };

/** `gpd_dir`: the same, its next period mixed with the discounted histogram of the counts themselves (10 units against theirs). */
export const discountedWithHistogram =
  (settings: DiscountedSettings): ForecastMethod =>
  (counts) => {
    const filtered = discountedGammaPoisson(settings)(counts);
    const weights = counts.map((_, place) => settings.discount ** (counts.length - 1 - place));
    const next = mixtureOf([
      { weight: 10, count: filtered.next },
      { weight: weights.reduce((sum, weight) => sum + weight, 0), count: empiricalCount(counts, weights) },
    ]);
    return { next, total: filtered.total };
  };
