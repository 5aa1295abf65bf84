import {
  addDays,
  type CalendarDate,
  daysBetween,
  type MonthNumber,
  mondayOf,
  monthOf,
  type WeekKey,
  weekOf,
} from '../../shared/week.ts';

/** Days from `from` up to and including `to`. */
export interface DaySpan {
  readonly from: CalendarDate;
  readonly to: CalendarDate;
}

/** What the whole household's year looks like, whatever the item. */
export interface HouseholdCalendar {
  /** Nobody at home: nothing is eaten, and nothing is learnt from it. */
  readonly away: readonly DaySpan[];
  /** Days without school; only items eaten in school weeks look at them. */
  readonly schoolHolidays: readonly DaySpan[];
}

export const ordinaryCalendar: HouseholdCalendar = { away: [], schoolHolidays: [] };

interface WeekFacts {
  readonly month: MonthNumber;
  readonly monday: CalendarDate;
  readonly next: WeekKey;
}

// A year of weeks is asked for once per item; parsing each of them again would cost more than the forecast itself.
const remembered = new Map<WeekKey, WeekFacts>();

/** Month, first day and following week of an ISO week. */
export function weekFacts(week: WeekKey): WeekFacts {
  const known = remembered.get(week);
  if (known) return known;
  const monday = mondayOf(week);
  const facts = { month: monthOf(week), monday, next: weekOf(addDays(monday, 7)) };
  remembered.set(week, facts);
  return facts;
}

/** Days of `from..to` (both included) that fall in none of the spans, as a share of the week's seven days. */
export function shareOfWeek(from: CalendarDate, to: CalendarDate, without: readonly DaySpan[]): number {
  const days = daysBetween(from, to) + 1;
  const touching = without.filter((span) => span.from <= to && span.to >= from);
  if (touching.length === 0) return days / 7;
  let free = 0;
  for (let step = 0, day = from; step < days; step += 1, day = addDays(day, 1)) {
    if (!touching.some((span) => span.from <= day && day <= span.to)) free += 1;
  }
  return free / 7;
}
