import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { PlanningAnswer, PlanOptions, PlanYear } from '../../src/planning/make-plan.ts';
import { type AimBefore, type AimOptions, aimBefore } from '../../src/planning/simulation/aimed-plan.ts';
import { weeksToKeep } from '../../src/planning/stored-plan.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import type { Database } from '../database/database.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { loadPlanningYear } from './load-year.ts';
import { servedBetween } from './remembered-outlooks.ts';

export interface PlannedHousehold {
  readonly loaded: HouseholdYear;
  readonly answer: PlanningAnswer;
  /** Items whose reserve it went on from; undefined where all are aimed anew. */
  readonly aimedBefore: AimBefore['aimedBefore'] | undefined;
}

/** How a household is planned. */
export interface PlanHouseholdOptions extends PlanOptions {
  /** Goes on from the last plan: from its reserves where they are of this week, and its search with this said of it. */
  readonly goesOn?: Required<Pick<AimOptions, 'secondsLimit' | 'beginsFromEarlier'>> | null;
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
  { goesOn = null, ...options }: PlanHouseholdOptions = {},
): Promise<PlannedHousehold> {
  const [asLoaded, plan] = await Promise.all([
    loadPlanningYear(db, householdId, asOf, reference),
    newestPlan(db, householdId),
  ]);
  const before = goesOn === null ? null : aimBefore(asLoaded, plan);
  const { loaded } = before ?? { loaded: asLoaded };
  const earlier = weeksToKeep(plan, loaded.year.weeks);
  const answer = await planYear(loaded.year, {
    earlier,
    ...(plan === null || earlier === null || goesOn === null
      ? {}
      : { beginsFrom: plan, secondsLimit: goesOn.secondsLimit }),
    ...options,
    outlookOf: servedBetween(loaded).outlookOf,
  });
  return { loaded, answer, aimedBefore: before?.aimedBefore };
}
