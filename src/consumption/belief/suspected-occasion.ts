import type { WeekKey } from '../../../shared/week.ts';
import type { WeekOfUse } from '../week-of-use.ts';
import type { RateBelief } from './rate-belief.ts';

/** A full week of which it is worth asking the household whether it was an occasion. */
export interface SuspectedOccasion {
  readonly week: WeekKey;
  /** Units taken in it, and beyond what was expected, rounded to whole ones. */
  readonly taken: number;
  readonly extra: number;
}

/** A week this many standard deviations and units above what was expected is asked about. Judged: of steady appetites hardly one is, in a year. */
const deviationsToAsk = 4.5;
const unitsToAsk = 4;

/**
 * The strange week to ask about, if the belief holds one that is large enough; null otherwise. `weeks`: those that trained the belief,
 * oldest first.
 */
export function suspectedOccasion(
  { strangeWeek }: RateBelief,
  weeks: readonly WeekOfUse[],
): SuspectedOccasion | null {
  if (strangeWeek === undefined) return null;
  const week = weeks[strangeWeek.place]?.week;
  const beyond = strangeWeek.taken - strangeWeek.expected;
  if (week === undefined || beyond < unitsToAsk || beyond < deviationsToAsk * strangeWeek.deviation)
    return null;
  return { week, taken: Math.round(strangeWeek.taken), extra: Math.round(beyond) };
}
