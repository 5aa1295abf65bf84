import { setImmediate } from 'node:timers/promises';
import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import { neverRunsOut } from '../../src/planning/answer/assemble-plan.ts';
import { weeksToKeep } from '../../src/planning/kept-plan.ts';
import type { AskOutlook, PlanningAnswer, PlanOptions, PlanYear } from '../../src/planning/make-plan.ts';
import { type LoadedYear, loadPlanningYear } from '../../src/planning/year/household-year.ts';
import { itemOutlook } from '../../src/planning/year/item-outlook.ts';
import type { Database } from '../database/database.ts';
import { newestPlan } from '../queries/year/plans.ts';

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
