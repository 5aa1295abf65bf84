import type { Database } from '../database/database.ts';
import { engineOf } from '../database/engine-of.ts';
import { hashingHasRoom, TooManyPassphrases } from './hashing.ts';
import { countedAs } from './network.ts';
import { hashOf, isMadeOtherwise, isPassphrase } from './passphrase.ts';
import { type NamedPerson, personNamed } from './people.ts';

/** Failures within the window before an account, an address or somebody signed in who types the passphrase again has to wait. */
export const failureLimits = { windowMs: 15 * 60_000, account: 8, address: 30, present: 8 } as const;

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
  const person = await personNamed(db, said.name);
  return checked(db, person, said.passphrase, guessesAt(said.name, said.address), now);
}

/**
 * Checks the passphrase of somebody who is signed in. Guesses are counted for that sign-in alone: whoever guesses at the
 * name from elsewhere bars nobody from their own page.
 */
export async function checkPresent(
  db: Database,
  { id, signIn }: { readonly id: string; readonly signIn: string },
  passphrase: string,
  now: number,
): Promise<SignInAnswer> {
  const person = await db
    .selectFrom('person')
    .select(['id', 'passphrase_hash'])
    .where('id', '=', id)
    .executeTakeFirst();
  return checked(db, person ?? null, passphrase, guessesOfPresent({ signIn }), now);
}

/** A guess of somebody who is signed in, whichever it is at: counted for that sign-in alone. */
export const guessesOfPresent = ({ signIn }: { readonly signIn: string }): readonly Counted[] => [
  [`present ${signIn}`, failureLimits.present],
];

async function checked(
  db: Database,
  person: NamedPerson | null,
  passphrase: string,
  counted: readonly Counted[],
  now: number,
): Promise<SignInAnswer> {
  const personId = person?.id ?? null;
  const right = await guessed(db, counted, now, () =>
    isPassphrase(person?.passphrase_hash ?? null, passphrase),
  );
  if (right === null) return { answer: 'wait', personId };
  if (!right || person === null) return { answer: 'unknown', personId };
  if (isMadeOtherwise(person.passphrase_hash)) await renewHash(db, person, passphrase);
  return { answer: 'known', personId: person.id };
}

/** Another way of hashing takes the place of the last one as people sign in; a passphrase changed meanwhile stays changed. */
async function renewHash(
  db: Database,
  { id, passphrase_hash: kept }: NamedPerson,
  passphrase: string,
): Promise<void> {
  await db
    .updateTable('person')
    .set({ passphrase_hash: await hashOf(passphrase) })
    .where('id', '=', id)
    .where('passphrase_hash', '=', kept)
    .execute();
}

/** What a guess is counted under, and how many failures it may have. */
type Counted = readonly [subject: string, most: number];

/** A guess at a name from an address, whichever it is at: passphrase or code. */
export const guessesAt = (name: string, address: string): readonly Counted[] => [
  [`account ${name.toLowerCase()}`, failureLimits.account],
  [`address ${countedAs(address)}`, failureLimits.address],
];

/**
 * Holds a guess against the limits it is counted under: null while one of them has to wait, otherwise whether the guess was
 * right. A right one is taken back from the count. What failed in the future failed by a clock that was wrong.
 */
export async function guessed(
  db: Database,
  counted: readonly Counted[],
  now: number,
  isRight: () => Promise<boolean>,
): Promise<boolean | null> {
  if (!hashingHasRoom()) throw new TooManyPassphrases();
  const since = now - failureLimits.windowMs;
  await db
    .deleteFrom('sign_in_failure')
    .where((row) => row.or([row('failed_at', '<=', since), row('failed_at', '>', now)]))
    .execute();
  // Counted before the slow check, so that many at once cannot all slip through.
  const failures = await engineOf(db).alone(db, async (trx) => {
    for (const [subject, most] of counted) {
      const { n } = await trx
        .selectFrom('sign_in_failure')
        .select((row) => row.fn.countAll<number>().as('n'))
        .where('subject', '=', subject)
        .executeTakeFirstOrThrow();
      if (n >= most) return null;
    }
    return trx
      .insertInto('sign_in_failure')
      .values(counted.map(([subject]) => ({ subject, failed_at: now })))
      .returning('seq')
      .execute();
  });
  if (failures === null) return null;
  const takeBack = () =>
    db
      .deleteFrom('sign_in_failure')
      .where(
        'seq',
        'in',
        failures.map(({ seq }) => seq),
      )
      .execute();
  let right: boolean;
  try {
    right = await isRight();
  } catch (cause) {
    // Not looked at: no guess.
    await takeBack();
    throw cause;
  }
  if (right) await takeBack();
  return right;
}
