import { addDays, addMonths, type CalendarDate } from '../../shared/week.ts';

/** A kept plan as far as it is asked whether it stays. */
export interface KeptPlan {
  readonly id: string;
  readonly asOf: CalendarDate;
}

const newestKept = 3;
/** What was planned for this week and the day before is asked of plans made up to eight days ago. */
const daysKept = 10;
/** Look back holds a year against the plan it began with. */
const monthsKept = 13;

/**
 * The plans that are asked for again, of all that were kept, the newest first: the newest three, the last one of each of the
 * last ten days, and the first one of each month of the last thirteen. Days and months are counted from the newest plan's day.
 */
export function plansWorthKeeping(newestFirst: readonly KeptPlan[]): ReadonlySet<string> {
  const [newest] = newestFirst;
  if (newest === undefined) return new Set();
  const lastOfDay = new Map<string, string>();
  const firstOfMonth = new Map<string, string>();
  for (const { id, asOf } of newestFirst) {
    if (asOf > addDays(newest.asOf, -daysKept) && !lastOfDay.has(asOf)) lastOfDay.set(asOf, id);
    if (asOf > addMonths(newest.asOf, -monthsKept)) firstOfMonth.set(asOf.slice(0, 7), id);
  }
  return new Set([
    ...newestFirst.slice(0, newestKept).map(({ id }) => id),
    ...lastOfDay.values(),
    ...firstOfMonth.values(),
  ]);
}
