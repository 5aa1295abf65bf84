import type { HouseholdId } from '../../shared/ids.ts';
import type { Database } from '../database/database.ts';
import type { Role } from './roles.ts';
import { newToken, tokenHash } from './tokens.ts';

const minute = 60_000;
const day = 24 * 60 * minute;

/** A sign-in ends after so long without a page, and after so long in any case; beyond so many the least used ends. */
export const signInLimits = { idleMs: 14 * day, wholeMs: 60 * day, perPerson: 20 } as const;
/** Being seen is written down at most this often, so that looking at pages does not write all the time. */
const seenEveryMs = 10 * minute;

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly roleIn: ReadonlyMap<HouseholdId, Role>;
  /** Which of the person's sign-ins this is. */
  readonly signIn: string;
}

/** Who holds the token, if the sign-in still stands. */
export async function personOf(db: Database, token: string, now: number): Promise<Person | null> {
  const token_hash = tokenHash(token);
  const row = await db
    .selectFrom('sign_in')
    .innerJoin('person', 'person.id', 'sign_in.person_id')
    .select(['person.id', 'person.name', 'sign_in.seen_at'])
    .where('sign_in.token_hash', '=', token_hash)
    .where('sign_in.seen_at', '>', now - signInLimits.idleMs)
    .where('sign_in.began_at', '>', now - signInLimits.wholeMs)
    .executeTakeFirst();
  if (!row) return null;
  if (now - row.seen_at > seenEveryMs)
    await db.updateTable('sign_in').set({ seen_at: now }).where('token_hash', '=', token_hash).execute();
  const memberships = await db
    .selectFrom('membership')
    .select(['household_id', 'role'])
    .where('person_id', '=', row.id)
    .execute();
  return {
    id: row.id,
    name: row.name,
    roleIn: new Map(memberships.map(({ household_id, role }) => [household_id as HouseholdId, role])),
    signIn: token_hash,
  };
}

/** A new token for the person; an earlier one of the same browser stops to work. Old sign-ins are swept out. */
export async function beginSignIn(
  db: Database,
  personId: string,
  now: number,
  from: { readonly earlier?: string | undefined; readonly device?: string } = {},
): Promise<string> {
  const token = newToken();
  await db.transaction().execute(async (trx) => {
    if (from.earlier !== undefined)
      await trx.deleteFrom('sign_in').where('token_hash', '=', tokenHash(from.earlier)).execute();
    await trx
      .deleteFrom('sign_in')
      .where((row) =>
        row.or([
          row('seen_at', '<=', now - signInLimits.idleMs),
          row('began_at', '<=', now - signInLimits.wholeMs),
        ]),
      )
      .execute();
    const kept = await trx
      .selectFrom('sign_in')
      .select('token_hash')
      .where('person_id', '=', personId)
      .orderBy('seen_at', 'desc')
      .execute();
    const tooMany = kept.slice(signInLimits.perPerson - 1).map(({ token_hash }) => token_hash);
    if (tooMany.length > 0) await trx.deleteFrom('sign_in').where('token_hash', 'in', tooMany).execute();
    await trx
      .insertInto('sign_in')
      .values({
        token_hash: tokenHash(token),
        person_id: personId,
        began_at: now,
        seen_at: now,
        device: from.device ?? '',
      })
      .execute();
  });
  return token;
}

/** The same sign-in under a new token; the one before opens nothing any more. Null when it has ended. */
export async function renewSignIn(db: Database, earlier: string): Promise<string | null> {
  const token = newToken();
  const renewed = await db
    .updateTable('sign_in')
    .set({ token_hash: tokenHash(token) })
    .where('token_hash', '=', tokenHash(earlier))
    .executeTakeFirst();
  return renewed.numUpdatedRows === 1n ? token : null;
}

export interface SignIn {
  /** Names the sign-in; opens nothing. */
  readonly id: string;
  readonly device: string;
  readonly beganAt: number;
  readonly seenAt: number;
}

/** The sign-ins of a person that still stand, the last used first. */
export async function signInsOf(db: Database, personId: string, now: number): Promise<readonly SignIn[]> {
  const rows = await db
    .selectFrom('sign_in')
    .selectAll()
    .where('person_id', '=', personId)
    .where('seen_at', '>', now - signInLimits.idleMs)
    .where('began_at', '>', now - signInLimits.wholeMs)
    .orderBy('seen_at', 'desc')
    .orderBy('token_hash')
    .execute();
  return rows.map((row) => ({
    id: row.token_hash,
    device: row.device,
    beganAt: row.began_at,
    seenAt: row.seen_at,
  }));
}

export const endSignIn = (db: Database, token: string) =>
  db.deleteFrom('sign_in').where('token_hash', '=', tokenHash(token)).execute();

export const endSignInsOf = (db: Database, personId: string) =>
  db.deleteFrom('sign_in').where('person_id', '=', personId).execute();

/** Ends those sign-ins of the person; those of others are left alone. Answers how many ended. */
export async function endChosenSignIns(
  db: Database,
  personId: string,
  ids: readonly string[],
): Promise<number> {
  if (ids.length === 0) return 0;
  const ended = await db
    .deleteFrom('sign_in')
    .where('person_id', '=', personId)
    .where('token_hash', 'in', ids)
    .executeTakeFirst();
  return Number(ended.numDeletedRows);
}
