import type { SuspectedChange } from './rate-belief.ts';

/** A change of habit that is worth asking the household about. */
export interface SuspectedHabit {
  /** Units per ordinary week before, and since. */
  readonly perWeekBefore: number;
  readonly perWeek: number;
  /** Weeks that counted since then. */
  readonly weeks: number;
}

/** Trust in a change below which nobody is asked: of steady appetites about one look in a hundred is asked about for nothing. Judged. */
const trustToAsk = 0.8;
/** Trust from which the item's own page mentions it, because the forecast then visibly leans on it. Judged. */
export const trustToMention = 0.5;
/** Use that changed by less than this factor is followed without a word. Judged, no source. */
const factorToAsk = 1.4;

/** The change to speak of, if the belief holds one that is trusted and large enough; null otherwise. Units of the item a week. */
export function suspectedHabit(
  change: SuspectedChange | undefined,
  leastTrust = trustToAsk,
): SuspectedHabit | null {
  if (change === undefined || change.share < leastTrust) return null;
  const { perWeek, perWeekBefore, weeks } = change;
  const isLarge = perWeek >= factorToAsk * perWeekBefore || perWeek * factorToAsk <= perWeekBefore;
  return isLarge ? { perWeekBefore, perWeek, weeks } : null;
}

/** A weekly rate as a person would say it: two figures, never 0. */
export const sayableRate = (perWeek: number): number => Math.max(0.01, Number(perWeek.toPrecision(2)));
