import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import type { CountDistribution } from '../consumption/count-distribution.ts';
import type { ShelfLot } from './first-expired.ts';

/**
 * Goes on with one possible course of use: writes the units wanted in each of its next weeks, as many as `wanted` holds. It goes on
 * where it ended, so all but the last time it is asked for whole blocks of four weeks.
 */
export type CourseOfUse = (wanted: Float64Array, random: () => number) => void;

/** What is known of coming use. `UseForecast` has all but `beginCourse`; `predictedUse` adds it. */
export interface PredictedUse {
  /** Expected units wanted by week, the rest of the week of `asOf` first. */
  readonly weeklyMean: readonly number[];
  /** Distribution of the units wanted over `weeks` weeks from week `first` (0 when left out). */
  totalOver(weeks: number, first?: number): CountDistribution;
  /**
   * One possible course of the weeks ahead, to be drawn as far as it is asked and the use is known. `random` gives numbers in 0..1,
   * 1 excluded.
   */
  beginCourse(random: () => number): CourseOfUse;
}

/** Units that will come: a planned batch or purchase. */
export interface IncomingUnits {
  readonly week: WeekKey;
  readonly units: number;
  readonly readyFrom: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
}

/** A lot on the shelf, with the day the household throws away what is left of it; never, when left out. */
export interface ProjectedLot extends ShelfLot {
  readonly discardOn?: CalendarDate | null;
}

export interface ShelfAhead {
  readonly asOf: CalendarDate;
  /** Weeks to look ahead, the week of `asOf` included; 52 to 104 for a household. */
  readonly weeks: number;
  readonly lots: readonly ProjectedLot[];
  readonly incoming: readonly (IncomingUnits & { readonly discardOn?: CalendarDate | null })[];
  readonly use: PredictedUse;
  /** Week in which the item can be made or bought again; null when no such week is known. */
  readonly nextSupplyWeek: WeekKey | null;
  /**
   * When the next supply really comes, weeks after `nextSupplyWeek`, with chances that add up to 1; in that week for sure, when
   * left out. What is counted on from that week on does not come earlier either.
   */
  readonly supplyTimes?: readonly { readonly weeksLater: number; readonly chance: number }[];
}

/** An amount of units that is not certain: its expectation, and the amounts it stays under in 10, 50 and 90 % of years. */
export interface Spread {
  readonly expected: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

export interface ProjectedWeek {
  readonly week: WeekKey;
  /** Units at the start of the week, before anything comes. */
  readonly opening: Spread;
  /** Units that come this week, ready or not. */
  readonly in: number;
  /** Expected units taken: what is wanted and there. */
  readonly taken: number;
  /** Expected units wanted and not there. */
  readonly unmet: number;
  /** Expected units thrown away at the household's own ceiling. */
  readonly discarded: number;
  /** Units that leave: taken and thrown away. For each level opening + in - out = closing. */
  readonly out: Spread;
  /** Units at the end of the week, those not ready yet included. */
  readonly closing: Spread;
  /** Of `closing`, units past their best quality on the week's last day. */
  readonly pastBest: Spread;
}

/** Week by whose end nothing is left in 10, 50 and 90 % of years (`gapsAt`); null where that is in none within the horizon. */
export interface RunOutWeek {
  readonly p10: WeekKey | null;
  readonly p50: WeekKey | null;
  readonly p90: WeekKey | null;
}

/** How the figures were got, and how far they may be off. */
export type ProjectionMethod =
  | { readonly kind: 'exact' }
  | {
      readonly kind: 'simulated';
      readonly paths: number;
      readonly seed: number;
      /** Standard error of a probability of one half; every other probability is nearer. */
      readonly standardError: number;
    };

export interface ShelfProjection {
  readonly asOf: CalendarDate;
  readonly weeks: readonly ProjectedWeek[];
  readonly runOut: RunOutWeek;
  readonly nextSupplyWeek: WeekKey | null;
  /** Probability that nothing wanted is missing before the next supply really comes (before the horizon's end when none is known). */
  readonly chanceOfLasting: number;
  /** Units past best quality at the end of the last week before the next supply. */
  readonly pastBestByNextSupply: Spread;
  readonly method: ProjectionMethod;
}
