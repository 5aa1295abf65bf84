import { type CalendarDate, daysOfWeek, type WeekKey, type WeekStart } from '../../../shared/week.ts';
import { isAway } from '../../harvest/source-years.ts';
import { handsOf } from '../../household/hands.ts';
import type { DateSpan } from '../../household/kitchen.ts';
import { type SessionDate, type SessionHabits, sessionDates } from '../days/session-dates.ts';
import { entry } from '../lookup.ts';
import type { KitchenTime } from '../planning-year.ts';

export type KitchenHabits = SessionHabits & {
  readonly setUpMinutes: number;
  /** Days away, the last one not included. */
  readonly away: readonly DateSpan[];
};

/**
 * Sessions and hours of each week: the days that the household's rules give (`sessionDates`), those before `asOf` left out. Days of
 * unlike length count with their mean; the longest of them bounds what one batch may take.
 */
export function kitchenWeeks(
  habits: KitchenHabits,
  weeks: readonly WeekKey[],
  asOf: CalendarDate,
  startsOn: WeekStart = 'monday',
): KitchenTime {
  const awayByWeek = weeks.map((week) => daysOfWeek(week, startsOn).every((day) => isAway(day, habits.away)));
  const daysByWeek = weeks.map((week) => sessionDates(habits, week, startsOn).filter(({ on }) => on >= asOf));
  const longest = daysByWeek.map((days) => Math.max(0, ...days.map(({ hours }) => hours)));
  const mean = daysByWeek.map((days, at) =>
    days.length === 0
      ? (habits.weeks.find(({ week }) => week === weeks[at])?.hoursPerSession ?? habits.hoursPerSession)
      : days.reduce((sum, { hours }) => sum + hours, 0) / days.length,
  );
  const hands = daysByWeek.map((days) => handsInWeek(days, habits.setUpMinutes));
  return {
    ...(awayByWeek.includes(true) ? { awayByWeek } : {}),
    setUpMinutes: habits.setUpMinutes,
    maxSessionsByWeek: daysByWeek.map((days) => days.length),
    hoursPerSessionByWeek: mean,
    ...(longest.some((hours, at) => hours > entry(mean, at, 'mean') + 1e-9)
      ? { longestSessionByWeek: longest }
      : {}),
    ...(hands.some((pairs) => pairs > 1) ? { handsByWeek: hands } : {}),
  };
}

/** Pairs of hands (`handsOf`) that a minute of the week's sessions counts for, set-up left out; 1 without a session. */
function handsInWeek(days: readonly SessionDate[], setUpMinutes: number): number {
  const atWork = days.map(({ hours, who }) => ({
    minutes: Math.max(0, hours * 60 - setUpMinutes),
    hands: handsOf(who === undefined ? 1 : who.length),
  }));
  const minutes = atWork.reduce((sum, day) => sum + day.minutes, 0);
  return minutes <= 0 ? 1 : atWork.reduce((sum, day) => sum + day.minutes * day.hands, 0) / minutes;
}
