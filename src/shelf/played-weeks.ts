import type { Spread } from './shelf-projection.ts';

/** What both ways of projecting answer, before it is written out week by week. Places are weeks ahead, oldest first. */
export interface PlayedWeeks {
  readonly closing: readonly Spread[];
  readonly pastBest: readonly Spread[];
  readonly taken: readonly number[];
  readonly unmet: readonly number[];
  readonly discarded: readonly number[];
  /** Probability that something wanted was missing in this week or before. */
  readonly shortBy: readonly number[];
}
