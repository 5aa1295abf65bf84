import type { HouseholdId } from '../../../shared/ids.ts';
import { asDate, type CalendarDate } from '../../../shared/week.ts';
import type { Database } from '../../database/database.ts';
import type { JobTable } from '../../database/tables.ts';

/** What a job of the whole file is about. */
export const wholeFile = 'file';

/** What the program does by itself, and a household may look back on. */
export type KindOnRecord = Exclude<JobTable['kind'], 'plan' | 'question'>;
const kindsOnRecord: readonly KindOnRecord[] = ['notices', 'replan', 'backup', 'letter'];

export interface JobOnRecord {
  readonly seq: number;
  readonly kind: KindOnRecord;
  readonly forOn: CalendarDate;
  readonly attempts: number;
  readonly finishedAt: number | null;
  readonly failure: string | null;
}

/** The latest jobs of a household and of the file it lives in. */
export async function jobsOf(
  db: Database,
  householdId: HouseholdId,
  latest = 60,
): Promise<readonly JobOnRecord[]> {
  const rows = await db
    .selectFrom('job')
    .select(['seq', 'kind', 'for_on', 'attempts', 'finished_at', 'failure'])
    .where((row) => row.or([row('household_id', '=', householdId), row('household_id', 'is', null)]))
    .where('kind', 'in', [...kindsOnRecord])
    .orderBy('seq', 'desc')
    .limit(latest)
    .execute();
  return rows.map((row) => ({
    seq: row.seq,
    kind: row.kind as KindOnRecord,
    forOn: asDate(row.for_on),
    attempts: row.attempts,
    finishedAt: row.finished_at,
    failure: row.failure,
  }));
}
