/** What a year of an item is planned from: expected use by week and what should stand in reserve, units. */
export interface YearWanted {
  readonly useByWeek: readonly number[];
  readonly reserveUnits: number;
}

/**
 * The year as a target set by hand wants it: use keeps its course through the year and is scaled so that use and reserve
 * together are the target; the reserve is never more than the target. Without any expected use the target is spread
 * evenly. Example: use 10 and 10, reserve 5, target 50: use 22.5 and 22.5, reserve 5.
 */
export function wantedByHand(target: number, expected: YearWanted): YearWanted {
  const reserveUnits = Math.min(target, expected.reserveUnits);
  const forUse = target - reserveUnits;
  const total = expected.useByWeek.reduce((sum, units) => sum + units, 0);
  return {
    reserveUnits,
    useByWeek: expected.useByWeek.map((units) =>
      total > 0 ? (units / total) * forUse : forUse / expected.useByWeek.length,
    ),
  };
}
