import type { HouseholdId, RecipeId } from '../../shared/ids.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { KeptDecision, PlanningYear } from '../../src/planning/planning-year.ts';
import type { Database } from '../database/database.ts';

export interface KeptPlan {
  readonly id: string;
  readonly asOf: CalendarDate;
  readonly madeAt: number;
  readonly plan: Plan;
  /** What the planner looked at when it made this plan. */
  readonly year: PlanningYear;
  /** Facts have been written since. */
  readonly isOutOfDate: boolean;
}

/** The last good plan; null before the first. */
export async function newestPlan(db: Database, householdId: HouseholdId): Promise<KeptPlan | null> {
  const row = await db
    .selectFrom('plan')
    .innerJoin('household', 'household.id', 'plan.household_id')
    .where('plan.household_id', '=', householdId)
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
  return {
    id: row.id,
    asOf: row.as_of as CalendarDate,
    madeAt: row.made_at,
    plan: JSON.parse(row.result_json) as Plan,
    year: JSON.parse(row.input_json) as PlanningYear,
    isOutOfDate: row.newest_facts > row.facts_version,
  };
}

/** What a person pinned, ruled out or has done, by week. */
export async function keptDecisions(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly KeptDecision[]> {
  const rows = await db
    .selectFrom('kept')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('week')
    .orderBy('recipe_id')
    .execute();
  return rows.map((row) => {
    const place = { recipeId: row.recipe_id as RecipeId, week: row.week as WeekKey };
    return row.decision === 'ruled-out'
      ? { ...place, decision: row.decision }
      : { ...place, decision: row.decision, batches: row.batches ?? 0 };
  });
}
