import { type CountDistribution, countWithSpread } from './count-distribution.ts';
import { mixtureOf } from './count-mixture.ts';

/** What one week taught. */
export interface ObservedWeek {
  /** Units eaten, 0 or more, may be fractional. */
  readonly taken: number;
  /** Ordinary weeks this week was worth: exposure × pattern multiplier. 0 teaches nothing. */
  readonly ordinaryWeeks: number;
  readonly countInterval?: number;
}

/** One reading of the past: how fast it forgets, and what it then believes. */
export interface RateReading {
  readonly discount: number;
  /** Share of trust in this reading; the shares of a belief sum to 1. */
  readonly share: number;
  /** Units per ordinary week. */
  readonly perWeek: number;
  /** Ordinary weeks of evidence behind it. */
  readonly weeksOfEvidence: number;
}

export interface RateBelief {
  readonly readings: readonly RateReading[];
  /** Units per ordinary week, over all readings. */
  readonly perWeek: number;
  /** Variance of a week's count divided by its mean. */
  readonly dispersion: number;
  /** Weighted squared surprises so far, and how many they are worth. */
  readonly surprise: { readonly sum: number; readonly count: number };
}

const priorDispersion = 1.5;
const priorDispersionWeight = 15;
const surpriseMemory = 0.97;
const smallestDispersion = 0.5;
const discount = 0.96;

/** The belief before anything was seen: `weight` units of evidence that `perWeek` units are eaten in an ordinary week. */
export function startBelief(perWeek: number, weight: number): RateBelief {
  if (!(perWeek > 0 && weight > 0)) {
    throw new RangeError(
      `startBelief: expected a declared use and weight above 0, got ${perWeek} and ${weight}`,
    );
  }
  return {
    readings: [{ discount, share: 1, perWeek, weeksOfEvidence: weight / perWeek }],
    perWeek,
    dispersion: priorDispersion,
    surprise: { sum: 0, count: 0 },
  };
}

/** The belief after these weeks, oldest first. */
export function trainedBelief(start: RateBelief, weeks: readonly ObservedWeek[]): RateBelief {
  const [first] = start.readings;
  if (!first) throw new RangeError('trainedBelief: the belief has no reading');
  let shape = first.perWeek * first.weeksOfEvidence;
  let evidence = first.weeksOfEvidence;
  let { sum, count } = start.surprise;
  for (const { taken, ordinaryWeeks } of weeks) {
    if (!(ordinaryWeeks > 0)) continue;
    const expected = (shape / evidence) * ordinaryWeeks;
    const surprise = (taken - expected) ** 2 / (Math.max(expected, 0.05) * (1 + ordinaryWeeks / evidence));
    sum = surpriseMemory * sum + surprise;
    count = surpriseMemory * count + 1;
    shape = first.discount * shape + taken;
    evidence = first.discount * evidence + ordinaryWeeks;
  }
  const perWeek = shape / evidence;
  return {
    readings: [{ ...first, perWeek, weeksOfEvidence: evidence }],
    perWeek,
    dispersion: Math.max(
      smallestDispersion,
      (priorDispersionWeight * priorDispersion + sum) / (priorDispersionWeight + count),
    ),
    surprise: { sum, count },
  };
}

/** Distribution of the units eaten in all over this many ordinary weeks (more than 0, may be fractional). */
export const totalUse = (belief: RateBelief, ordinaryWeeks: number): CountDistribution =>
  mixtureOf(
    belief.readings.map((reading) => ({
      weight: reading.share,
      count: countWithSpread(
        reading.perWeek * ordinaryWeeks,
        belief.dispersion * (1 + ordinaryWeeks / reading.weeksOfEvidence),
      ),
    })),
  );
