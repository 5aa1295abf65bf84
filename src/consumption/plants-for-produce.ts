/** Seasons of one's own harvest for which the declared yield of a plant counts. */
const declaredYieldWeight = 2;

/**
 * Pounds a plant gives in a season: as declared, moving towards what one's own seasons gave,
 * `(2 · declared + sum of seasons) / (2 + seasons)`.
 *
 * Example: declared 10 lb, seasons of 6 and 8 lb: 8.5 lb.
 */
export function yieldPerPlant(declaredLb: number, seasonsLb: readonly number[]): number {
  const seen = seasonsLb.reduce((sum, pounds) => sum + pounds, 0);
  return (declaredYieldWeight * declaredLb + seen) / (declaredYieldWeight + seasonsLb.length);
}

/** Whole plants for this much produce; throws RangeError for a yield that is not above 0. */
export function plantsFor(produceLb: number, lbPerPlant: number): number {
  if (!(lbPerPlant > 0)) {
    throw new RangeError(`plantsFor: expected a yield per plant above 0, got ${lbPerPlant}`);
  }
  return Math.max(0, Math.ceil(produceLb / lbPerPlant - 1e-9));
}
