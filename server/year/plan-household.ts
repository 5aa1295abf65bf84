import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { ItemOutlook, OutlookOf } from '../../src/planning/assemble-plan.ts';
import type { PlanningAnswer, PlanOptions } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import type { Database } from '../database/database.ts';
import { itemOutlook } from './item-outlook.ts';
import { type LoadedYear, loadPlanningYear } from './planning-year.ts';

/** Plans a year; passed in, so that a job can be tested without a solver. */
export type PlanYear = (year: PlanningYear, options?: PlanOptions) => Promise<PlanningAnswer>;

export interface PlannedHousehold {
  readonly loaded: LoadedYear;
  readonly answer: PlanningAnswer;
}

/** Loads a household as it stands and plans its year, with how long each item lasts under the plan. */
export async function planHousehold(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  reference: ReferenceTables,
  planYear: PlanYear,
  options: PlanOptions = {},
): Promise<PlannedHousehold> {
  const loaded = await loadPlanningYear(db, householdId, asOf, reference);
  return { loaded, answer: await planYear(loaded.year, { ...options, outlookOf: outlookUnderPlan(loaded) }) };
}

const neverRunsOut: ItemOutlook = { runOutWeek: { p10: null, p50: null, p90: null }, chanceOfLasting: 1 };

const outlookUnderPlan =
  (loaded: LoadedYear): OutlookOf =>
  (path) => {
    const item = loaded.facts.items.find((candidate) => candidate.id === path.item);
    const projection = item && itemOutlook(loaded, item, { path, weeks: loaded.year.weeks });
    return projection
      ? { runOutWeek: projection.runOut, chanceOfLasting: projection.chanceOfLasting }
      : neverRunsOut;
  };
