import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { NoticeKind } from '../../src/notices/notice.ts';
import type { Database } from '../database/database.ts';

export interface UntoldNotice {
  readonly id: string;
  readonly kind: NoticeKind;
  readonly reason: string;
  readonly dueOn: CalendarDate | null;
  readonly changedAt: number;
}

/** Open notices that no letter has told since they last changed, and none in the tray is about to, soonest first. */
export async function noticesToTell(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly UntoldNotice[]> {
  const [rows, waiting] = await Promise.all([
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
    db
      .selectFrom('letter')
      .select(['notices_json', 'written_at'])
      .where('household_id', '=', householdId)
      .where('sent_at', 'is', null)
      .where('try_at', 'is not', null)
      .execute(),
  ]);
  const inTray = new Map(
    waiting.flatMap((letter) =>
      (JSON.parse(letter.notices_json) as string[]).map((id) => [id, letter.written_at] as const),
    ),
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
