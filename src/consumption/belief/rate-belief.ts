import { type CountDistribution, countWithSpread, exactly } from '../count-distribution.ts';
import { mixtureOf } from '../count-mixture.ts';

/** One reading of the past: how fast it forgets, and what it then believes. */
export interface RateReading {
  /** Share of the old evidence kept from one ordinary week to the next; undefined for what is no reading of all the weeks: a recent change, a rise. */
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

/** A week that took more than anything seen before: held for an occasion until somebody says otherwise or it comes again. */
export interface StrangeWeek {
  /** Its place among the weeks that trained, the first 0. */
  readonly place: number;
  readonly taken: number;
  /** Units expected of it, the week before. */
  readonly expected: number;
  /** Standard deviation of what was expected, in units. */
  readonly deviation: number;
}

/** What is known about the use of an item in an ordinary week. */
export interface RateBelief {
  readonly readings: readonly RateReading[];
  /** Units per ordinary week, over all readings. */
  readonly perWeek: number;
  /** Variance of a week's count divided by its mean: 1 is chance alone, less is steadier, more is lumpier. */
  readonly dispersion: number;
  /** The same of four weeks together: at most `dispersion`, and far below it where a full week follows an empty one. */
  readonly blockDispersion: number;
  readonly suspectedChange: SuspectedChange | undefined;
  readonly strangeWeek: StrangeWeek | undefined;
}

/**
 * The readings: discounts, and how far each is trusted before anything was seen. A narrow set, because averaging over a
 * wide one loses to a single good discount. Fixed for every item and household.
 */
export const readingsAtStart = [
  { discount: 0.995, share: 0.3 },
  { discount: 0.98, share: 0.3 },
  { discount: 0.95, share: 0.25 },
  { discount: 0.9, share: 0.15 },
] as const;

/** Dispersion expected of an item of which nothing is known; the median of the open weekly series in tests is 1.4 to 1.6. */
export const dispersionAtStart = 1.5;

/** Evidence about next month's rate is worth this part of evidence about the past one: appetites wander. */
const evidenceWorth = 1 / 1.95;

/**
 * An appetite may grow: with this share, once half a year was seen, the use to come is half again as much (less where an item is steadier than
 * chance), and the other readings are lowered so that the mean is `meanFactor` of theirs. It makes the upper tail heavy enough and the
 * mean true, which is 1.5 to 2 % low where outliers are trimmed.
 */
export const riseAhead = { share: 0.05, factor: 1.5, meanFactor: 1.015, weeksToExpectIt: 26 } as const;

/** Weeks that are steadier together than apart are steadier in blocks of this many. */
export const weeksInBlock = 4;

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
    blockDispersion: dispersionAtStart,
    suspectedChange: undefined,
    strangeWeek: undefined,
  };
}

/**
 * Ordinary weeks of a stretch that lie apart from the rest of their block of four, 0 to all of them: `4/3 · o · (1 - o/O)` summed over
 * its blocks, `o` the ordinary weeks of the stretch in a block and `O` those of the whole block. Whole blocks give 0; one week of
 * four gives 1, two give 4/3, three give 1.
 */
export const weeksApart = (inStretch: number, inBlock: number): number =>
  inBlock > 0 ? Math.min(inStretch, (4 / 3) * inStretch * Math.max(0, 1 - inStretch / inBlock)) : 0;

/** `weeksApart` of a stretch of equal weeks that begins with a block. */
const apartInAll = (ordinaryWeeks: number): number => weeksApart(ordinaryWeeks % weeksInBlock, weeksInBlock);

/**
 * Variance divided by mean of a total over `ordinaryWeeks`, seen from one reading: `B + (D - B) · apart / H + B · H / (worth · b)` with `D` the
 * dispersion of a week and `B` that of a block of four, `H` the weeks ahead, `apart` those of them apart from their block, and `b` the
 * weeks of evidence. The first two parts are chance, the third not knowing the rate.
 */
const totalSpread = (
  { dispersion, blockDispersion }: RateBelief,
  ordinaryWeeks: number,
  apart: number,
  weeksOfEvidence: number,
): number =>
  blockDispersion +
  ((dispersion - blockDispersion) * apart) / ordinaryWeeks +
  rateDoubt(blockDispersion, weeksOfEvidence) * ordinaryWeeks;

/** Variance of a reading's weekly rate divided by its mean. */
export const rateDoubt = (blockDispersion: number, weeksOfEvidence: number): number =>
  blockDispersion / (evidenceWorth * weeksOfEvidence);

/**
 * Distribution of the units eaten in all over this many ordinary weeks (0 or more, may be fractional): a mixture over the
 * readings of negative binomials (binomials where an item is steadier than chance). `apart`: how many of them are apart
 * from their block (see `weeksApart`); of equal weeks from a block's first on when left out.
 */
export const totalUse = (
  belief: RateBelief,
  ordinaryWeeks: number,
  apart: number = apartInAll(ordinaryWeeks),
): CountDistribution =>
  ordinaryWeeks > 0
    ? mixtureOf(
        belief.readings.map((reading) => ({
          weight: reading.share,
          count: countWithSpread(
            reading.perWeek * ordinaryWeeks,
            totalSpread(belief, ordinaryWeeks, apart, reading.weeksOfEvidence),
          ),
        })),
      )
    : exactly(0);

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
