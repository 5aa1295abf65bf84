import { setImmediate } from 'node:timers/promises';
import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import { neverRunsOut } from '../../src/planning/answer/assemble-plan.ts';
import type { AskOutlook, PlanningAnswer, PlanOptions } from '../../src/planning/make-plan.ts';
import { steadyWeeks } from '../../src/planning/model/rules.ts';
import type { PlannedWeek } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import type { Database } from '../database/database.ts';
import { type KeptPlan, newestPlan } from '../queries/year/plans.ts';
import { itemOutlook } from './item-outlook.ts';
import { type LoadedYear, loadPlanningYear } from './planning-year.ts';

/** Plans a year; passed in, so that a job can be tested without a solver. */
export type PlanYear = (year: PlanningYear, options?: PlanOptions) => Promise<PlanningAnswer>;

export interface PlannedHousehold {
  readonly loaded: LoadedYear;
  readonly answer: PlanningAnswer;
}

/**
 * Loads a household as it stands and plans its year, with how long each item lasts under the plan. The near weeks of the
 * newest plan are kept unless a change is worth more than `householdRules` names.
 */
export async function planHousehold(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  reference: ReferenceTables,
  planYear: PlanYear,
  options: PlanOptions = {},
): Promise<PlannedHousehold> {
  const [loaded, kept] = await Promise.all([
    loadPlanningYear(db, householdId, asOf, reference),
    newestPlan(db, householdId),
  ]);
  const earlier = weeksToKeep(kept, loaded.year.weeks);
  const answer = await planYear(loaded.year, { earlier, ...options, outlookOf: outlookUnderPlan(loaded) });
  return { loaded, answer };
}

/** Weeks of a plan to stay near; null where it was no worked-out plan or does not reach over the near weeks. */
export function weeksToKeep(
  kept: Pick<KeptPlan, 'plan' | 'outcome'> | null,
  weeks: readonly WeekKey[],
): readonly PlannedWeek[] | null {
  if (kept === null || kept.outcome !== 'planned') return null;
  const planned = new Set(kept.plan.weeks.map(({ week }) => week));
  return weeks.slice(0, steadyWeeks).every((week) => planned.has(week)) ? kept.plan.weeks : null;
}

/** How long each item lasts when the plan's path is carried out; others are served between two items. */
export const outlookUnderPlan =
  (loaded: LoadedYear): AskOutlook =>
  async (path) => {
    await setImmediate();
    const item = loaded.facts.items.find((candidate) => candidate.id === path.item);
    const projection = item && itemOutlook(loaded, item, { path, weeks: loaded.year.weeks });
    return projection
      ? { runOutWeek: projection.runOut, chanceOfLasting: projection.chanceOfLasting }
      : neverRunsOut;
  };
