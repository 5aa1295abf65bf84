import { type HouseholdCalendar, weekFacts } from './household-calendar.ts';
import { monthsSeen, type SeenMonth } from './seen-months.ts';
import { multiplierIn, type UsePattern } from './use-pattern.ts';
import type { WeekOfUse } from './week-of-use.ts';

/** What the seasons of an item look like, and how far they are believed. */
export interface LearntSeason {
  /** As declared, bent towards what was seen as far as it is believed. */
  readonly pattern: UsePattern;
  /** Trust that its year has a season beyond what was declared, 0..1. */
  readonly trust: number;
}

/** Weeks that must have counted before a season can have come twice. */
const weeksBeforeLearning = 60;
/** Odds, before looking, that an item has a season nobody declared; and after somebody said that it has none. Judged, no source. */
const oddsBefore = 0.15;
const oddsWhenDenied = 0.002;
/** Units of a month for which "like any other month" counts. */
const likeAnyMonth = 0.1;
/** Months ahead that the two views of the year have to foretell: a plan hangs on more than the coming weeks. */
const monthsAhead = 3;
/** What the level without a season keeps of itself from month to month. */
const levelKept = 0.85;
/** Squared errors, on the scale of square roots, that both views start with: as much as a few months of chance. */
const errorsAtStart = 4;
/** Errors three months ahead overlap, so only half of them are witnesses of their own. */
const independent = 0.7;
/** A month declared to have no use may still turn out to have some. */
const leastMultiplier = 0.02;

/**
 * The season of an item by evidence: two views of its months are held against each other, one that the level alone wanders, one
 * that the months of the years before come again. Each foretells every month from what was known three months before it; the ratio of
 * their squared errors (on square roots of counts, so that chance weighs alike in full and in empty months) is the evidence, a Bayes
 * factor with unknown variance, `(errors without / errors with) ^ (months / 2)`. The multipliers of a month are
 * `1 + trust · (season - 1)` of those declared, the year's total unchanged. School weeks stay as declared.
 *
 * `history`: the weeks that train, oldest first. `isDenied`: somebody said that it is eaten all year alike.
 */
export function learntSeason(
  history: readonly WeekOfUse[],
  pattern: UsePattern,
  calendar: HouseholdCalendar,
  isDenied = false,
): LearntSeason {
  if (pattern.kind === 'school-weeks' || history.length < weeksBeforeLearning) return { pattern, trust: 0 };
  const worthOf = (week: WeekOfUse): number =>
    week.exposure * Math.max(leastMultiplier, multiplierIn(pattern, week.week, calendar));
  const counted = history.reduce((sum, { exposure }) => sum + exposure, 0);
  if (counted < weeksBeforeLearning) return { pattern, trust: 0 };

  const months = monthsSeen(history, worthOf);
  const odds = (isDenied ? oddsWhenDenied : oddsBefore) * evidenceForSeason(months);
  const trust = odds / (1 + odds);
  if (trust < 0.01) return { pattern, trust };
  const season = seasonOf(months);
  const bent = season.map((ratio) => 1 + trust * (ratio - 1));
  const level = levelOf(history, bent);
  const byMonth = bent.map((ratio, month) => {
    const before = pattern.kind === 'by-month' ? (pattern.byMonth[month] ?? 1) : 1;
    const isNever = before === 0 && !months.some((seen) => seen.month === month && seen.taken > 0);
    return isNever ? 0 : (Math.max(leastMultiplier, before) * ratio) / level;
  });
  return { pattern: { kind: 'by-month', byMonth }, trust };
}

/** Mean of the multipliers over the weeks seen, so that the rate stays that of an ordinary week. */
function levelOf(history: readonly WeekOfUse[], bent: readonly number[]): number {
  let sum = 0;
  let weeks = 0;
  for (const { week, exposure } of history) {
    sum += exposure * (bent[weekFacts(week).month - 1] ?? 1);
    weeks += exposure;
  }
  return weeks > 0 ? sum / weeks : 1;
}

/**
 * Twelve multipliers, January first, mean 1: units of a month over those of an ordinary month at the level of its year, shrunk towards 1 as if
 * three units more had been as expected. Levels and months are found in turn, a few times over.
 */
function seasonOf(months: readonly SeenMonth[]): readonly number[] {
  const season = new Array<number>(12).fill(1);
  const first = months[0]?.slot ?? 0;
  const yearOf = ({ slot }: SeenMonth): number => Math.floor((slot - first) / 12);
  const years = months.length === 0 ? 0 : yearOf(months[months.length - 1] as SeenMonth) + 1;
  for (let round = 0; round < 4; round += 1) {
    const taken = new Array<number>(years).fill(0);
    const worth = new Array<number>(years).fill(0);
    for (const seen of months) {
      const year = yearOf(seen);
      taken[year] = (taken[year] ?? 0) + seen.taken;
      worth[year] = (worth[year] ?? 0) + seen.worth * (season[seen.month] ?? 1);
    }
    const units = new Array<number>(12).fill(0);
    const expected = new Array<number>(12).fill(0);
    for (const seen of months) {
      const year = yearOf(seen);
      const level = (taken[year] ?? 0) / Math.max(1e-9, worth[year] ?? 0);
      units[seen.month] = (units[seen.month] ?? 0) + seen.taken;
      expected[seen.month] = (expected[seen.month] ?? 0) + level * seen.worth;
    }
    let sum = 0;
    for (let month = 0; month < 12; month += 1) {
      season[month] = (likeAnyMonth + (units[month] ?? 0)) / (likeAnyMonth + (expected[month] ?? 0));
      sum += season[month] ?? 0;
    }
    for (let month = 0; month < 12; month += 1) season[month] = (12 * (season[month] ?? 0)) / sum;
  }
  return season;
}

/** Bayes factor of "the months of the years before come again" against "only the level wanders". */
function evidenceForSeason(months: readonly SeenMonth[]): number {
  const first = months[0]?.slot ?? 0;
  let without = errorsAtStart;
  let withSeason = errorsAtStart;
  let foretold = 0;
  let season: readonly number[] = [];
  let learntYears = 0;
  for (const seen of months) {
    const year = Math.floor((seen.slot - first) / 12);
    if (year === 0) continue;
    if (year > learntYears) {
      learntYears = year;
      season = seasonOf(months.filter(({ slot }) => slot - first < 12 * year));
    }
    const levels = levelsAhead(months, seen.slot - monthsAhead, season);
    if (levels === null) continue;
    without += rootError(seen, levels.plain);
    withSeason += rootError(seen, levels.seasonal * (season[seen.month] ?? 1));
    foretold += 1;
  }
  return Math.exp(((independent * foretold) / 2) * Math.log(without / withSeason));
}

/** Fewer months than this foretell nothing. */
const leastMonths = 6;

/** Units a week by what was known up to a month, without and with the season, the last months counting most; null where too little was. */
function levelsAhead(
  months: readonly SeenMonth[],
  upTo: number,
  season: readonly number[],
): { readonly plain: number; readonly seasonal: number } | null {
  let taken = 0;
  let worth = 0;
  let inSeason = 0;
  let known = 0;
  let before = 0;
  for (const seen of months) {
    if (seen.slot > upTo) break;
    const kept = levelKept ** (seen.slot - before);
    before = seen.slot;
    known += 1;
    taken = kept * taken + seen.taken;
    worth = kept * worth + seen.worth;
    inSeason = kept * inSeason + seen.worth * (season[seen.month] ?? 1);
  }
  return known < leastMonths ? null : { plain: taken / worth, seasonal: taken / inSeason };
}

const rootError = ({ taken, worth }: SeenMonth, perWeek: number): number =>
  4 * (Math.sqrt(taken + 0.375) - Math.sqrt(perWeek * worth + 0.375)) ** 2;
