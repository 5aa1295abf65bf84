export interface SupplyGap {
  /** First week without supply, and how many follow each other. */
  readonly first: number;
  readonly weeks: number;
}

/** Weeks of shop closures and forgotten lists that the reserve of what is bought bridges. Judged, no source. */
const boughtGap: SupplyGap = { first: 0, weeks: 4 };
/** Weeks of a bought item that the year's last week hands over. Judged, no source. */
const boughtHandOverWeeks = 2;

/**
 * The stretch a reserve must bridge: the longest run of weeks in which nothing new can arrive, the first of equal ones;
 * no weeks when supply never pauses. What is bought bridges four weeks.
 */
export function gapToBridge(canArrive: readonly boolean[], isBought: boolean): SupplyGap {
  if (isBought) return boughtGap;
  let longest: SupplyGap = { first: 0, weeks: 0 };
  let first = 0;
  canArrive.forEach((arrives, week) => {
    if (arrives) first = week + 1;
    else if (week + 1 - first > longest.weeks) longest = { first, weeks: week + 1 - first };
  });
  return longest;
}

/**
 * Units the last week of the horizon hands over: expected use from then until the first week in which something new can
 * arrive; of what is bought, two weeks. Nothing when no supply is known beyond the horizon.
 */
export function yearEndUnits(
  weeklyMean: readonly number[],
  canArrive: readonly boolean[],
  horizonWeeks: number,
  isBought: boolean,
): number {
  const next = isBought
    ? horizonWeeks + boughtHandOverWeeks
    : canArrive.findIndex((arrives, week) => week >= horizonWeeks && arrives);
  return next < 0 ? 0 : weeklyMean.slice(horizonWeeks, next).reduce((sum, units) => sum + units, 0);
}
