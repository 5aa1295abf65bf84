import type { HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { OldestPlan, StoredResult } from '../../../src/planning/stored-plan.ts';
import type { Database } from '../../database/database.ts';

/** The oldest plan still kept, to hold against what became of it; null before the first. */
export async function oldestPlan(db: Database, householdId: HouseholdId): Promise<OldestPlan | null> {
  const row = await db
    .selectFrom('plan')
    .select(['as_of', 'result_json'])
    .where('household_id', '=', householdId)
    .orderBy('seq')
    .orderBy('made_at')
    .orderBy('id')
    .executeTakeFirst();
  if (!row) return null;
  const { plan } = JSON.parse(row.result_json) as StoredResult;
  return { asOf: row.as_of as CalendarDate, plan };
}
