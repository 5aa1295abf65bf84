import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import {
  nearTheWord,
  type RateBelief,
  totalUse,
  undeclaredUse,
  weeksApart,
  weeksInBlock,
} from './belief/rate-belief.ts';
import { type SuspectedOccasion, suspectedOccasion } from './belief/suspected-occasion.ts';
import { type ObservedWeek, trainedBelief } from './belief/trained-belief.ts';
import { type CountDistribution, plusCertain } from './count-distribution.ts';
import {
  dayNumber,
  daysOutside,
  type HouseholdCalendar,
  ordinaryCalendar,
  weekFacts,
  weekHolding,
} from './household-calendar.ts';
import { learntSeason } from './learnt-season.ts';
import { type SuspectedSeason, suspectedSeason } from './suspected-season.ts';
import { allYear, multiplierIn, type UsePattern } from './use-pattern.ts';
import type { WeekOfUse } from './week-of-use.ts';

/** What the household says it eats, already in units of the item. */
export interface DeclaredUse {
  /** Units in an ordinary week (a week whose pattern multiplier is 1), more than 0. */
  readonly perWeek: number;
  /** How firmly it is said: the units of evidence it counts for (4 to 8 is usual). */
  readonly weight: number;
  readonly pattern: UsePattern;
  /** "From now on": only weeks that start on or after this date train the forecast. */
  readonly since?: CalendarDate;
  /** Extra units on a date: a feast, a bake sale. Certain, and never learnt from. */
  readonly occasions: readonly Occasion[];
  /** Somebody said that the months are all alike: a season must show itself very clearly before it is believed. */
  readonly isAllYearAlike?: boolean;
  /** Nobody said it: it is what items are like, and counts for nothing beyond its weight. */
  readonly isAssumed?: true;
}

/** What stands in for the word of a household that said nothing about an item: what items are like, all year. */
export const assumedUse = (
  pattern: UsePattern = allYear,
  occasions: readonly Occasion[] = [],
): DeclaredUse => ({
  perWeek: undeclaredUse.perWeek,
  weight: undeclaredUse.weight,
  pattern,
  occasions,
  isAssumed: true,
});

export interface Occasion {
  readonly on: CalendarDate;
  readonly units: number;
  readonly name: string;
}

/** One week to come. The first is the rest of the week of `asOf`, today included. */
export interface WeekAhead {
  readonly week: WeekKey;
  /** Ordinary weeks that this week is worth: days at home / 7 × pattern multiplier. */
  readonly ordinaryWeeks: number;
  /** Units of dated occasions in this week. */
  readonly occasions: number;
  /** Expected units, occasions included. */
  readonly mean: number;
}

export interface UseEvidence {
  /** Units eaten in the weeks that counted. */
  readonly takings: number;
  /** Ordinary weeks those weeks were worth: days that did not count are left out. */
  readonly weeksThatCounted: number;
  /** 0 when nobody said anything. */
  readonly declaredPerWeek: number;
  /** Units per ordinary week that counted; undefined before any counted. */
  readonly observedPerWeek: number | undefined;
}

export interface UseForecast {
  readonly asOf: CalendarDate;
  readonly weeks: readonly WeekAhead[];
  /** Expected units by week, `weeks[i].mean`. */
  readonly weeklyMean: readonly number[];
  /** Expected units in an ordinary week, occasions left out. */
  readonly perWeek: number;
  /** 80 % interval of the average ordinary week over the coming year, units per week. */
  readonly perWeekRange: { readonly low: number; readonly high: number };
  readonly evidence: UseEvidence;
  /** Season the forecast follows: as declared, bent towards what was seen as far as the weeks speak for it. */
  readonly pattern: UsePattern;
  /** Variance of a week's count divided by its mean, as learnt: below 1 steadier than chance, above 1 lumpier. */
  readonly dispersion: number;
  /** A full week that may have been an occasion, worth asking about; null when there is none. */
  readonly suspectedOccasion: SuspectedOccasion | null;
  /** Months that may be the item's season, worth asking about; null when there are none, or somebody said so already. */
  readonly suspectedSeason: SuspectedSeason | null;
  /** What is known about the rate; enough to draw whole years of use from (see `predictedUse` of the shelf). */
  readonly belief: RateBelief;
  /** Distribution of the units of week `index` (0 = the rest of this week). */
  inWeek(index: number): CountDistribution;
  /** Distribution of the sum over `weeks` weeks from week `first`; weeks beyond the horizon are an error. */
  totalOver(weeks: number, first?: number): CountDistribution;
}

/**
 * Forecast of an item's use, week by week, from what was declared and what was seen.
 *
 * History: weeks oldest first, those before `declared.since` or after the week of `asOf` are ignored. Horizon: whole
 * weeks from the week of `asOf`, whose passed days are left out. Units: units of the item a week.
 * Throws RangeError for a horizon below 1 or a declared use that is not positive.
 */
export function forecastUse(
  history: readonly WeekOfUse[],
  declared: DeclaredUse,
  asOf: CalendarDate,
  horizonWeeks: number,
  calendar: HouseholdCalendar = ordinaryCalendar,
): UseForecast {
  if (!(horizonWeeks >= 1))
    throw new RangeError(`forecastUse: expected at least 1 week, got ${horizonWeeks}`);
  const counting = weeksThatTrain(history, declared.since, asOf);
  const season = learntSeason(counting, declared.pattern, calendar, declared.isAllYearAlike);
  const inSeason = { ...declared, pattern: season.pattern };
  const observed = observedWeeks(counting, inSeason.pattern, calendar);
  const learnt = trainedBelief(
    { perWeek: declared.perWeek, weight: declared.weight, isDeclared: declared.isAssumed !== true },
    observed,
  );
  const belief = declared.isAssumed ? learnt : nearTheWord(learnt, declared.perWeek, weeksSeen(counting));
  const weeks = weeksAhead(inSeason, belief.perWeek, asOf, horizonWeeks, calendar);
  const ordinaryWeeksInBlock = inBlocks(weeks);

  const totalOver = (count: number, first = 0): CountDistribution => {
    if (first < 0 || count < 0 || first + count > weeks.length) {
      throw new RangeError(
        `totalOver: expected weeks within 0..${weeks.length}, got ${count} weeks from week ${first}`,
      );
    }
    let ordinaryWeeks = 0;
    let occasions = 0;
    let apart = 0;
    for (let at = first; at < first + count; ) {
      const block = Math.floor(at / weeksInBlock);
      let inStretch = 0;
      for (; at < first + count && Math.floor(at / weeksInBlock) === block; at += 1) {
        inStretch += weeks[at]?.ordinaryWeeks ?? 0;
        occasions += weeks[at]?.occasions ?? 0;
      }
      ordinaryWeeks += inStretch;
      apart += weeksApart(inStretch, ordinaryWeeksInBlock[block] ?? 0);
    }
    return plusCertain(totalUse(belief, ordinaryWeeks, apart), occasions);
  };

  return {
    asOf,
    weeks,
    weeklyMean: weeks.map((ahead) => ahead.mean),
    perWeek: belief.perWeek,
    get perWeekRange() {
      const year = totalUse(belief, 52);
      return { low: year.quantile(0.1) / 52, high: year.quantile(0.9) / 52 };
    },
    evidence: evidenceOf(observed, declared),
    pattern: inSeason.pattern,
    dispersion: belief.dispersion,
    suspectedOccasion: suspectedOccasion(belief, counting),
    get suspectedSeason() {
      return declared.isAllYearAlike ? null : suspectedSeason(counting, declared.pattern);
    },
    belief,
    inWeek: (index) => totalOver(1, index),
    totalOver,
  };
}

/** Ordinary weeks by block of four weeks ahead, the last one shorter where the horizon ends. */
function inBlocks(weeks: readonly WeekAhead[]): readonly number[] {
  const blocks: number[] = [];
  weeks.forEach(({ ordinaryWeeks }, at) => {
    const block = Math.floor(at / weeksInBlock);
    blocks[block] = (blocks[block] ?? 0) + ordinaryWeeks;
  });
  return blocks;
}

/** Weeks, holidays and gaps left out, of which what was eaten is known. */
const weeksSeen = (history: readonly WeekOfUse[]): number =>
  history.reduce((sum, { exposure }) => sum + exposure, 0);

/** The weeks of the history that start on or after `since` and not after the week of `asOf`. */
function weeksThatTrain(
  history: readonly WeekOfUse[],
  since: CalendarDate | undefined,
  asOf: CalendarDate,
): readonly WeekOfUse[] {
  const last = weekHolding(asOf);
  let end = history.length;
  while (end > 0 && (history[end - 1]?.week ?? last) > last) end -= 1;
  let start = 0;
  if (since !== undefined) {
    while (start < end && isBefore(history[start], since)) start += 1;
  }
  return history.slice(start, end);
}

const isBefore = (past: WeekOfUse | undefined, since: CalendarDate): boolean =>
  past !== undefined && weekFacts(past.week).monday < since;

const observedWeeks = (
  history: readonly WeekOfUse[],
  pattern: UsePattern,
  calendar: HouseholdCalendar,
): ObservedWeek[] =>
  history.map(({ week, taken, exposure, countInterval, isOrdinary }) => ({
    taken,
    ordinaryWeeks: exposure * multiplierIn(pattern, week, calendar),
    countInterval,
    isOrdinary,
  }));

function evidenceOf(observed: readonly ObservedWeek[], declared: DeclaredUse): UseEvidence {
  let takings = 0;
  let weeksThatCounted = 0;
  for (const week of observed) {
    takings += week.taken;
    weeksThatCounted += week.ordinaryWeeks;
  }
  return {
    takings,
    weeksThatCounted,
    declaredPerWeek: declared.isAssumed ? 0 : declared.perWeek,
    observedPerWeek: weeksThatCounted > 0 ? takings / weeksThatCounted : undefined,
  };
}

function weeksAhead(
  declared: DeclaredUse,
  perWeek: number,
  asOf: CalendarDate,
  horizonWeeks: number,
  calendar: HouseholdCalendar,
): WeekAhead[] {
  const weeks: WeekAhead[] = [];
  let week = weekHolding(asOf);
  for (let step = 0; step < horizonWeeks; step += 1) {
    const facts = weekFacts(week);
    const monday = facts.firstDay;
    const from = step === 0 ? dayNumber(asOf) : monday;
    const daysAtHome = daysOutside(from, monday + 7, calendar.away);
    const ordinaryWeeks = (daysAtHome / 7) * multiplierIn(declared.pattern, week, calendar);
    const occasions = unitsBetween(declared.occasions, from, monday + 7);
    weeks.push({ week, ordinaryWeeks, occasions, mean: perWeek * ordinaryWeeks + occasions });
    week = facts.next;
  }
  return weeks;
}

/** Units of the occasions on days `from` up to, not including, `until`. */
function unitsBetween(occasions: readonly Occasion[], from: number, until: number): number {
  let units = 0;
  for (const occasion of occasions) {
    const day = dayNumber(occasion.on);
    if (day >= from && day < until) units += occasion.units;
  }
  return units;
}
