import type { Database } from '../database/database.ts';
import { newToken, tokenHash } from './tokens.ts';

/** So long somebody whose passphrase was right has for the second factor. */
export const halfSignInLastsMs = 10 * 60_000;

/** The passphrase was right; answers the token under which the second factor is waited for. */
export async function beginHalfSignIn(db: Database, personId: string, now: number): Promise<string> {
  const token = newToken();
  await db.transaction().execute(async (trx) => {
    await trx.deleteFrom('half_sign_in').where('expires_at', '<=', now).execute();
    await trx
      .insertInto('half_sign_in')
      .values({ token_hash: tokenHash(token), person_id: personId, expires_at: now + halfSignInLastsMs })
      .execute();
  });
  return token;
}

/** Whose second factor is waited for; null when it took too long or never began. */
export async function halfSignInOf(
  db: Database,
  token: string,
  now: number,
): Promise<{ readonly personId: string; readonly name: string } | null> {
  const row = await db
    .selectFrom('half_sign_in')
    .innerJoin('person', 'person.id', 'half_sign_in.person_id')
    .select(['person.id', 'person.name'])
    .where('half_sign_in.token_hash', '=', tokenHash(token))
    .where('half_sign_in.expires_at', '>', now)
    .executeTakeFirst();
  return row ? { personId: row.id, name: row.name } : null;
}

export const endHalfSignIn = (db: Database, token: string) =>
  db.deleteFrom('half_sign_in').where('token_hash', '=', tokenHash(token)).execute();
