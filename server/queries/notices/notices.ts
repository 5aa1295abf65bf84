import { compare } from '../../../shared/compare.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { NoticeKind } from '../../../src/notices/notice.ts';
import type { NoticeBefore } from '../../../src/notices/notice-changes.ts';
import type { Database } from '../../database/database.ts';

export interface NoticeOnRecord extends NoticeBefore {
  readonly id: string;
  readonly firstSeenAt: number;
  readonly changedAt: number;
}

/**
 * The newest record of each kind and subject, whatever became of it. One that is open is the newest; among the others the one
 * opened last is, whatever the clock said then.
 */
export async function noticesOnRecord(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly NoticeOnRecord[]> {
  const rows = await db
    .selectFrom('notice')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy((row) => row('state', 'in', ['open', 'snoozed']))
    .orderBy('seq')
    .orderBy('changed_at')
    .orderBy('first_seen_at')
    .execute();
  const newest = new Map(rows.map((row) => [`${row.kind} ${row.subject}`, row]));
  return [...newest.values()].map((row) => ({
    id: row.id,
    kind: row.kind as NoticeKind,
    subject: row.subject,
    reason: row.reason,
    dueOn: row.due_on as CalendarDate | null,
    about: JSON.parse(row.about_json) as string[],
    state: row.state,
    snoozedUntil: row.snoozed_until as CalendarDate | null,
    firstSeenAt: row.first_seen_at,
    changedAt: row.changed_at,
  }));
}

const byDate = (one: NoticeOnRecord, other: NoticeOnRecord): number =>
  compare(one.dueOn ?? '', other.dueOn ?? '') ||
  compare(one.kind, other.kind) ||
  compare(one.subject, other.subject);

/** Open and put-off notices: what has no date first (it matters until mended), then the soonest. */
export const standingNotices = async (
  db: Database,
  householdId: HouseholdId,
): Promise<readonly NoticeOnRecord[]> =>
  (await noticesOnRecord(db, householdId))
    .filter((notice) => notice.state === 'open' || notice.state === 'snoozed')
    .sort(byDate);
