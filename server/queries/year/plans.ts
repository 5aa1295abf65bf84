import type { HouseholdId, RecipeId } from '../../../shared/ids.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type { BatchDecision } from '../../../src/household/decision.ts';
import { standingPlan } from '../../../src/planning/answer/standing-plan.ts';
import type { PlannedWeek } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import type { StoredPlan, StoredResult } from '../../../src/planning/stored-plan.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';
import { purchasesOf } from './buying.ts';

/** The plan that was kept last, whatever the clock said then; null before the first. */
export async function newestPlan(db: Database, householdId: HouseholdId): Promise<StoredPlan | null> {
  const row = await db
    .selectFrom('plan')
    .innerJoin('household', 'household.id', 'plan.household_id')
    .where('plan.household_id', '=', householdId)
    .orderBy('plan.seq', 'desc')
    .orderBy('plan.made_at', 'desc')
    .orderBy('plan.id', 'desc')
    .select([
      'plan.id',
      'plan.as_of',
      'plan.made_at',
      'plan.facts_version',
      'plan.input_json',
      'plan.result_json',
      'household.facts_version as newest_facts',
    ])
    .executeTakeFirst();
  if (!row) return null;
  const kept = JSON.parse(row.result_json) as StoredResult;
  return {
    id: row.id,
    asOf: row.as_of as CalendarDate,
    madeAt: row.made_at,
    ...kept,
    // Plans kept before rungs were proven have none.
    plan: { ...kept.plan, rungs: kept.plan.rungs ?? [] },
    year: JSON.parse(row.input_json) as PlanningYear,
    isOutOfDate: row.newest_facts > row.facts_version,
  };
}

/** The newest plan without what was written down, bought, skipped, ruled out or moved since it was made; null before the first. */
export async function standingPlanOf(db: Database, householdId: HouseholdId): Promise<StoredPlan | null> {
  const newest = await newestPlan(db, householdId);
  if (newest === null) return null;
  const [decisions, purchases] = await Promise.all([
    decisionsOf(db, householdId),
    purchasesOf(db, householdId, newest.year.weeks[0]),
  ]);
  return standingPlan(newest, decisions, purchases);
}

/** Weeks as the newest plan made on a day or before it had them; none before the first. */
export async function weeksPlannedBy(
  db: Database,
  householdId: HouseholdId,
  day: CalendarDate,
): Promise<readonly PlannedWeek[]> {
  const row = await db
    .selectFrom('plan')
    .select('result_json')
    .where('household_id', '=', householdId)
    .where('as_of', '<=', day)
    .orderBy('seq', 'desc')
    .orderBy('made_at', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst();
  return row === undefined ? [] : (JSON.parse(row.result_json) as StoredResult).plan.weeks;
}

/** What a person pinned, ruled out or has done, by week. */
export async function decisionsOf(db: Database, householdId: HouseholdId): Promise<readonly BatchDecision[]> {
  const rows = await db
    .selectFrom('kept')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('week')
    .orderBy('recipe_id')
    .execute();
  return fittingRows('kept', rows).map((row) => {
    const place = { recipeId: row.recipe_id as RecipeId, week: row.week as WeekKey };
    return row.decision === 'ruled-out'
      ? { ...place, decision: row.decision }
      : { ...place, decision: row.decision, batches: row.batches ?? 0 };
  });
}
