import type { CountDistribution } from '../consumption/count-distribution.ts';
import type { PlayedWeeks } from './played-weeks.ts';
import type { PredictedUse, Spread } from './shelf-projection.ts';
import { type ShelfInWeeks, sum } from './shelf-weeks.ts';

/**
 * Can the first `weeks` weeks be computed without simulation? Only when every unit can be taken from the first week on or
 * not at all in these weeks, and none is thrown away: as soon as an empty shelf is filled again, what was wanted in between
 * is lost, and totals alone no longer tell the stock. The answer does not depend on how many units there are.
 */
export const isExact = (shelf: ShelfInWeeks, weeks: number): boolean =>
  shelf.lots.every((lot) => (lot.readyIn === 0 && lot.leavesIn >= weeks) || lot.readyIn >= weeks);

/**
 * Shelf without resupply, in closed form from the distribution of cumulative use.
 *
 * stock at a week's end (units, 0 or more) = max(0, units at the start - units wanted so far). First-expired-first-out
 * serves the lots that expire by a date before all others, so units past best quality are the same expression with only
 * those lots at the start. Expectation of `max(0, units - wanted)` = integral of P(wanted <= x) for x from 0 to the units.
 */
export function exactWeeks(shelf: ShelfInWeeks, use: PredictedUse): PlayedWeeks {
  const start = sum(shelf.lots.map((lot) => lot.units));
  const wantedBy = shelf.weeks.map((_, week) => use.totalOver(week + 1));
  const closing = wantedBy.map((wanted) => leftOf(start, wanted));
  const pastBest = wantedBy.map((wanted, week) =>
    leftOf(sum(shelf.lots.filter((lot) => lot.pastBestFrom <= week).map((lot) => lot.units)), wanted),
  );
  const taken = closing.map(
    (left, week) => (week === 0 ? start : (closing[week - 1]?.expected ?? 0)) - left.expected,
  );
  const unmet = wantedBy.map((wanted, week) =>
    Math.max(0, wanted.mean - (week === 0 ? 0 : (wantedBy[week - 1]?.mean ?? 0)) - (taken[week] ?? 0)),
  );
  return {
    closing,
    pastBest,
    taken,
    unmet,
    discarded: shelf.weeks.map(() => 0),
    shortBy: wantedBy.map((wanted) => 1 - wanted.atMost(start)),
  };
}

/** Probability that nothing wanted is missing in the first `weeks` weeks; only where `isExact` holds for them. */
export function chanceOfEnough(shelf: ShelfInWeeks, use: PredictedUse, weeks: number): number {
  if (weeks === 0) return 1;
  const units = sum(shelf.lots.filter((lot) => lot.readyIn === 0).map((lot) => lot.units));
  return use.totalOver(weeks).atMost(units);
}

function leftOf(units: number, wanted: CountDistribution): Spread {
  if (units <= 0) return { expected: 0, p10: 0, p50: 0, p90: 0 };
  return {
    expected: expectedLeft(units, wanted),
    p10: Math.max(0, units - wanted.quantile(0.9)),
    p50: Math.max(0, units - wanted.quantile(0.5)),
    p90: Math.max(0, units - wanted.quantile(0.1)),
  };
}

function expectedLeft(units: number, wanted: CountDistribution): number {
  // Counts step by one, shifted by what is certain (half a jar at a feast), so any quantile shows where the steps lie.
  const shift = wanted.quantile(0.5) % 1;
  let area = 0;
  for (let step = shift; step < units; step += 1) {
    area += wanted.atMost(step) * (Math.min(step + 1, units) - step);
  }
  return area;
}
