import { type CalendarDate, type WeekKey, weekHolding } from '../../../shared/week.ts';
import type { BatchDecision } from '../../household/decision.ts';
import type { KitchenHours } from '../../household/kitchen.ts';
import type { CanningSession, SessionWork } from '../../household/session.ts';
import type { PlannedWeek } from '../plan.ts';
import { sessionDays } from './week-sessions.ts';

/** Batches that were planned for a day behind us, of which nothing was said: done, moved or dropped? */
export interface PassedSession extends SessionWork {
  readonly week: WeekKey;
  readonly on: CalendarDate;
}

/**
 * What stood in the plan for days that are past and was neither written down, ruled out nor moved. Asked once: any answer
 * is a decision about the recipe and week. `planned` holds weeks as they were planned before the day was over.
 */
export const passedSessions = (
  planned: readonly PlannedWeek[],
  decisions: readonly BatchDecision[],
  begun: readonly CanningSession[],
  hours: KitchenHours,
  weekStartsOn: 'monday' | 'sunday',
  today: CalendarDate,
): readonly PassedSession[] =>
  planned.flatMap((week) => {
    const answered = (recipeId: string) =>
      decisions.some(
        (one) => one.recipeId === recipeId && one.week === week.week && one.decision !== 'pinned',
      );
    return sessionDays(
      week,
      begun.filter(({ on }) => weekHolding(on, weekStartsOn) === week.week),
      hours,
      weekStartsOn,
    )
      .filter(({ on }) => on < today)
      .flatMap(({ on, work }) =>
        work
          .filter(({ recipeId }) => !answered(recipeId))
          .map((batches) => ({ ...batches, week: week.week, on })),
      );
  });
