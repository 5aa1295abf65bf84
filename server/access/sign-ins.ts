import type { HouseholdId } from '../../shared/ids.ts';
import type { Database } from '../database/database.ts';
import { isPassphrase } from './passphrase.ts';
import type { Role } from './roles.ts';
import { newToken, tokenHash } from './tokens.ts';

const minute = 60_000;
const day = 24 * 60 * minute;

/** A sign-in ends after so long without a page, and after so long in any case. */
export const signInLimits = { idleMs: 14 * day, wholeMs: 60 * day } as const;
/** Failures within the window before an account or an address has to wait. */
export const failureLimits = { windowMs: 15 * minute, account: 8, address: 30 } as const;
/** Being seen is written down at most this often, so that looking at pages does not write all the time. */
const seenEveryMs = 10 * minute;

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly roleIn: ReadonlyMap<HouseholdId, Role>;
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
  };
}

/** A new token for the person; an earlier one of the same browser stops to work. Old sign-ins are swept out. */
export async function beginSignIn(
  db: Database,
  personId: string,
  now: number,
  earlier: string | undefined,
): Promise<string> {
  const token = newToken();
  await db.transaction().execute(async (trx) => {
    if (earlier !== undefined)
      await trx.deleteFrom('sign_in').where('token_hash', '=', tokenHash(earlier)).execute();
    await trx
      .deleteFrom('sign_in')
      .where((row) =>
        row.or([
          row('seen_at', '<=', now - signInLimits.idleMs),
          row('began_at', '<=', now - signInLimits.wholeMs),
        ]),
      )
      .execute();
    await trx
      .insertInto('sign_in')
      .values({ token_hash: tokenHash(token), person_id: personId, began_at: now, seen_at: now })
      .execute();
  });
  return token;
}

export const endSignIn = (db: Database, token: string) =>
  db.deleteFrom('sign_in').where('token_hash', '=', tokenHash(token)).execute();

export const endSignInsOf = (db: Database, personId: string) =>
  db.deleteFrom('sign_in').where('person_id', '=', personId).execute();

export type SignInAnswer =
  | { readonly answer: 'known'; readonly personId: string }
  | { readonly answer: 'unknown' | 'wait' };

/** Checks a name and passphrase; too many failures make the account or the address wait, whether or not it exists. */
export async function checkSignIn(
  db: Database,
  said: { readonly name: string; readonly passphrase: string; readonly address: string },
  now: number,
): Promise<SignInAnswer> {
  const account = `account ${said.name.toLowerCase()}`;
  const address = `address ${said.address}`;
  const since = now - failureLimits.windowMs;
  await db.deleteFrom('sign_in_failure').where('failed_at', '<=', since).execute();
  const failuresOf = async (subject: string): Promise<number> => {
    const { n } = await db
      .selectFrom('sign_in_failure')
      .select((row) => row.fn.countAll<number>().as('n'))
      .where('subject', '=', subject)
      .executeTakeFirstOrThrow();
    return n;
  };
  if (
    (await failuresOf(account)) >= failureLimits.account ||
    (await failuresOf(address)) >= failureLimits.address
  )
    return { answer: 'wait' };
  // Counted before the slow check, so that many at once cannot all slip through.
  const failures = await db
    .insertInto('sign_in_failure')
    .values([
      { subject: account, failed_at: now },
      { subject: address, failed_at: now },
    ])
    .returning('seq')
    .execute();
  const person = await db
    .selectFrom('person')
    .select(['id', 'passphrase_hash'])
    .where('name', '=', said.name)
    .executeTakeFirst();
  const known = await isPassphrase(person?.passphrase_hash ?? null, said.passphrase);
  if (!known || !person) return { answer: 'unknown' };
  await db
    .deleteFrom('sign_in_failure')
    .where(
      'seq',
      'in',
      failures.map(({ seq }) => seq),
    )
    .execute();
  return { answer: 'known', personId: person.id };
}
