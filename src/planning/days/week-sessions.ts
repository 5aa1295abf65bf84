import { compare } from '../../../shared/compare.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import {
  type CalendarDate,
  dayInWeek,
  type WeekKey,
  type WeekStart,
  weekHolding,
} from '../../../shared/week.ts';
import type { KitchenHours } from '../../household/kitchen.ts';
import type { CanningSession, SessionWork } from '../../household/session.ts';
import { canningDays, type WeekAtTheStove } from '../answer/canning-days.ts';
import { orNone } from '../lookup.ts';
import type { Plan, PlannedSession, PlannedWeek } from '../plan.ts';
import { type SessionDate, sessionDates, usualWeekday } from './session-dates.ts';

/** One day of a week at the stove: planned, or begun already. */
export interface SessionDay {
  readonly on: CalendarDate;
  readonly work: readonly SessionWork[];
  /** Null while nobody has begun it. */
  readonly session: CanningSession | null;
}

/**
 * Whether a planned load stands on the usual day of its week and no other: what was begun, or is to be begun, on days before it,
 * and batches of which one takes what the other leaves.
 */
export const standsOnUsualDay = ({ begin, begun, sharesByProduct }: PlannedSession): boolean =>
  begin !== undefined || begun !== undefined || sharesByProduct === true;

/** Weeks of the plan with something to put up, oldest first. */
export const weeksWithSessions = (plan: Plan | null): readonly PlannedWeek[] =>
  plan?.weeks.filter(({ sessions }) => sessions.length > 0) ?? [];

/** The week whose canning is next: this week's when there is any, else the first after it; null without a plan for one. */
export const nextCanningWeek = (
  plan: Plan | null,
  sessions: readonly CanningSession[],
  today: CalendarDate,
  weekStartsOn: WeekStart,
): WeekKey | null => {
  const thisWeek = weekHolding(today, weekStartsOn);
  const begun = sessions.map(({ on }) => weekHolding(on, weekStartsOn));
  const planned = weeksWithSessions(plan).map(({ week }) => week);
  return [...begun, ...planned].filter((week) => week >= thisWeek).toSorted()[0] ?? null;
};

/**
 * The canning days of a week: those begun, as they were begun, and the days of the plan for what is not yet in one of them,
 * laid on the days its sessions are held on (`sessionDates`).
 */
export function sessionDays(
  planned: PlannedWeek | null,
  begun: readonly CanningSession[],
  hours: KitchenHours,
  weekStartsOn: WeekStart,
): readonly SessionDay[] {
  const opened = begun.map((session) => ({ on: session.on, work: session.work, session }));
  const days = planned === null ? [] : plannedDays({ planned, hours, weekStartsOn });
  const inHand = new Set(begun.flatMap(({ work }) => work.map(({ recipeId }) => recipeId)));
  const ahead = days
    .filter((day) => !begun.some(({ on }) => on === day.on))
    .map((day) => ({
      on: day.on,
      work: together(day.work.map(({ session }) => session)).filter(({ recipeId }) => !inHand.has(recipeId)),
      session: null,
    }))
    .filter(({ work }) => work.length > 0);
  return [...opened, ...ahead].toSorted((one, other) => compare(one.on, other.on));
}

interface DaysAsked {
  readonly planned: PlannedWeek;
  readonly hours: KitchenHours;
  readonly weekStartsOn: WeekStart;
}

/** The days on which a planned week is canned, with what. Pages and notices ask for the same weeks, and what is eaten changes none of them. */
export const plannedDays = whileTheSame('planned', ({ planned, hours, weekStartsOn }: DaysAsked) =>
  canningDays(
    planned.sessions.map((session) => ({
      session,
      minutes: session.handsOnMinutes,
      onUsualDay: standsOnUsualDay(session),
    })),
    weekAtTheStove(planned, hours, weekStartsOn),
  ),
);

/**
 * A planned week as its days can be used. Days that were over when the plan was made are passed over. What stands in a plan of which no
 * day is left to the rules as they are now is kept on the nearest day at home until it is planned anew.
 */
export function weekAtTheStove(
  { week, from, kitchenSessions }: PlannedWeek,
  hours: KitchenHours,
  weekStartsOn: WeekStart,
): WeekAtTheStove {
  const ahead = (days: readonly SessionDate[]) => days.filter(({ on }) => from === undefined || on >= from);
  const days = sessionDates(hours, week, weekStartsOn);
  const usual = usualWeekday(hours);
  const everyDay = [{ week, sessions: 7, hoursPerSession: null }];
  const nearest = { ...hours, rules: [], weeks: everyDay, sessionWeekday: usual };
  const left = [ahead(days), days, ahead(sessionDates(nearest, week, weekStartsOn))].find(
    ({ length }) => length > 0,
  );
  return {
    days: left ?? [{ on: dayInWeek(week, usual, weekStartsOn), hours: hours.hoursPerSession }],
    usualWeekday: usual,
    sessions: kitchenSessions,
    setUpMinutes: hours.setUpMinutes,
  };
}

/** One entry for each recipe of a day: batches begun already and those to begin go into the canner together. */
function together(sessions: readonly PlannedSession[]): readonly SessionWork[] {
  const batches = new Map<SessionWork['recipeId'], number>();
  for (const session of sessions)
    batches.set(session.recipe, orNone(batches.get(session.recipe)) + session.batches);
  return [...batches].map(([recipeId, count]) => ({ recipeId, batches: count }));
}
