import { sql } from 'kysely';
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

/** Another text whenever a canning day or a load on it changed: these are no facts of the plan and step no version. */
export async function stoveMark(db: Database, householdId: HouseholdId): Promise<string> {
  const { rows } = await sql<{ readonly mark: string }>`
    SELECT 'days ' || session_on || setting_json || work_json AS mark FROM
      (SELECT * FROM canning_session WHERE household_id = ${householdId} ORDER BY session_on DESC LIMIT 14) AS last
    UNION ALL SELECT 'ticks ' || count(*) || ' ' || coalesce(sum(ticked_at), 0) FROM session_tick WHERE household_id = ${householdId}
    UNION ALL SELECT 'clocks ' || coalesce(max(seq), 0) FROM load_clock_event WHERE household_id = ${householdId}
    UNION ALL SELECT 'seals ' || count(*) || ' ' || coalesce(sum(checked_at), 0) FROM seal_check WHERE household_id = ${householdId}`.execute(
    db,
  );
  return rows
    .map(({ mark }) => mark)
    .sort()
    .join(' ');
}
