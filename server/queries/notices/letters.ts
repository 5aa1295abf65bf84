import { sql } from 'kysely';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { Database, Writing } from '../../database/database.ts';

/** Where a household's letters go, and which. */
export interface MailWish {
  readonly address: string;
  readonly weekly: boolean;
  /** 1 = Monday to 7 = Sunday. */
  readonly weekday: number;
  readonly urgent: boolean;
  /** Somebody at the address said that letters may come; otherwise none is sent. */
  readonly isConfirmed: boolean;
}

/** Null while nobody asked for letters: then none are written. */
export async function mailWish(db: Database, householdId: HouseholdId): Promise<MailWish | null> {
  const row = await db
    .selectFrom('mail_wish')
    .selectAll()
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  return row
    ? {
        address: row.address,
        weekly: row.weekly === 1,
        weekday: row.weekday,
        urgent: row.urgent === 1,
        isConfirmed: row.confirmed_at !== null,
      }
    : null;
}

/** The address that is asked whether letters may come there; null when none waits. */
export async function addressToConfirm(
  db: Database,
  householdId: HouseholdId,
): Promise<{ readonly id: string; readonly address: string } | null> {
  const row = await db
    .selectFrom('mail_confirmation')
    .select(['id', 'address'])
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  return row ?? null;
}

/** A household that letters may go to, or that asks an address whether they may. */
export interface WithMail {
  readonly id: HouseholdId;
  /** Changes with what its letters speak of, and with which it wants. */
  readonly mark: string;
  /** An address waits to be asked. */
  readonly asks: boolean;
}

export async function householdsWithMail(db: Database): Promise<readonly WithMail[]> {
  const rows = await db
    .selectFrom('mail_wish')
    .innerJoin('household', 'household.id', 'mail_wish.household_id')
    .select(['household.id', 'household.facts_version', 'household.time_zone'])
    .select(['mail_wish.address', 'mail_wish.weekly', 'mail_wish.weekday', 'mail_wish.urgent'])
    .where('mail_wish.confirmed_at', 'is not', null)
    .execute();
  const asking = await db.selectFrom('mail_confirmation').select('household_id').execute();
  const asks = new Set(asking.map(({ household_id }) => household_id));
  const written = rows.map(({ id, ...said }) => ({
    id: id as HouseholdId,
    mark: JSON.stringify(Object.values(said)),
    asks: asks.has(id),
  }));
  const known = new Set(rows.map(({ id }) => id));
  return [
    ...written,
    ...[...asks]
      .filter((id) => !known.has(id))
      .map((id) => ({ id: id as HouseholdId, mark: '', asks: true })),
  ];
}

export interface Letter {
  readonly id: string;
  readonly about: string;
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

/** So often a letter is tried; then it is given up, and the next one tells what it would have told. */
const mostLetterTries = 7;

/** What the job that sends a letter is about. */
export const letterSubject = (householdId: string, letterId: string): string => `${householdId} ${letterId}`;

/** The last letters, newest first. */
export async function letters(
  db: Database,
  householdId: HouseholdId,
  howMany: number,
): Promise<readonly Letter[]> {
  const rows = await lettersOf(db, householdId)
    .orderBy('letter.seq', 'desc')
    .orderBy('written_at', 'desc')
    .orderBy('id')
    .limit(howMany)
    .execute();
  return rows.map(fromRow);
}

/** Null when there is none of that id. */
export async function letterById(
  db: Database,
  householdId: HouseholdId,
  letterId: string,
): Promise<Letter | null> {
  const row = await lettersOf(db, householdId).where('letter.id', '=', letterId).executeTakeFirst();
  return row ? fromRow(row) : null;
}

const lettersOf = (db: Database, householdId: HouseholdId) =>
  db
    .selectFrom('letter')
    .leftJoin('job', (join) =>
      join
        .onRef('job.household_id', '=', 'letter.household_id')
        .on('job.kind', '=', 'letter')
        .on('job.subject', '=', sql<string>`letter.household_id || ' ' || letter.id`),
    )
    .where('letter.household_id', '=', householdId)
    .select([
      'letter.id',
      'letter.about',
      'letter.recipient',
      'letter.subject',
      'letter.plain',
      'letter.html',
      'letter.notices_json',
      'letter.written_at',
      'letter.sent_at',
      'job.attempts',
      'job.due_at',
      'job.finished_at',
      'job.failure',
    ]);

type LetterRow = Awaited<ReturnType<ReturnType<typeof lettersOf>['execute']>>[number];

const fromRow = (row: LetterRow): Letter => ({
  id: row.id,
  about: row.about,
  recipient: row.recipient,
  subject: row.subject,
  plain: row.plain,
  html: row.html,
  noticeIds: JSON.parse(row.notices_json) as string[],
  writtenAt: row.written_at,
  attempts: row.attempts ?? 0,
  tryAt: row.finished_at === null && (row.attempts ?? mostLetterTries) < mostLetterTries ? row.due_at : null,
  failure: row.failure,
  sentAt: row.sent_at,
});

/** So many letters in a day to try an address, and so many to ask one whether letters may come. */
export const mostTrialsADay = 3;
const dayMs = 24 * 60 * 60_000;

/** How many letters of that kind were written in the last day, to whichever address. */
export async function lettersOfADay(
  db: Database | Writing,
  householdId: HouseholdId,
  kind: 'trial' | 'confirm',
  at: number,
): Promise<number> {
  const { n } = await db
    .selectFrom('letter')
    .select((row) => row.fn.countAll<number>().as('n'))
    .where('household_id', '=', householdId)
    .where('about', 'like', `${kind} %`)
    .where('written_at', '>', at - dayMs)
    .executeTakeFirstOrThrow();
  return n;
}

/** Whether a letter about this was written before. */
export const isWritten = async (db: Database, householdId: HouseholdId, about: string): Promise<boolean> =>
  (await db
    .selectFrom('letter')
    .select('id')
    .where('household_id', '=', householdId)
    .where('about', '=', about)
    .executeTakeFirst()) !== undefined;
