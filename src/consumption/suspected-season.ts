import { weekFacts } from './household-calendar.ts';
import { monthsSeen } from './seen-months.ts';
import type { UsePattern } from './use-pattern.ts';
import type { WeekOfUse } from './week-of-use.ts';

/** Neighboring months in which so much more was eaten that it is worth asking whether it is so every year. */
export interface SuspectedSeason {
  /** The months, in order, 1 is January; they may go over New Year. */
  readonly months: readonly number[];
  /** Units taken in them, and in all. */
  readonly taken: number;
  readonly takenInAll: number;
  /** Units a week in them, and in the other months. */
  readonly perWeek: number;
  readonly perWeekElsewhere: number;
}

/** Weeks that must have counted: most of a year. */
const leastWeeks = 44;
/** Months of which something is known. */
const leastMonths = 11;
const mostMonths = 6;
/** In the season at least this many times as much as outside it, and at least so many units in all. Judged, no source. */
const timesAsMuch = 3;
const leastUnits = 8;
/** Standard deviations by which the season must stand out, at a dispersion of 1.5. Judged: hardly one steady appetite in a hundred is asked about. */
const deviationsToAsk = 4.5;
const dispersionTaken = 1.5;

/**
 * The run of one to six neighboring months that stands out most from the rest of the year, if it stands out enough to ask; null otherwise, and
 * where a season was declared. Weeks oldest first.
 *
 * A run with a share `s` of the weeks seen and `n` of `N` units lies `(n - N·s) / sqrt(1.5 · N·s·(1-s))` deviations out.
 */
export function suspectedSeason(history: readonly WeekOfUse[], pattern: UsePattern): SuspectedSeason | null {
  if (pattern.kind !== 'all-year') return null;
  const taken = new Array<number>(12).fill(0);
  const weeks = new Array<number>(12).fill(0);
  for (const seen of monthsSeen(history, ({ exposure }) => exposure)) {
    taken[seen.month] = (taken[seen.month] ?? 0) + seen.taken;
    weeks[seen.month] = (weeks[seen.month] ?? 0) + seen.worth;
  }
  const units = sum(taken);
  const allWeeks = sum(weeks);
  if (allWeeks < leastWeeks || units < leastUnits || weeks.filter((seen) => seen > 0).length < leastMonths)
    return null;

  let best: SuspectedSeason | null = null;
  let furthest = deviationsToAsk;
  for (let length = 1; length <= mostMonths; length += 1) {
    for (let first = 0; first < 12; first += 1) {
      let inRun = 0;
      let weeksInRun = 0;
      for (let step = 0; step < length; step += 1) {
        inRun += taken[(first + step) % 12] ?? 0;
        weeksInRun += weeks[(first + step) % 12] ?? 0;
      }
      const share = weeksInRun / allWeeks;
      if (!(share > 0 && share < 1)) continue;
      const perWeek = inRun / weeksInRun;
      const perWeekElsewhere = (units - inRun) / (allWeeks - weeksInRun);
      if (perWeek < timesAsMuch * perWeekElsewhere) continue;
      const deviations = (inRun - units * share) / Math.sqrt(dispersionTaken * units * share * (1 - share));
      if (deviations <= furthest) continue;
      furthest = deviations;
      best = {
        months: Array.from({ length }, (_, step) => ((first + step) % 12) + 1),
        taken: inRun,
        takenInAll: units,
        perWeek,
        perWeekElsewhere,
      };
    }
  }
  return best !== null && hasPassed(best, history) ? best : null;
}

/** A season that is going on may be a new habit: it is asked about when it is over. */
function hasPassed({ months }: SuspectedSeason, history: readonly WeekOfUse[]): boolean {
  const last = history.at(-1);
  return last !== undefined && !months.includes(weekFacts(last.week).month);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
