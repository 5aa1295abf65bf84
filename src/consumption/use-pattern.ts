import { addDays, type CalendarDate } from '../../shared/week.ts';
import { type HouseholdCalendar, shareOfWeek, weekFacts } from './household-calendar.ts';

/**
 * How the use of an item goes through the year. `byMonth` holds 12 multipliers, January first, against an ordinary week
 * (1 = as usual, 0 = not at all that month, 2 = twice as much).
 */
export type UsePattern =
  | { readonly kind: 'all-year' }
  | { readonly kind: 'by-month'; readonly byMonth: readonly number[] }
  | { readonly kind: 'school-weeks' };

export const allYear: UsePattern = { kind: 'all-year' };

/**
 * Multiplier of an ordinary week's use in the week that starts on `monday`, 0 or more; school weeks count the days from
 * Monday to Friday that are school days.
 */
export function multiplierIn(
  pattern: UsePattern,
  week: Parameters<typeof weekFacts>[0],
  calendar: HouseholdCalendar,
): number {
  switch (pattern.kind) {
    case 'all-year':
      return 1;
    case 'by-month':
      return pattern.byMonth[weekFacts(week).month - 1] ?? 1;
    case 'school-weeks': {
      const { monday } = weekFacts(week);
      const friday: CalendarDate = addDays(monday, 4);
      return (shareOfWeek(monday, friday, calendar.schoolHolidays) * 7) / 5;
    }
  }
}
