import { remembering } from '../../shared/remembering.ts';
import {
  addDays,
  type CalendarDate,
  type MonthNumber,
  mondayOf,
  monthOf,
  type WeekKey,
  weekOf,
} from '../../shared/week.ts';

/** Days from `from` up to, not including, `until`. */
export interface DaySpan {
  readonly from: CalendarDate;
  readonly until: CalendarDate;
}

/** What the whole household's year looks like, whatever the item. */
export interface HouseholdCalendar {
  /** Nobody at home: nothing is eaten, and nothing is learnt from it. */
  readonly away: readonly DaySpan[];
  /** Days without school; only items eaten in school weeks look at them. */
  readonly schoolHolidays: readonly DaySpan[];
}

export const ordinaryCalendar: HouseholdCalendar = { away: [], schoolHolidays: [] };

/**
 * School holidays of one calendar year for a household that has not entered its own: mid June to the end of August and the
 * days around the turn of the year. An assumption of ours, no source; it is there to be replaced.
 */
export const assumedSchoolHolidays = (year: number): DaySpan[] => [
  { from: `${year}-01-01` as CalendarDate, until: `${year}-01-04` as CalendarDate },
  { from: `${year}-06-15` as CalendarDate, until: `${year}-09-01` as CalendarDate },
  { from: `${year}-12-20` as CalendarDate, until: `${year + 1}-01-01` as CalendarDate },
];

const millisecondsPerDay = 86_400_000;

/** Days since 1 January 1970, so that spans of years can be walked without parsing every date. */
export const dayNumber = remembering((date: CalendarDate): number => Date.parse(date) / millisecondsPerDay);

interface WeekFacts {
  readonly month: MonthNumber;
  readonly monday: CalendarDate;
  /** Day number of the Monday. */
  readonly firstDay: number;
  readonly next: WeekKey;
}

// A year of weeks is asked for once per item; parsing each of them again would cost more than the forecast itself.
const remembered = new Map<WeekKey, WeekFacts>();
const weekByDate = new Map<CalendarDate, WeekKey>();

/** `weekOf`, remembered for the same reason. */
export function weekHolding(date: CalendarDate): WeekKey {
  const known = weekByDate.get(date);
  if (known) return known;
  const week = weekOf(date);
  weekByDate.set(date, week);
  return week;
}

/** Month, first day and following week of an ISO week. */
export function weekFacts(week: WeekKey): WeekFacts {
  const known = remembered.get(week);
  if (known) return known;
  const monday = mondayOf(week);
  const facts = {
    month: monthOf(week),
    monday,
    firstDay: dayNumber(monday),
    next: weekOf(addDays(monday, 7)),
  };
  remembered.set(week, facts);
  return facts;
}

/** Days from `from` up to, not including, `until` that fall in none of the spans. */
export function daysOutside(from: number, until: number, spans: readonly DaySpan[]): number {
  if (spans.length === 0) return until - from;
  const touching = spans
    .map((span) => ({ from: dayNumber(span.from), until: dayNumber(span.until) }))
    .filter((span) => span.from < until && span.until > from);
  if (touching.length === 0) return until - from;
  let outside = 0;
  for (let day = from; day < until; day += 1) {
    if (!touching.some((span) => span.from <= day && day < span.until)) outside += 1;
  }
  return outside;
}
