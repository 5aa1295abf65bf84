import {
  addDays,
  type CalendarDate,
  daysBetween,
  mondayOf,
  type WeekKey,
  weekOf,
} from '../../../shared/week.ts';
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
): KitchenTime {
  const own = new Map(habits.weeks.map((week) => [week.week, week]));
  return {
    setUpMinutes: habits.setUpMinutes,
    maxSessionsByWeek: weeks.map((week) => own.get(week)?.sessions ?? usualSessions(habits, week, asOf)),
    hoursPerSessionByWeek: weeks.map((week) => own.get(week)?.hoursPerSession ?? habits.hoursPerSession),
  };
}

function usualSessions(habits: KitchenHabits, week: WeekKey, asOf: CalendarDate): number {
  const usualDay = addDays(mondayOf(week), habits.sessionWeekday - 1);
  if (habits.away.some((span) => span.fromOn <= usualDay && usualDay < span.untilOn)) return 0;
  const hasPassed = week === weekOf(asOf) && daysBetween(usualDay, asOf) > 0;
  return Math.max(0, habits.sessionsPerWeek - (hasPassed ? 1 : 0));
}
