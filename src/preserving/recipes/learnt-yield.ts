/** As much weight as so many batches of the household's own is given to the published yield. Our own choice. */
const publishedWeight = 4;

/** What a batch is expected to give: the published yield, drawn towards what this household saw. */
export interface LearntYield {
  readonly low: number;
  readonly high: number;
  readonly batchesSeen: number;
}

/**
 * Shrinks the household's own jars per batch to the published range: both ends move by the same step,
 * (sum of seen − n · middle) / (4 + n), where the middle is that of the published range and n the batches seen.
 *
 * Example: published 8–9, seen 7, 7, 7 and 7: the middle 8.5 moves by (28 − 34) / 8 = −0.75 to 7.25–8.25.
 */
export const learntYield = (
  published: { readonly low: number; readonly high: number },
  jarsSeen: readonly number[],
): LearntYield => {
  const middle = (published.low + published.high) / 2;
  const surplus = jarsSeen.reduce((sum, jars) => sum + (jars - middle), 0);
  const move = surplus / (publishedWeight + jarsSeen.length);
  return {
    low: Math.max(0, published.low + move),
    high: Math.max(0, published.high + move),
    batchesSeen: jarsSeen.length,
  };
};
