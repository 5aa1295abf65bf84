/** Rungs of the order of wishes that a solve answers for, heaviest first; cost and freshness come after them all. */
export const rungNames = [
  'cash and hours',
  'pins',
  'family minimums and groups',
  'coming weeks',
  'first jars',
  'garden crop',
  'use',
  'reserve',
  'variety',
] as const;
export type RungName = (typeof rungNames)[number];

/** What a plan misses on a rung, and the least any plan could miss that keeps the heavier rungs as well as this one does. */
export interface ServedRung {
  readonly name: RungName;
  readonly missed: number;
  /** Proven lower bound on `missed`. */
  readonly atLeast: number;
}

/** Below this a rung counts as served, units: what a page rounds away. */
export const rungTolerance = 0.02;

/** Whether a wish comes before the reserve: what lacks of it is missed on expected use. */
export const isHeavierThanReserve = (name: RungName): boolean =>
  rungNames.indexOf(name) < rungNames.indexOf('reserve');
