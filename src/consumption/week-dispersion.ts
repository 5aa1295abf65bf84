import { dispersionAtStart } from './rate-belief.ts';

/**
 * Squared one-step errors, each divided by what chance and doubt about the rate explain, kept with two memories: a short one
 * for lumpy items, whose spells come and go, and a long one, because being steadier than chance shows only slowly.
 */
export interface Surprise {
  recentSum: number;
  recentCount: number;
  longSum: number;
  longCount: number;
}

export const noSurprise = (): Surprise => ({ recentSum: 0, recentCount: 0, longSum: 0, longCount: 0 });

const recentMemory = 0.96;
const longMemory = 0.985;
/** Weeks of evidence that the starting dispersion counts for, by memory. */
const recentPrior = 20;
const longPrior = 8;
/** Nothing is believed to be steadier than this. */
const smallestDispersion = 0.5;

/** Adds one more week's surprise, `weight` 0..1 (a part of a week counts in part). Changes `surprise`: it runs once a week and item. */
export function addSurprise(surprise: Surprise, squaredError: number, weight: number): void {
  surprise.recentSum = recentMemory * surprise.recentSum + weight * squaredError;
  surprise.recentCount = recentMemory * surprise.recentCount + weight;
  surprise.longSum = longMemory * surprise.longSum + weight * squaredError;
  surprise.longCount = longMemory * surprise.longCount + weight;
}

/**
 * Variance divided by mean of a week's count. The long memory speaks when it finds the item steadier than chance (below 1), the
 * recent one otherwise.
 */
export function dispersionFrom(surprise: Readonly<Surprise>): number {
  const long = (longPrior * dispersionAtStart + surprise.longSum) / (longPrior + surprise.longCount);
  const recent =
    (recentPrior * dispersionAtStart + surprise.recentSum) / (recentPrior + surprise.recentCount);
  return Math.max(smallestDispersion, long < 1 ? long : recent);
}
