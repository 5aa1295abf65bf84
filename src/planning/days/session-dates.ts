import { compare } from '../../../shared/compare.ts';
import {
  addMonths,
  type CalendarDate,
  dayOfMonth,
  daysInMonth,
  daysOfWeek,
  type WeekKey,
  type WeekStart,
  weekdayOf,
  yearOf,
} from '../../../shared/week.ts';
import { isAway } from '../../harvest/source-years.ts';
import type { DateSpan, KitchenHours, SessionPause, SessionRule } from '../../household/kitchen.ts';

/** A day on which something can be canned, and for how long. */
export interface SessionDate {
  readonly on: CalendarDate;
  readonly hours: number;
  /** Who is there; left out where nobody was named. */
  readonly who?: readonly string[];
}

/** What a household said of when it cans. */
export type SessionHabits = Pick<
  KitchenHours,
  'sessionsPerWeek' | 'hoursPerSession' | 'sessionWeekday' | 'who'
> & {
  readonly weeks: KitchenHours['weeks'] | readonly Omit<KitchenHours['weeks'][number], 'reason'>[];
  readonly rules?: readonly SessionRule[];
  readonly pauses?: readonly SessionPause[];
  readonly away?: readonly DateSpan[];
};

/**
 * The days of a week on which a household cans, the one it would use first in front: the longest, then in the order said.
 *
 * Where rules are said, a session falls on their days alone, and on none of their pauses. Where none are, the usual day and as many
 * around it as sessions are held a week; none where nobody is at home on the usual day. A week of its own has as many as it says: on
 * the days said first, then on those around the usual day. Nobody cans on a day on which nobody is at home.
 */
export function sessionDates(
  habits: SessionHabits,
  week: WeekKey,
  startsOn: WeekStart,
): readonly SessionDate[] {
  const { away, pauses } = habits;
  const home = daysOfWeek(week, startsOn).filter((day) => away === undefined || !isAway(day, away));
  const own = habits.weeks.find((one) => one.week === week);
  const ruled = ruledDays(habits, home);
  const around = daysAround(habits, home, week, startsOn);
  if (own === undefined) {
    const said = byLength(habits.rules).length > 0 ? ruled : usualDays(habits, around);
    return said.filter(({ on }) => pauses?.some((pause) => isPaused(on, pause)) !== true);
  }
  const others = around.filter(({ on }) => !ruled.some((day) => day.on === on));
  return [...ruled, ...others]
    .slice(0, own.sessions)
    .map((day) => ({ ...day, hours: own.hoursPerSession ?? day.hours }));
}

/** Who is there on a day: by the rule that gives it, else who usually is; nobody by name where none was said. */
export const whoIsThere = (
  { rules, who = [] }: Pick<SessionHabits, 'rules' | 'who'>,
  on: CalendarDate,
): readonly string[] => byLength(rules).find((rule) => holds(rule, on))?.who ?? who;

/** The weekday that stages before a load count from: that of the longest sessions said, of equal ones the first. */
export const usualWeekday = ({
  rules,
  sessionWeekday,
}: Pick<SessionHabits, 'rules' | 'sessionWeekday'>): number => byLength(rules)[0]?.weekday ?? sessionWeekday;

/** The next days on which something can be canned, from a day on; as many as are asked for, within weeks given oldest first. */
export function nextSessionDates(
  habits: SessionHabits,
  weeks: readonly WeekKey[],
  from: CalendarDate,
  startsOn: WeekStart,
  count: number,
): readonly SessionDate[] {
  const found: SessionDate[] = [];
  for (const week of weeks) {
    // What comes in a later week comes later.
    if (found.length >= count) break;
    found.push(...sessionDates(habits, week, startsOn).filter(({ on }) => on >= from));
  }
  return found.toSorted((one, other) => compare(one.on, other.on)).slice(0, count);
}

const byLength = (rules: readonly SessionRule[] | undefined): readonly SessionRule[] =>
  rules?.toSorted((one, other) => other.hours - one.hours) ?? [];

/** Days at home that a rule gives, each once; none where no rules are said. */
function ruledDays(
  { rules, who }: Pick<SessionHabits, 'rules' | 'who'>,
  home: readonly CalendarDate[],
): readonly SessionDate[] {
  const days = byLength(rules).flatMap((rule) =>
    home.filter((day) => holds(rule, day)).map((on) => withWho({ on, hours: rule.hours }, rule.who ?? who)),
  );
  return days.filter(({ on }, at) => days.findIndex((one) => one.on === on) === at);
}

/** Whether a rule gives a day. */
const holds = ({ weekday, which }: SessionRule, day: CalendarDate): boolean => {
  if (weekdayOf(day) !== weekday) return false;
  if (which === 'every') return true;
  if (which === 'last') return dayOfMonth(day) + 7 > daysInMonth(day);
  return Math.ceil(dayOfMonth(day) / 7) === places[which];
};

const places = { first: 1, second: 2, third: 3, fourth: 4 } as const;

/** Whether nothing is canned on a day: within the span, or in any year within its days where it comes back each year. */
export function isPaused(day: CalendarDate, { fromOn, untilOn, eachYear }: SessionPause): boolean {
  if (!eachYear) return fromOn <= day && day < untilOn;
  const years = yearOf(day) - yearOf(fromOn);
  // A pause over the turn of the year may have begun in the year before.
  return [years, years - 1].some(
    (later) => addMonths(fromOn, 12 * later) <= day && day < addMonths(untilOn, 12 * later),
  );
}

/** As many days as sessions are held a week; none where nobody is at home on the usual one. */
const usualDays = (
  { sessionWeekday, sessionsPerWeek }: SessionHabits,
  around: readonly SessionDate[],
): readonly SessionDate[] =>
  around.some(({ on }) => weekdayOf(on) === sessionWeekday) ? around.slice(0, sessionsPerWeek) : [];

const withWho = (date: SessionDate, who: readonly string[] | undefined): SessionDate =>
  who === undefined || who.length === 0 ? date : { ...date, who };

/** Days at home by how near they lie to the usual one: that day, the day after, the day before, and so on. */
function daysAround(
  habits: SessionHabits,
  home: readonly CalendarDate[],
  week: WeekKey,
  startsOn: WeekStart,
): readonly SessionDate[] {
  const days = daysOfWeek(week, startsOn);
  const usual = days.findIndex((day) => weekdayOf(day) === usualWeekday(habits));
  const distance = (day: CalendarDate) => Math.abs(days.indexOf(day) - usual);
  return home
    .toSorted((one, other) => distance(one) - distance(other) || compare(other, one))
    .map((on) => withWho({ on, hours: habits.hoursPerSession }, habits.who));
}
