import { logLikelihood } from './count-likelihood.ts';
import type { SuspectedChange } from './rate-belief.ts';

/** A week that counted, with what was believed just before it. */
export interface CountedWeek {
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

/** Chance, before looking, that a habit changed within any of these spans. */
const chanceOfChange = 0.07;
/** The changes looked for: twice as much, half as much. */
const factorsTried = [2, 0.5] as const;
/** No single week speaks louder than this (natural logarithm of a likelihood ratio), so that a party is not a new habit. */
const loudestWeek = 0.7;
/** Weeks of evidence about the old habit without which there is nothing to have changed from. */
const leastEvidenceBefore = 20;
/** Lumpier items run in spells without any change of habit. */
const lumpiestItem = 1.25;
/** Weeks that the old rate still counts for after a change. */
const oldHabitInWeeks = 1;

/**
 * Whether the last weeks look like a new habit: for each span, the likelihood ratio of "twice" or "half as much since then"
 * against "as before", every week's part held within bounds. Returns the likeliest change, or undefined when there is too little
 * history or the item is lumpy. Weeks oldest first; only the last `recentWeeksKept` are looked at.
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
    for (const factor of factorsTried) {
      const odds =
        (chanceOfChange / (1 - chanceOfChange)) * Math.exp(weightOfEvidence(since, before, factor));
      if (odds <= bestOdds) continue;
      bestOdds = odds;
      const taken = since.reduce((sum, week) => sum + week.taken, 0);
      const ordinaryWeeks = since.reduce((sum, week) => sum + week.ordinaryWeeks, 0);
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
