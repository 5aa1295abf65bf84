import {
  addDays,
  type CalendarDate,
  dayInWeek,
  daysOfWeek,
  type WeekKey,
  type WeekStart,
} from '../../../shared/week.ts';
import { isAway, type SourceYear } from '../../harvest/source-years.ts';
import type { DateSpan } from '../../household/kitchen.ts';
import { type SessionHabits, sessionDates, usualWeekday } from '../days/session-dates.ts';

/** When produce is picked and when it is put up. */
export interface WaitingDays {
  readonly weeks: readonly WeekKey[];
  readonly startsOn: WeekStart;
  readonly asOf: CalendarDate;
  readonly away: readonly DateSpan[];
  /** The canning days of each week, as they come; its usual day where none is held. */
  readonly canningDays: readonly (readonly CalendarDate[])[];
}

/** The canning days of each week from a day on, the usual weekday standing for a week without any. */
export const canningDaysOf = (
  habits: SessionHabits,
  weeks: readonly WeekKey[],
  startsOn: WeekStart,
  asOf: CalendarDate,
): WaitingDays['canningDays'] =>
  weeks.map((week) => {
    const held = sessionDates(habits, week, startsOn).map(({ on }) => on);
    const ahead = held.filter((on) => on >= asOf);
    const days = ahead.length > 0 ? ahead : held;
    return days.length > 0 ? days.toSorted() : [dayInWeek(week, usualWeekday(habits), startsOn)];
  });

/**
 * By the week in which produce of a source is picked or bought: the last week whose canning it can wait for.
 *
 * For its own week it is picked on the last day at home in season up to the week's last canning day; for a later one on the last such
 * day of the week itself. It can wait while `days from picking to canning <= days it keeps`; of a later week the last canning day counts.
 * The week before where it cannot even wait for its own week's canning, or is not ripe by then.
 *
 * Example: peaches that keep 3 days, canned on Saturdays: their own week. Apples that keep 14: two weeks later still.
 */
export const lastUseWeeks = (
  years: readonly SourceYear[],
  useByDays: number,
  { weeks, startsOn, asOf, away, canningDays }: WaitingDays,
): readonly number[] =>
  weeks.map((week, at) => {
    const picking = daysOfWeek(week, startsOn).filter(
      (day) =>
        day >= asOf &&
        years.some(({ season }) => season.plannedFrom <= day && day <= season.plannedTo) &&
        !isAway(day, away),
    );
    const last = picking.at(-1);
    if (last === undefined) return at;
    const ownDay = canningDays[at]?.at(-1);
    const forOwn = picking.filter((day) => ownDay === undefined || day <= ownDay).at(-1);
    const canWait = forOwn !== undefined && (ownDay === undefined || ownDay <= addDays(forOwn, useByDays));
    if (!canWait) return at - 1;
    return lastWaitedFor(at, addDays(last, useByDays), canningDays);
  });

/** The last week, from one on, whose last canning day is not after a day. */
function lastWaitedFor(from: number, until: CalendarDate, canningDays: WaitingDays['canningDays']): number {
  let week = from;
  for (;;) {
    const next = canningDays[week + 1]?.at(-1);
    if (next === undefined || next > until) return week;
    week += 1;
  }
}

/** The same for what is at hand: the last week with a canning day on or before its last day; -1 where there is none. */
export const lastUseWeekAtHand = (useBy: CalendarDate, { canningDays, asOf }: WaitingDays): number =>
  canningDays.findLastIndex((days) => days.some((on) => on >= asOf && on <= useBy));
