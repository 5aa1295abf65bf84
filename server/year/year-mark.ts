import { sql } from 'kysely';
import type { HouseholdId } from '../../shared/ids.ts';
import type { Database } from '../database/database.ts';

/**
 * Another text whenever something changed that the picture of a household's year is made of, its date apart: the facts, what is written
 * down of its jars (an open one that was finished is no fact of a plan), the plan,
 * what is done at the stove (which is no fact of a plan), what is told of and when, upkeep, and the clock of the machine. One
 * statement, since nearly every page asks for it.
 */
export async function yearMark(db: Database, householdId: HouseholdId): Promise<string> {
  const { rows } = await sql<{ readonly mark: string }>`
    SELECT 'facts ' || facts_version || ' ' || says_who_took AS mark FROM household WHERE id = ${householdId}
    UNION ALL SELECT 'book ' || coalesce(max(seq), 0) FROM jar_event WHERE household_id = ${householdId}
    UNION ALL SELECT 'plan ' || id FROM
      (SELECT id FROM plan WHERE household_id = ${householdId} ORDER BY seq DESC, made_at DESC, id DESC LIMIT 1) AS newest
    UNION ALL SELECT 'days ' || session_on || setting_json || work_json FROM
      (SELECT * FROM canning_session WHERE household_id = ${householdId} ORDER BY session_on DESC LIMIT 14) AS last
    UNION ALL SELECT 'ticks ' || count(*) || ' ' || coalesce(sum(ticked_at), 0) FROM session_tick WHERE household_id = ${householdId}
    UNION ALL SELECT 'clocks ' || coalesce(max(seq), 0) FROM load_clock_event WHERE household_id = ${householdId}
    UNION ALL SELECT 'seals ' || count(*) || ' ' || coalesce(sum(checked_at), 0) FROM seal_check WHERE household_id = ${householdId}
    UNION ALL SELECT 'told ' || kind || ' ' || coalesce(cast(days AS text), 'never') FROM notice_lead WHERE household_id = ${householdId}
    UNION ALL SELECT 'task ' || id || ' ' || name || ' ' || every_months || ' ' || coalesce(canner_id, '') || ' ' || coalesce(device, '')
      FROM upkeep_task WHERE household_id = ${householdId} AND retired_on IS NULL
    UNION ALL SELECT 'done ' || id FROM upkeep_event WHERE household_id = ${householdId} AND undone_at IS NULL
    UNION ALL SELECT 'jump ' || coalesce(max(seq), 0) FROM clock_jump`.execute(db);
  return rows
    .map(({ mark }) => mark)
    .sort()
    .join(' ');
}
