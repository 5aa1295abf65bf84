import type { HouseholdId } from '../../shared/ids.ts';
import type { BatchResult } from '../../src/household/batch-result.ts';
import type { CanningSession } from '../../src/household/session.ts';
import type { Database } from '../database/database.ts';
import { batchResultsOf } from '../queries/canning/batch-results.ts';
import { canningSessionsOf } from '../queries/canning/canning-sessions.ts';
import { preparationsOf } from './preparations.ts';

/** Canning days begun, and what came of their loads. */
export interface SessionFacts {
  readonly sessions: readonly CanningSession[];
  readonly results: readonly BatchResult[];
}

export async function sessionFacts(db: Database, householdId: HouseholdId): Promise<SessionFacts> {
  const [sessions, results] = await Promise.all([
    canningSessionsOf(db, householdId),
    batchResultsOf(db, householdId),
  ]);
  return { sessions, results };
}

/** What was done at the stove: canning days begun, loads and stages written down, what came of them. */
export async function stoveFacts(db: Database, householdId: HouseholdId) {
  const [done, preparations] = await Promise.all([
    sessionFacts(db, householdId),
    preparationsOf(db, householdId),
  ]);
  return { ...done, preparations };
}
