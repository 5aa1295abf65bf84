import type { HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { NoticeKind } from '../../../src/notices/notice.ts';
import type { Database } from '../../database/database.ts';
import { letters } from './letters.ts';

export interface UntoldNotice {
  readonly id: string;
  readonly kind: NoticeKind;
  readonly reason: string;
  readonly dueOn: CalendarDate | null;
  readonly changedAt: number;
}

/** A letter waits at most some days for its tries; among the last so many are all that wait. */
const lettersLookedAt = 100;

/** Open notices that no letter has told since they last changed, and none in the tray is about to, soonest first. */
export async function noticesToTell(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly UntoldNotice[]> {
  const [rows, written] = await Promise.all([
    db
      .selectFrom('notice')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('state', '=', 'open')
      .where((row) => row.or([row('sent_at', 'is', null), row('sent_at', '<', row.ref('changed_at'))]))
      .orderBy('due_on')
      .orderBy('kind')
      .orderBy('subject')
      .execute(),
    letters(db, householdId, lettersLookedAt),
  ]);
  const inTray = new Map(
    written
      .filter(({ sentAt, tryAt }) => sentAt === null && tryAt !== null)
      .flatMap(({ noticeIds, writtenAt }) => noticeIds.map((id) => [id, writtenAt] as const)),
  );
  return rows
    .filter((row) => (inTray.get(row.id) ?? Number.NEGATIVE_INFINITY) < row.changed_at)
    .map((row) => ({
      id: row.id,
      kind: row.kind as NoticeKind,
      reason: row.reason,
      dueOn: row.due_on as CalendarDate | null,
      changedAt: row.changed_at,
    }));
}
