import {
  addDays,
  type CalendarDate,
  daysBetween,
  daysOfWeek,
  mondayOf,
  type WeekKey,
  type WeekStart,
  weekOf,
} from '../../../shared/week.ts';
import { isAway } from '../../harvest/source-years.ts';
import type { KitchenTime } from '../planning-year.ts';

export interface KitchenHabits {
  readonly sessionsPerWeek: number;
  readonly hoursPerSession: number;
  readonly setUpMinutes: number;
  /** Usual day of the first session, 1 Monday to 7 Sunday. */
  readonly sessionWeekday: number;
  /** Weeks that differ; hours null: as long as usual. */
  readonly weeks: readonly {
    readonly week: WeekKey;
    readonly sessions: number;
    readonly hoursPerSession: number | null;
  }[];
  /** Days away, the last one not included. */
  readonly away: readonly { readonly fromOn: CalendarDate; readonly untilOn: CalendarDate }[];
}

/**
 * Sessions and hours of each week. A week's own setting wins over everything; otherwise there is none when the household
 * is away on its usual day, and in the week of `asOf` the usual day no longer counts once it has passed.
 */
export function kitchenWeeks(
  habits: KitchenHabits,
  weeks: readonly WeekKey[],
  asOf: CalendarDate,
  startsOn: WeekStart = 'monday',
): KitchenTime {
  const own = new Map(habits.weeks.map((week) => [week.week, week]));
  const awayByWeek = weeks.map((week) => daysOfWeek(week, startsOn).every((day) => isAway(day, habits.away)));
  return {
    ...(awayByWeek.includes(true) ? { awayByWeek } : {}),
    setUpMinutes: habits.setUpMinutes,
    maxSessionsByWeek: weeks.map(
      (week) => own.get(week)?.sessions ?? usualSessions(habits, week, asOf, startsOn),
    ),
    hoursPerSessionByWeek: weeks.map((week) => own.get(week)?.hoursPerSession ?? habits.hoursPerSession),
  };
}

function usualSessions(
  habits: KitchenHabits,
  week: WeekKey,
  asOf: CalendarDate,
  startsOn: WeekStart,
): number {
  const usualDay = addDays(mondayOf(week), habits.sessionWeekday - 1);
  if (isAway(usualDay, habits.away)) return 0;
  const hasPassed = week === weekOf(asOf) && daysBetween(usualDay, asOf) > 0;
  const home = daysOfWeek(week, startsOn).filter((day) => !isAway(day, habits.away)).length;
  return Math.max(0, Math.min(home, habits.sessionsPerWeek) - (hasPassed ? 1 : 0));
}
