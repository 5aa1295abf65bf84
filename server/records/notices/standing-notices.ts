import type { HouseholdId } from '../../../shared/ids.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Moment } from '../../clock.ts';
import type { Database } from '../../database/database.ts';
import { type NoticeOnRecord, standingNotices } from '../../queries/notices/notices.ts';
import { type YearPicture, yearPicture } from '../../year/year-picture.ts';
import { keepNotices } from './notices.ts';

/** Pictures whose notices have been kept. A picture is made anew when a fact, the plan or the date has changed. */
const kept = new WeakSet<YearPicture>();

/** The notices that stand now: those on record, brought in line with the picture of the year when that has changed. */
export const noticesNow = async (
  db: Database,
  householdId: HouseholdId,
  moment: Moment,
  reference: ReferenceTables,
): Promise<readonly NoticeOnRecord[]> =>
  noticesBy(await yearPicture(db, householdId, moment.today, reference), db, householdId, moment);

/** The same by a picture that is at hand. */
export async function noticesBy(
  picture: YearPicture,
  db: Database,
  householdId: HouseholdId,
  moment: Moment,
): Promise<readonly NoticeOnRecord[]> {
  if (!kept.has(picture)) {
    await keepNotices(db, householdId, picture.notices, moment);
    kept.add(picture);
  }
  return standingNotices(db, householdId);
}
