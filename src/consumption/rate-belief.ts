import { type CountDistribution, countWithSpread } from './count-distribution.ts';
import { mixtureOf } from './count-mixture.ts';

/** One reading of the past: how fast it forgets, and what it then believes. */
export interface RateReading {
  /** Share of the old evidence kept from one ordinary week to the next; undefined for the reading of a recent change. */
  readonly discount: number | undefined;
  /** Share of trust in this reading; the shares of a belief sum to 1. */
  readonly share: number;
  /** Units per ordinary week. */
  readonly perWeek: number;
  /** Ordinary weeks of evidence behind it. */
  readonly weeksOfEvidence: number;
}

/** A change of habit that the recent weeks suggest, though nobody said so. */
export interface SuspectedChange {
  /** Trust that it is real, 0..1. */
  readonly share: number;
  /** Counted weeks since then. */
  readonly weeks: number;
  readonly perWeek: number;
  readonly perWeekBefore: number;
}

/** What is known about the use of an item in an ordinary week. */
export interface RateBelief {
  readonly readings: readonly RateReading[];
  /** Units per ordinary week, over all readings. */
  readonly perWeek: number;
  /** Variance of a week's count divided by its mean: 1 is chance alone, less is steadier, more is lumpier. */
  readonly dispersion: number;
  readonly suspectedChange: SuspectedChange | undefined;
}

/**
 * The readings: discounts, and how far each is trusted before anything was seen. A narrow set, because averaging over a
 * wide one loses to a single good discount. Fixed for every item and household.
 */
export const readingsAtStart = [
  { discount: 0.99, share: 0.35 },
  { discount: 0.97, share: 0.25 },
  { discount: 0.94, share: 0.25 },
  { discount: 0.9, share: 0.15 },
] as const;

/** Dispersion expected of an item of which nothing is known; the median of the open weekly series in tests is 1.4 to 1.6. */
export const dispersionAtStart = 1.5;

/** Evidence about next month's rate is worth this part of evidence about the past one: appetites wander. */
const evidenceWorth = 1 / 1.5;

/** Where learning starts: a weekly use and the units of evidence it is worth. */
export interface StartingUse {
  /** Units per ordinary week, more than 0. */
  readonly perWeek: number;
  /** More than 0; 4 to 8 is usual. */
  readonly weight: number;
  /** Somebody said it of this item, so the weeks can contradict it; otherwise it is what items are like. */
  readonly isDeclared: boolean;
}

/** What items are like of which a household says nothing. */
export const undeclaredUse: StartingUse = { perWeek: 1.5, weight: 4, isDeclared: false };

/**
 * The belief before anything was seen: a gamma distribution of the weekly rate with mean `perWeek` and shape `weight`, so
 * that a starting rate is worth `weight / perWeek` weeks of observation. Throws RangeError unless both are above 0.
 *
 * Example: 1.5 a week with weight 6 is worth 4 weeks.
 */
export function startBelief({ perWeek, weight }: StartingUse): RateBelief {
  if (!(perWeek > 0 && weight > 0 && Number.isFinite(perWeek) && Number.isFinite(weight))) {
    throw new RangeError(
      `startBelief: expected a starting use and a weight above 0, got ${perWeek} and ${weight}`,
    );
  }
  return {
    readings: readingsAtStart.map((reading) => ({ ...reading, perWeek, weeksOfEvidence: weight / perWeek })),
    perWeek,
    dispersion: dispersionAtStart,
    suspectedChange: undefined,
  };
}

/**
 * Variance divided by mean of a total over `ordinaryWeeks`, seen from one reading: `D · (1 + H / (worth · b))` with `D` the
 * dispersion of a week, `H` the weeks ahead and `b` the weeks of evidence. The first part is chance, the second not knowing
 * the rate.
 */
export const totalSpread = (dispersion: number, ordinaryWeeks: number, weeksOfEvidence: number): number =>
  dispersion * (1 + ordinaryWeeks / (evidenceWorth * weeksOfEvidence));

/**
 * Distribution of the units eaten in all over this many ordinary weeks (0 or more, may be fractional): a mixture over the
 * readings of negative binomials (binomials where an item is steadier than chance).
 */
export const totalUse = (belief: RateBelief, ordinaryWeeks: number): CountDistribution =>
  mixtureOf(
    belief.readings.map((reading) => ({
      weight: reading.share,
      count: countWithSpread(
        reading.perWeek * ordinaryWeeks,
        totalSpread(belief.dispersion, ordinaryWeeks, reading.weeksOfEvidence),
      ),
    })),
  );

/** Weeks that have to be seen before a declared use may be left by more than a quarter, and what doubles that share. Judged, no source. */
const weeksNearTheWord = 8;
const doubtAtFirst = 0.25;
const weeksToDoubleDoubt = 2;

/**
 * The belief held near what was declared while few weeks were seen: within a quarter until eight weeks, then within a share that
 * doubles every two (half at 10 weeks, all of it at 12, four times as much at 16). A few weeks of a year are a season, a whim or a
 * forgotten jar, and a year's plan hangs on them. All readings move by the same share.
 * Example: 0.46 a week declared, none eaten in 5 weeks: not below 0.345.
 */
export function nearTheWord(belief: RateBelief, perWeekDeclared: number, weeksSeen: number): RateBelief {
  const beyond = Math.max(0, weeksSeen - weeksNearTheWord);
  const doubt = doubtAtFirst * 2 ** (beyond / weeksToDoubleDoubt);
  const least = Math.max(0, 1 - doubt) * perWeekDeclared;
  const most = (1 + doubt) * perWeekDeclared;
  if (belief.perWeek >= least && belief.perWeek <= most) return belief;
  const perWeek = belief.perWeek < least ? least : most;
  const share = perWeek / belief.perWeek;
  return {
    ...belief,
    perWeek,
    readings: belief.readings.map((reading) => ({ ...reading, perWeek: reading.perWeek * share })),
  };
}
