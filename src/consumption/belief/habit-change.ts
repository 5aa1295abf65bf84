import { logLikelihood } from '../count-likelihood.ts';
import type { SuspectedChange } from './rate-belief.ts';

/** A week that counted, with what was believed just before it. */
export interface CountedWeek {
  /** Units learnt of it: without what was held for an occasion. */
  readonly taken: number;
  readonly ordinaryWeeks: number;
  readonly before: {
    readonly perWeek: number;
    readonly weeksOfEvidence: number;
    readonly dispersion: number;
  };
}

/** How long ago the habit may have changed, in counted weeks. */
const spansTried = [8, 10, 13] as const;
export const recentWeeksKept = Math.max(...spansTried);

/**
 * The changes looked for, twice as much and half as much, with the odds of each before looking. A shelf that empties too early costs more than
 * one that stands too long, and spells in which little is taken are common: so a rise is believed sooner.
 */
const changesTried = [
  { factor: 2, oddsBefore: 0.12 },
  { factor: 0.5, oddsBefore: 0.02 },
] as const;
/** No single week speaks louder than this (natural logarithm of a likelihood ratio), so that a party is not a new habit. */
const loudestWeek = 0.8;
/** Weeks of evidence about the old habit without which there is nothing to have changed from. */
const leastEvidenceBefore = 18;
/** Lumpier items run in spells without any change of habit. */
const lumpiestItem = 1.25;
/** Units the old habit expects of a span without which it is not looked at: of fewer, chance alone doubles or halves them too often. */
const leastUnitsExpected = 5;
/** Weeks that the old rate still counts for after a change. */
const oldHabitInWeeks = 0.5;

/**
 * Whether the last weeks look like a new habit: for each span, the likelihood ratio of "twice" or "half as much since then"
 * against "as before", every week's part held within bounds. Returns the likeliest change, or undefined when there is too little
 * history, too few units were to be expected or the item is lumpy. Weeks oldest first; only the last `recentWeeksKept` are looked at.
 */
export function suspectedChange(
  weeks: readonly CountedWeek[],
): (SuspectedChange & { readonly weeksOfEvidence: number }) | undefined {
  let bestOdds = 0;
  let best: ReturnType<typeof suspectedChange>;
  for (const span of spansTried) {
    const before = weeks[weeks.length - span]?.before;
    if (!before || before.weeksOfEvidence < leastEvidenceBefore || before.dispersion >= lumpiestItem)
      continue;
    const since = weeks.slice(-span);
    const ordinaryWeeks = since.reduce((sum, week) => sum + week.ordinaryWeeks, 0);
    if (before.perWeek * ordinaryWeeks < leastUnitsExpected) continue;
    for (const { factor, oddsBefore } of changesTried) {
      const odds = oddsBefore * Math.exp(weightOfEvidence(since, before, factor));
      if (odds <= bestOdds) continue;
      bestOdds = odds;
      const taken = since.reduce((sum, week) => sum + week.taken, 0);
      const weeksOfEvidence = oldHabitInWeeks + ordinaryWeeks;
      best = {
        share: odds / (1 + odds),
        weeks: span,
        perWeek: (oldHabitInWeeks * before.perWeek + taken) / weeksOfEvidence,
        perWeekBefore: before.perWeek,
        weeksOfEvidence,
      };
    }
  }
  return best;
}

function weightOfEvidence(
  since: readonly CountedWeek[],
  before: CountedWeek['before'],
  factor: number,
): number {
  const spread = Math.max(1, before.dispersion) * (1 + 1 / before.weeksOfEvidence);
  return since.reduce((sum, { taken, ordinaryWeeks }) => {
    const asBefore = before.perWeek * ordinaryWeeks;
    const ratio = logLikelihood(taken, factor * asBefore, spread) - logLikelihood(taken, asBefore, spread);
    return sum + Math.min(loudestWeek, Math.max(-loudestWeek, ratio));
  }, 0);
}
