import { type HouseholdCalendar, weekFacts } from './household-calendar.ts';
import { multiplierIn, type UsePattern } from './use-pattern.ts';
import type { WeekOfUse } from './week-of-use.ts';

/** A season is not learnt from less than two whole years. */
const weeksBeforeLearning = 104;
/** Units in a month for which the declared season counts, so that a few jars more or less do not make a season. */
const declaredSeasonWeight = 100;
/** A month declared to have no use may still turn out to have some. */
const leastMultiplier = 0.05;

/**
 * The season of an item: as declared, until two years are seen; then each month's multiplier moves towards what was eaten in it,
 * `declared · (weight + taken) / (weight + expected)`, the year's total unchanged. School weeks stay as declared.
 *
 * `history`: the weeks that train, oldest first.
 */
export function learntPattern(
  history: readonly WeekOfUse[],
  pattern: UsePattern,
  calendar: HouseholdCalendar,
): UsePattern {
  if (pattern.kind === 'school-weeks' || history.length < weeksBeforeLearning) return pattern;
  const taken = new Array<number>(12).fill(0);
  const worth = new Array<number>(12).fill(0);
  let weeksThatCounted = 0;
  for (const week of history) {
    const { month } = weekFacts(week.week);
    if (!(week.exposure > 0)) continue;
    const multiplier = Math.max(leastMultiplier, multiplierIn(pattern, week.week, calendar));
    taken[month - 1] = (taken[month - 1] ?? 0) + week.taken;
    worth[month - 1] = (worth[month - 1] ?? 0) + week.exposure * multiplier;
    weeksThatCounted += week.exposure;
  }
  if (weeksThatCounted < weeksBeforeLearning) return pattern;

  const rate = sum(taken) / sum(worth);
  const ratios = taken.map(
    (units, month) => (declaredSeasonWeight + units) / (declaredSeasonWeight + rate * (worth[month] ?? 0)),
  );
  const level = ratios.reduce((total, ratio, month) => total + ratio * (worth[month] ?? 0), 0) / sum(worth);
  const byMonth = ratios.map((ratio, month) => {
    const before = pattern.kind === 'by-month' ? (pattern.byMonth[month] ?? 1) : 1;
    const asDeclared = before === 0 && (taken[month] ?? 0) === 0;
    return asDeclared ? 0 : (Math.max(leastMultiplier, before) * ratio) / level;
  });
  return { kind: 'by-month', byMonth };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
