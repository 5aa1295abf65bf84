import type { Database } from '../database/database.ts';
import { hashOf, isMadeOtherwise, isPassphrase } from './passphrase.ts';

/** Failures within the window before an account or an address has to wait. */
export const failureLimits = { windowMs: 15 * 60_000, account: 8, address: 30 } as const;

export type SignInAnswer =
  | { readonly answer: 'known'; readonly personId: string }
  /** `personId` is for the log only: answers are the same whether the name is known or not. */
  | { readonly answer: 'unknown' | 'wait'; readonly personId: string | null };

/** Checks a name and passphrase; too many failures make the account or the address wait, whether or not it exists. */
export async function checkSignIn(
  db: Database,
  said: { readonly name: string; readonly passphrase: string; readonly address: string },
  now: number,
): Promise<SignInAnswer> {
  const person = await db
    .selectFrom('person')
    .select(['id', 'passphrase_hash'])
    .where('name', '=', said.name)
    .executeTakeFirst();
  const personId = person?.id ?? null;
  const right = await guessed(db, said.name, said.address, now, () =>
    isPassphrase(person?.passphrase_hash ?? null, said.passphrase),
  );
  if (right === null) return { answer: 'wait', personId };
  if (!right || person === undefined) return { answer: 'unknown', personId };
  if (isMadeOtherwise(person.passphrase_hash)) await renewHash(db, person, said.passphrase);
  return { answer: 'known', personId: person.id };
}

/** Another way of hashing takes the place of the last one as people sign in; a passphrase changed meanwhile stays changed. */
async function renewHash(
  db: Database,
  { id, passphrase_hash: kept }: { readonly id: string; readonly passphrase_hash: string },
  passphrase: string,
): Promise<void> {
  await db
    .updateTable('person')
    .set({ passphrase_hash: await hashOf(passphrase) })
    .where('id', '=', id)
    .where('passphrase_hash', '=', kept)
    .execute();
}

/**
 * Holds a guess against the limits of the name and of the address: null while either has to wait, otherwise whether the
 * guess was right. A right one is taken back from the count.
 */
export async function guessed(
  db: Database,
  name: string,
  from: string,
  now: number,
  isRight: () => Promise<boolean>,
): Promise<boolean | null> {
  const account = `account ${name.toLowerCase()}`;
  const address = `address ${from}`;
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
    return null;
  // Counted before the slow check, so that many at once cannot all slip through.
  const failures = await db
    .insertInto('sign_in_failure')
    .values([
      { subject: account, failed_at: now },
      { subject: address, failed_at: now },
    ])
    .returning('seq')
    .execute();
  if (!(await isRight())) return false;
  await db
    .deleteFrom('sign_in_failure')
    .where(
      'seq',
      'in',
      failures.map(({ seq }) => seq),
    )
    .execute();
  return true;
}
