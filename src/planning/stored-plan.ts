import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import type { PlanPath } from './answer/plan-path.ts';
import type { PlanningAnswer } from './make-plan.ts';
import { steadyWeeks } from './model/rules.ts';
import type { Plan, PlannedWeek } from './plan.ts';
import type { PlanningYear } from './planning-year.ts';
import type { Reached } from './simulation/reached.ts';

/** What is kept of a planning answer. */
export interface StoredResult {
  readonly plan: Plan;
  /** Each item through the plan's weeks under expected use. */
  readonly paths: readonly PlanPath[];
  /** Anything but `planned`: the solver found nothing, and this is the plan that needs none. */
  readonly outcome: PlanningAnswer['outcome'];
  readonly stoppedBy: 'gap' | 'time limit' | 'node limit' | null;
  /** How often things lasted when the plan was played against sampled years; missing until it was. */
  readonly reached?: Reached | null;
}

export interface StoredPlan extends StoredResult {
  readonly id: string;
  readonly asOf: CalendarDate;
  readonly madeAt: number;
  /** What the planner looked at when it made this plan. */
  readonly year: PlanningYear;
  /** Facts have been written since. */
  readonly isOutOfDate: boolean;
}

export interface OldestPlan {
  readonly asOf: CalendarDate;
  readonly plan: Plan;
}

/** Weeks of a plan to stay near; null where it was no worked-out plan or does not reach over the near weeks. */
export function weeksToKeep(
  kept: Pick<StoredPlan, 'plan' | 'outcome'> | null,
  weeks: readonly WeekKey[],
): readonly PlannedWeek[] | null {
  if (kept === null || kept.outcome !== 'planned') return null;
  const planned = new Set(kept.plan.weeks.map(({ week }) => week));
  return weeks.slice(0, steadyWeeks).every((week) => planned.has(week)) ? kept.plan.weeks : null;
}
