import { found, type Outcome } from '../../shared/problems.ts';
import type { Database, Writing } from '../database/database.ts';
import { refuse } from './members.ts';
import { hashPassphrase } from './passphrase.ts';
import { newToken, tokenHash } from './tokens.ts';

/** A link to a new passphrase works for an hour, once. */
const resetLastsMs = 60 * 60_000;

/** A new passphrase ends every sign-in of the person and every open link to a new one. */
export async function changePassphrase(
  db: Database,
  personId: string,
  passphrase: string,
): Promise<Outcome<true>> {
  const hash = await hashPassphrase(passphrase, await namesAround(db, personId));
  if (!hash.ok) return hash;
  await db.transaction().execute((trx) => setHash(trx, personId, hash.value));
  return found(true);
}

async function setHash(trx: Writing, personId: string, passphrase_hash: string): Promise<void> {
  await trx.updateTable('person').set({ passphrase_hash }).where('id', '=', personId).execute();
  await trx.deleteFrom('sign_in').where('person_id', '=', personId).execute();
  await trx.deleteFrom('half_sign_in').where('person_id', '=', personId).execute();
  await trx.deleteFrom('passphrase_reset').where('person_id', '=', personId).execute();
}

/** The person's name and those of the households the person belongs to. */
async function namesAround(db: Database, personId: string): Promise<readonly string[]> {
  const person = await db.selectFrom('person').select('name').where('id', '=', personId).execute();
  const households = await db
    .selectFrom('membership')
    .innerJoin('household', 'household.id', 'membership.household_id')
    .select('household.name')
    .where('membership.person_id', '=', personId)
    .execute();
  return [...person, ...households].map(({ name }) => name);
}

/** A link to a new passphrase for somebody who forgot it; answers the token, which is kept nowhere. Ends every sign-in. */
export async function offerReset(
  db: Database,
  name: string,
  now: number,
): Promise<Outcome<{ readonly token: string; readonly personId: string }>> {
  const person = await db.selectFrom('person').select('id').where('name', '=', name).executeTakeFirst();
  if (!person)
    return refuse(
      'person-unknown',
      'name',
      `Expected the name somebody signs in with; nobody here is called “${name}”. Look at the spelling.`,
    );
  const token = newToken();
  await db.transaction().execute(async (trx) => {
    await trx.deleteFrom('passphrase_reset').where('person_id', '=', person.id).execute();
    await trx.deleteFrom('sign_in').where('person_id', '=', person.id).execute();
    await trx
      .insertInto('passphrase_reset')
      .values({ person_id: person.id, token_hash: tokenHash(token), expires_at: now + resetLastsMs })
      .execute();
  });
  return found({ token, personId: person.id });
}

/** Whose passphrase an unused link is for; null when it was used, has expired or never was. */
export async function resetOf(
  db: Database,
  token: string,
  now: number,
): Promise<{ readonly personId: string; readonly name: string } | null> {
  const row = await db
    .selectFrom('passphrase_reset')
    .innerJoin('person', 'person.id', 'passphrase_reset.person_id')
    .select(['person.id', 'person.name'])
    .where('passphrase_reset.token_hash', '=', tokenHash(token))
    .where('passphrase_reset.expires_at', '>', now)
    .executeTakeFirst();
  return row ? { personId: row.id, name: row.name } : null;
}

/** Sets the passphrase a link asks for. A link works once; a second factor stays as it is. */
export async function resetPassphrase(
  db: Database,
  token: string,
  passphrase: string,
  now: number,
): Promise<Outcome<{ readonly personId: string }>> {
  const gone = () =>
    refuse('reset-used', '', 'Expected a link that has not been used; this one has been. Ask for a new one.');
  const asked = await resetOf(db, token, now);
  if (asked === null) return gone();
  const hash = await hashPassphrase(passphrase, await namesAround(db, asked.personId));
  if (!hash.ok) return hash;
  return db.transaction().execute(async (trx) => {
    const still = await resetOf(trx, token, now);
    if (still === null) return gone();
    await setHash(trx, still.personId, hash.value);
    return found({ personId: still.personId });
  });
}
