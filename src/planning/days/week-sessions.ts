import { type CalendarDate, type WeekKey, weekOf } from '../../../shared/week.ts';
import type { KitchenHours } from '../../household/kitchen.ts';
import type { CanningSession, SessionWork } from '../../household/session.ts';
import { canningDays } from '../answer/canning-days.ts';
import { orNone } from '../lookup.ts';
import type { Plan, PlannedSession, PlannedWeek } from '../plan.ts';

/** One day of a week at the stove: planned, or begun already. */
export interface SessionDay {
  readonly on: CalendarDate;
  readonly work: readonly SessionWork[];
  /** Null while nobody has begun it. */
  readonly session: CanningSession | null;
}

/** Whether a planned load was begun, or is to be begun, on days before it. */
export const isOfSeveralDays = ({ begin, begun }: PlannedSession): boolean =>
  begin !== undefined || begun !== undefined;

/** Weeks of the plan with something to put up, oldest first. */
export const weeksWithSessions = (plan: Plan | null): readonly PlannedWeek[] =>
  plan?.weeks.filter(({ sessions }) => sessions.length > 0) ?? [];

/** The week whose canning is next: this week's when there is any, else the first after it; null without a plan for one. */
export const nextCanningWeek = (
  plan: Plan | null,
  sessions: readonly CanningSession[],
  today: CalendarDate,
): WeekKey | null => {
  const thisWeek = weekOf(today);
  const begun = sessions.map(({ on }) => weekOf(on));
  const planned = weeksWithSessions(plan).map(({ week }) => week);
  return [...begun, ...planned].filter((week) => week >= thisWeek).toSorted()[0] ?? null;
};

/**
 * The canning days of a week: those begun, as they were begun, and the days of the plan for what is not yet in one of them,
 * laid on the household's usual day and those around it.
 */
export function sessionDays(
  planned: PlannedWeek | null,
  begun: readonly CanningSession[],
  hours: KitchenHours,
  weekStartsOn: 'monday' | 'sunday',
): readonly SessionDay[] {
  const opened = begun.map((session) => ({ on: session.on, work: session.work, session }));
  const days =
    planned === null
      ? []
      : canningDays(
          planned.sessions.map((session) => ({
            session,
            minutes: session.handsOnMinutes,
            onUsualDay: isOfSeveralDays(session),
          })),
          {
            week: planned.week,
            usualWeekday: hours.sessionWeekday,
            sessions: planned.kitchenSessions,
            setUpMinutes: hours.setUpMinutes,
            lastWeekday: weekStartsOn === 'sunday' ? 6 : 7,
            ...(hours.away === undefined ? {} : { away: hours.away }),
          },
        );
  const inHand = new Set(begun.flatMap(({ work }) => work.map(({ recipeId }) => recipeId)));
  const ahead = days
    .filter((day) => !begun.some(({ on }) => on === day.on))
    .map((day) => ({
      on: day.on,
      work: together(day.work.map(({ session }) => session)).filter(({ recipeId }) => !inHand.has(recipeId)),
      session: null,
    }))
    .filter(({ work }) => work.length > 0);
  return [...opened, ...ahead].toSorted((one, other) => (one.on < other.on ? -1 : 1));
}

/** One entry for each recipe of a day: batches begun already and those to begin go into the canner together. */
function together(sessions: readonly PlannedSession[]): readonly SessionWork[] {
  const batches = new Map<SessionWork['recipeId'], number>();
  for (const session of sessions)
    batches.set(session.recipe, orNone(batches.get(session.recipe)) + session.batches);
  return [...batches].map(([recipeId, count]) => ({ recipeId, batches: count }));
}
