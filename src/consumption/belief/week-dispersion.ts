import { dispersionAtStart, weeksInBlock } from './rate-belief.ts';

/**
 * Squared one-step errors, each divided by what chance and doubt about the rate explain, kept with two memories: a short one
 * for lumpy items, whose spells come and go, and a long one, because being steadier than chance shows only slowly. Beside them the
 * squared sums of four errors in a row: a full week after an empty one cancels out there.
 */
export interface Surprise {
  recentSum: number;
  recentCount: number;
  longSum: number;
  longCount: number;
  blockSum: number;
  blockCount: number;
  /** The last errors and what was explained of each, in turn. */
  readonly lastErrors: Float64Array;
  readonly lastExplained: Float64Array;
  errorsSeen: number;
  /** Their sums. */
  errorsTogether: number;
  explainedTogether: number;
}

export const noSurprise = (): Surprise => ({
  recentSum: 0,
  recentCount: 0,
  longSum: 0,
  longCount: 0,
  blockSum: 0,
  blockCount: 0,
  lastErrors: new Float64Array(weeksInBlock),
  lastExplained: new Float64Array(weeksInBlock),
  errorsSeen: 0,
  errorsTogether: 0,
  explainedTogether: 0,
});

const recentMemory = 0.96;
const longMemory = 0.985;
/** Weeks of evidence that the starting dispersion counts for, by memory, and that a week's dispersion counts for in that of a block. */
const recentPrior = 20;
const longPrior = 8;
const blockPrior = 4;
/** Nothing is believed to be steadier than this, a week and a block of four. */
const smallestDispersion = 0.1;
const smallestBlockDispersion = 0.2;

/**
 * Adds one more week's error, in units, with the variance `explained` by a dispersion of 1; `weight` 0..1 (a part of a week counts in
 * part). Changes `surprise`: it runs once a week and item.
 */
export function addSurprise(surprise: Surprise, error: number, explained: number, weight: number): void {
  const squared = (error * error) / explained;
  surprise.recentSum = recentMemory * surprise.recentSum + weight * squared;
  surprise.recentCount = recentMemory * surprise.recentCount + weight;
  surprise.longSum = longMemory * surprise.longSum + weight * squared;
  surprise.longCount = longMemory * surprise.longCount + weight;
  const place = surprise.errorsSeen % weeksInBlock;
  surprise.errorsTogether += error - (surprise.lastErrors[place] ?? 0);
  surprise.explainedTogether += explained - (surprise.lastExplained[place] ?? 0);
  surprise.lastErrors[place] = error;
  surprise.lastExplained[place] = explained;
  surprise.errorsSeen += 1;
  if (surprise.errorsSeen < weeksInBlock) return;
  surprise.blockSum =
    longMemory * surprise.blockSum + (weight * surprise.errorsTogether ** 2) / surprise.explainedTogether;
  surprise.blockCount = longMemory * surprise.blockCount + weight;
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

/**
 * Variance divided by mean of the count of four weeks, never above that of a week. (Blocks lumpier than weeks are spells, which the readings
 * follow; measured on shops' sales, counting them here too makes totals worse.)
 */
export function blockDispersionFrom(surprise: Readonly<Surprise>, dispersion: number): number {
  const block = (blockPrior * dispersion + surprise.blockSum) / (blockPrior + surprise.blockCount);
  return Math.max(smallestBlockDispersion, Math.min(dispersion, block));
}
