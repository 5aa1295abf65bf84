import type { WeekKey } from '../../shared/week.ts';
import { daysOutside, type HouseholdCalendar, weekFacts } from './household-calendar.ts';

/**
 * How the use of an item goes through the year. `byMonth` holds 12 multipliers, January first, against an ordinary week
 * (1 = as usual, 0 = not at all that month, 2 = twice as much).
 */
export type UsePattern =
  | { readonly kind: 'all-year' }
  | { readonly kind: 'by-month'; readonly byMonth: readonly number[] }
  | { readonly kind: 'school-weeks' };

export const allYear: UsePattern = { kind: 'all-year' };

const schoolDays = 5;

/**
 * Multiplier of an ordinary week's use in this week, 0 or more. A month rules the weeks whose Thursday it holds; a school week
 * counts its school days, Monday to Friday.
 */
export function multiplierIn(pattern: UsePattern, week: WeekKey, calendar: HouseholdCalendar): number {
  switch (pattern.kind) {
    case 'all-year':
      return 1;
    case 'by-month':
      return pattern.byMonth[weekFacts(week).month - 1] ?? 1;
    case 'school-weeks': {
      const monday = weekFacts(week).firstDay;
      return daysOutside(monday, monday + schoolDays, calendar.schoolHolidays) / schoolDays;
    }
  }
}

/** Ordinary weeks that the 52 weeks from `week` on are worth under the pattern. */
export function ordinaryWeeksInYear(pattern: UsePattern, week: WeekKey, calendar: HouseholdCalendar): number {
  let worth = 0;
  for (let step = 0, at = week; step < 52; step += 1, at = weekFacts(at).next) {
    worth += multiplierIn(pattern, at, calendar);
  }
  return worth;
}
