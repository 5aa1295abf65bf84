import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { Moment } from '../../clock.ts';
import type { Database, Writing } from '../../database/database.ts';
import { holdHousehold } from '../../database/hold-household.ts';
import { type Letter, letterById, letterSubject } from '../../queries/notices/letters.ts';
import { jobRow } from '../job-row.ts';
import { nextSeq } from '../next-seq.ts';
import { type Recording, refuse } from '../record.ts';

export interface NewLetter {
  /** What it is about: a second letter about the same is not written. */
  readonly about: string;
  readonly recipient: string;
  readonly subject: string;
  readonly plain: string;
  readonly html: string;
  readonly noticeIds: readonly string[];
}

/** Puts a letter into the tray with the job that sends it; one about the same is left as it is. False where there is no room for it. */
export const writeLetter = (
  db: Database,
  householdId: HouseholdId,
  letter: NewLetter,
  { at, today }: Moment,
  hasRoom: (trx: Writing) => Promise<boolean> = async () => true,
): Promise<boolean> =>
  db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    if (!(await hasRoom(trx))) return false;
    await putLetter(trx, householdId, letter, { at, today });
    return true;
  });

/** The same within a transaction. */
export async function putLetter(
  trx: Writing,
  householdId: HouseholdId,
  letter: NewLetter,
  { at, today }: Moment,
): Promise<void> {
  const id = randomUUID();
  const { numInsertedOrUpdatedRows } = await trx
    .insertInto('letter')
    .values({
      household_id: householdId,
      id,
      about: letter.about,
      recipient: letter.recipient,
      subject: letter.subject,
      plain: letter.plain,
      html: letter.html,
      notices_json: JSON.stringify(letter.noticeIds),
      written_at: at,
      sent_at: null,
      seq: nextSeq('letter', householdId),
    })
    .onConflict((same) => same.columns(['household_id', 'about']).doNothing())
    .executeTakeFirstOrThrow();
  if (numInsertedOrUpdatedRows !== 1n) return;
  await trx
    .insertInto('job')
    .values(
      jobRow(
        {
          kind: 'letter',
          subject: letterSubject(householdId, id),
          household: householdId,
          lane: 'soon',
          forOn: today,
          dueAt: at,
        },
        at,
      ),
    )
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
      .set({ sent_at: at })
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

/** A letter that waits or was given up is tried again at once, with all its tries before it. */
export async function tryLetterAgain(
  { db, householdId, at }: Pick<Recording, 'db' | 'householdId' | 'at'>,
  letterId: string,
): Promise<Outcome<{ readonly letterId: string }>> {
  const letter = await letterById(db, householdId, letterId);
  if (letter === null || letter.sentAt !== null)
    return refuse(
      'letter-not-waiting',
      'letter',
      'That letter does not wait to be sent; it may have gone meanwhile. Load the page again.',
    );
  await db
    .updateTable('job')
    .set({ due_at: at, turn_at: at, attempts: 0, lapses: 0, finished_at: null })
    .where('kind', '=', 'letter')
    .where('subject', '=', letterSubject(householdId, letterId))
    .execute();
  return found({ letterId });
}
