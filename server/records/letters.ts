import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../shared/ids.ts';
import type { Database } from '../database/database.ts';
import type { Letter } from '../queries/letters.ts';

export interface NewLetter {
  /** What it is about: a second letter about the same is not written. */
  readonly about: string;
  readonly recipient: string;
  readonly subject: string;
  readonly plain: string;
  readonly html: string;
  readonly noticeIds: readonly string[];
}

/** Puts a letter into the tray to be sent; one about the same is left as it is. */
export async function writeLetter(
  db: Database,
  householdId: HouseholdId,
  letter: NewLetter,
  at: number,
): Promise<void> {
  await db
    .insertInto('letter')
    .values({
      household_id: householdId,
      id: randomUUID(),
      about: letter.about,
      recipient: letter.recipient,
      subject: letter.subject,
      plain: letter.plain,
      html: letter.html,
      notices_json: JSON.stringify(letter.noticeIds),
      written_at: at,
      try_at: at,
      failure: null,
      sent_at: null,
    })
    .onConflict((same) => same.columns(['household_id', 'about']).doNothing())
    .execute();
}

/** The letter has gone; its notices have been told, until they change. */
export const letterSent = (
  db: Database,
  householdId: HouseholdId,
  letter: Letter,
  at: number,
): Promise<void> =>
  db.transaction().execute(async (trx) => {
    await trx
      .updateTable('letter')
      .set({ sent_at: at, try_at: null, failure: null, attempts: letter.attempts + 1 })
      .where('household_id', '=', householdId)
      .where('id', '=', letter.id)
      .execute();
    if (letter.noticeIds.length === 0) return;
    await trx
      .updateTable('notice')
      .set({ sent_at: letter.writtenAt })
      .where('household_id', '=', householdId)
      .where('id', 'in', [...letter.noticeIds])
      .execute();
  });

const minute = 60_000;
/** Waits between tries; after the last the letter is given up, and the next one tells what it would have told. */
const waits = [5, 15, 60, 240, 720, 1440].map((minutes) => minutes * minute);

/** The letter could not be sent: it is tried again, later and later, and the failure is kept to be shown. */
export async function letterFailed(
  db: Database,
  householdId: HouseholdId,
  letter: Letter,
  failure: string,
  at: number,
): Promise<void> {
  const wait = waits[letter.attempts];
  await db
    .updateTable('letter')
    .set({
      attempts: letter.attempts + 1,
      failure: failure.slice(0, 300),
      try_at: wait === undefined ? null : at + wait,
    })
    .where('household_id', '=', householdId)
    .where('id', '=', letter.id)
    .execute();
}
