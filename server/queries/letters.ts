import type { HouseholdId } from '../../shared/ids.ts';
import type { Database } from '../database/database.ts';

/** Where a household's letters go, and which. */
export interface MailWish {
  readonly address: string;
  readonly weekly: boolean;
  /** 1 = Monday to 7 = Sunday. */
  readonly weekday: number;
  readonly urgent: boolean;
}

/** Null while nobody asked for letters: then none are written. */
export async function mailWish(db: Database, householdId: HouseholdId): Promise<MailWish | null> {
  const row = await db
    .selectFrom('mail_wish')
    .selectAll()
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  return row
    ? { address: row.address, weekly: row.weekly === 1, weekday: row.weekday, urgent: row.urgent === 1 }
    : null;
}

export interface Letter {
  readonly id: string;
  readonly recipient: string;
  readonly subject: string;
  readonly plain: string;
  readonly html: string;
  readonly noticeIds: readonly string[];
  readonly writtenAt: number;
  readonly attempts: number;
  /** When it is tried next; null when it was sent or given up. */
  readonly tryAt: number | null;
  readonly failure: string | null;
  readonly sentAt: number | null;
}

/** The last letters, newest first. */
export async function letters(
  db: Database,
  householdId: HouseholdId,
  howMany: number,
): Promise<readonly Letter[]> {
  const rows = await db
    .selectFrom('letter')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('written_at', 'desc')
    .orderBy('id')
    .limit(howMany)
    .execute();
  return rows.map((row) => ({
    id: row.id,
    recipient: row.recipient,
    subject: row.subject,
    plain: row.plain,
    html: row.html,
    noticeIds: JSON.parse(row.notices_json) as string[],
    writtenAt: row.written_at,
    attempts: row.attempts,
    tryAt: row.try_at,
    failure: row.failure,
    sentAt: row.sent_at,
  }));
}

/** Letters whose time to be sent has come, oldest first. */
export async function lettersToSend(
  db: Database,
  householdId: HouseholdId,
  at: number,
): Promise<readonly Letter[]> {
  const all = await letters(db, householdId, 100);
  return all
    .filter(({ sentAt, tryAt }) => sentAt === null && tryAt !== null && tryAt <= at)
    .toSorted((one, other) => one.writtenAt - other.writtenAt);
}

/** Whether a letter about this was written before. */
export const isWritten = async (db: Database, householdId: HouseholdId, about: string): Promise<boolean> =>
  (await db
    .selectFrom('letter')
    .select('id')
    .where('household_id', '=', householdId)
    .where('about', '=', about)
    .executeTakeFirst()) !== undefined;
