import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';
import type { Database, Writing } from '../database/database.ts';
import { refuse } from './members.ts';
import { hashPassphrase } from './passphrase.ts';
import { personNamed } from './people.ts';
import {
  type CodeTime,
  codeHash,
  endSecondFactor,
  hasSecondFactor,
  isSecondFactor,
  readableCode,
} from './second-factor.ts';
import type { SeedKeys } from './seed-keys.ts';
import { guessed, guessesAt } from './sign-in-check.ts';
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

export interface Offered {
  readonly token: string;
  readonly personId: string;
  /** What is asked for beside the link, in place of a second factor that is lost; null where it is not. */
  readonly secondCode: string | null;
}

/**
 * A link to a new passphrase for somebody who forgot it, and, where the second factor is lost too, a code to go another way than
 * the link: neither opens anything by itself. Both are kept nowhere. Ends every sign-in.
 */
export async function offerReset(
  db: Database,
  { name, withoutFactor }: { readonly name: string; readonly withoutFactor: boolean },
  now: number,
): Promise<Outcome<Offered>> {
  const person = await personNamed(db, name);
  if (!person)
    return refuse('person-unknown', 'name', `Nobody here is called “${name}”. Look at the spelling.`);
  const token = newToken();
  const secondCode = withoutFactor && (await hasSecondFactor(db, person.id)) ? readableCode() : null;
  await db.transaction().execute(async (trx) => {
    await trx.deleteFrom('passphrase_reset').where('person_id', '=', person.id).execute();
    await trx.deleteFrom('sign_in').where('person_id', '=', person.id).execute();
    await trx
      .insertInto('passphrase_reset')
      .values({
        person_id: person.id,
        token_hash: tokenHash(token),
        expires_at: now + resetLastsMs,
        second_code_hash: secondCode === null ? null : codeHash(secondCode),
      })
      .execute();
  });
  return found({ token, personId: person.id, secondCode });
}

/** What a link asks for beside a new passphrase: nothing, the second factor, or the code that stands in its place. */
export type SecondStep = 'none' | 'factor' | 'code';

export interface ResetAsked {
  readonly personId: string;
  readonly name: string;
  readonly second: SecondStep;
  /** Set where the second step is a code. */
  readonly codeHash: string | null;
}

/** Whose passphrase an unused link is for; null when it was used, has expired or never was. */
export async function resetOf(
  db: Database | Writing,
  token: string,
  now: number,
): Promise<ResetAsked | null> {
  const row = await db
    .selectFrom('passphrase_reset')
    .innerJoin('person', 'person.id', 'passphrase_reset.person_id')
    .select(['person.id', 'person.name', 'passphrase_reset.second_code_hash'])
    .where('passphrase_reset.token_hash', '=', tokenHash(token))
    .where('passphrase_reset.expires_at', '>', now)
    .executeTakeFirst();
  if (!row) return null;
  const hasFactor = await hasSecondFactor(db, row.id);
  const second = !hasFactor ? 'none' : row.second_code_hash === null ? 'factor' : 'code';
  return { personId: row.id, name: row.name, second, codeHash: row.second_code_hash };
}

export interface ResetSaid {
  readonly passphrase: string;
  /** A code of the second factor, or what was given beside the link. */
  readonly code: string;
  readonly address: string;
}

export interface ResetStore {
  readonly db: Database;
  readonly seedKeys: SeedKeys;
}

/**
 * Sets the passphrase a link asks for. A link works once, and is not enough for somebody with a second factor: that is asked
 * for too (OWASP ASVS 5.0.0, V6.4.3 and V6.4.4). Guesses at it are counted like those of a sign-in.
 */
export async function resetPassphrase(
  store: ResetStore,
  token: string,
  { passphrase, code, address }: ResetSaid,
  time: CodeTime,
): Promise<Outcome<{ readonly personId: string; readonly factorEnded: boolean }>> {
  const { db } = store;
  const asked = await resetOf(db, token, time.now);
  if (asked === null) return linkGone();
  const hash = await hashPassphrase(passphrase, await namesAround(db, asked.personId));
  if (!hash.ok) return hash;
  if (asked.second !== 'none') {
    const right = await guessed(db, guessesAt(asked.name, address), time.now, async () =>
      asked.second === 'code'
        ? codeHash(code) === asked.codeHash
        : (await isSecondFactor(store, asked.personId, code, time)) !== null,
    );
    if (right !== true) return refused(right === null ? guessesWait : otherCode(asked.second));
  }
  return db.transaction().execute(async (trx) => {
    const still = await resetOf(trx, token, time.now);
    if (still === null || still.second !== asked.second) return linkGone();
    if (still.second === 'code') await endSecondFactor(trx, still.personId);
    await setHash(trx, still.personId, hash.value);
    return found({ personId: still.personId, factorEnded: still.second === 'code' });
  });
}

const linkGone = (): Outcome<never> =>
  refuse('reset-used', '', 'This link has been used already. Ask for a new one.');

export const guessesWait: Problem = {
  code: 'sign-in-wait',
  path: [],
  message: 'Too many tries with this name or from this address. Wait a quarter of an hour, then try again.',
};

const otherCode = (second: SecondStep): Problem => ({
  code: 'code-wrong',
  path: ['code'],
  message:
    second === 'code'
      ? 'That is not the code you were given beside the link. Look at it and type it once more.'
      : 'That is neither the code your authenticator shows now nor a recovery code that was not used. Without both, ask whoever runs the program.',
});
