import type { HouseholdId } from '../../shared/ids.ts';
import type { Database } from '../database/database.ts';
import { batchResultsOf } from '../queries/canning/batch-results.ts';
import { canningSessionsOf } from '../queries/canning/canning-sessions.ts';
import { preparationsOf } from './preparations.ts';

/** What was done at the stove: canning days begun, loads and stages written down, what came of them. */
export async function stoveFacts(db: Database, householdId: HouseholdId) {
  const [sessions, results, prepared] = await Promise.all([
    canningSessionsOf(db, householdId),
    batchResultsOf(db, householdId),
    preparationsOf(db, householdId),
  ]);
  return { sessions, results, preparations: prepared };
}
