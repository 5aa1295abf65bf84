/** Expected use and its distribution, as far as a reserve needs them. */
interface UseAhead {
  readonly weeklyMean: readonly number[];
  totalOver(weeks: number, first?: number): { quantile(level: number): number };
}

/** Weeks of shop closures and forgotten lists that a staple's reserve bridges. Judged, no source. */
const stapleReserveWeeks = 4;

export interface SupplyGap {
  /** First week without supply, and how many follow each other. */
  readonly first: number;
  readonly weeks: number;
}

/** The longest run of weeks in which nothing new can arrive; of equal ones the first. Null when supply never pauses. */
export function longestGap(canArrive: readonly boolean[]): SupplyGap | null {
  let longest: SupplyGap | null = null;
  let first = 0;
  canArrive.forEach((arrives, week) => {
    if (arrives) first = week + 1;
    else if (longest === null || week + 1 - first > longest.weeks)
      longest = { first, weeks: week + 1 - first };
  });
  return longest;
}

/**
 * Units beyond expected use that should still stand when the next supply comes, so that the item lasts with the chance
 * the household wants: quantile of the use between supplies less its mean, 0 or more. What is bought bridges four weeks.
 */
export function reserveFor(
  use: UseAhead,
  chanceWanted: number,
  gap: SupplyGap | null,
  isBought: boolean,
): number {
  const span = isBought
    ? { first: 0, weeks: Math.min(stapleReserveWeeks, use.weeklyMean.length) }
    : (gap ?? { first: 0, weeks: 0 });
  const weeks = Math.min(span.weeks, use.weeklyMean.length - span.first);
  if (weeks <= 0) return 0;
  const mean = use.weeklyMean.slice(span.first, span.first + weeks).reduce((sum, units) => sum + units, 0);
  return Math.max(0, use.totalOver(weeks, span.first).quantile(chanceWanted) - mean);
}

/**
 * Units the last week of the horizon hands over: expected use from then until the first week in which something new can
 * arrive; of what can be bought, two weeks. Nothing when no supply is known beyond the horizon.
 */
export function yearEndUnits(
  weeklyMean: readonly number[],
  canArrive: readonly boolean[],
  horizonWeeks: number,
  isBought: boolean,
): number {
  const next = isBought
    ? horizonWeeks + 2
    : canArrive.findIndex((arrives, week) => week >= horizonWeeks && arrives);
  return next < 0 ? 0 : weeklyMean.slice(horizonWeeks, next).reduce((sum, units) => sum + units, 0);
}
