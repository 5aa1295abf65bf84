import type { HouseholdId } from '../../../shared/ids.ts';
import {
  defaultNoticeSettings,
  type NoticeKind,
  type NoticeSettings,
  noticeKinds,
} from '../../../src/notices/notice.ts';
import type { Database } from '../../database/database.ts';

/** From when on each kind of notice is given: as the household said, else as usual. */
export async function noticeSettingsOf(db: Database, householdId: HouseholdId): Promise<NoticeSettings> {
  const rows = await db
    .selectFrom('notice_lead')
    .select(['kind', 'days'])
    .where('household_id', '=', householdId)
    .execute();
  const said = new Map(rows.map((row) => [row.kind, row.days]));
  return {
    leadDays: Object.fromEntries(
      noticeKinds.map((kind) => [
        kind,
        said.has(kind) ? (said.get(kind) ?? null) : defaultNoticeSettings.leadDays[kind],
      ]),
    ) as Readonly<Record<NoticeKind, number | null>>,
  };
}
