import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import { forgetTokens, keepToken } from '../../access/household-tokens.ts';
import { newToken, tokenHash } from '../../access/tokens.ts';
import type { Moment } from '../../clock.ts';
import type { Database, Writing } from '../../database/database.ts';
import { holdHousehold } from '../../database/hold-household.ts';
import { type Recording, record, refuse } from '../record.ts';
import { movedLetter } from './address-letters.ts';
import { putLetter } from './letters.ts';

// Nothing is sent to an address before somebody there says so by a link, but for the letter that carries the link. That
// letter's secret is made when it is sent and kept as a hash, so that it stands nowhere in the file.

/** A link to confirm an address works so long, once. */
const confirmLastsMs = 3 * 24 * 60 * 60_000;

export const notSentElsewhere = 'Not sent: letters go to another address now.';

/** That address is asked from now on; what was asked before is asked no more. */
export async function askToConfirm(trx: Writing, householdId: HouseholdId, address: string): Promise<void> {
  const asked = { id: randomUUID(), address, token_hash: null, expires_at: null };
  await trx
    .insertInto('mail_confirmation')
    .values({ household_id: householdId, ...asked })
    .onConflict((same) => same.column('household_id').doUpdateSet(asked))
    .execute();
  await forgetTokens(trx, householdId, 'mail address');
}

/** No address is asked any more. */
export async function askNoMore(trx: Writing, householdId: HouseholdId): Promise<void> {
  await trx.deleteFrom('mail_confirmation').where('household_id', '=', householdId).execute();
  await forgetTokens(trx, householdId, 'mail address');
}

/** The address that waits is sent the letter with the link once more. */
export const askAgain = (recording: Recording): Promise<Outcome<true>> =>
  record(
    recording,
    'ask for mail address again',
    {},
    async ({ trx, householdId }) => {
      const asked = await trx
        .selectFrom('mail_confirmation')
        .select('address')
        .where('household_id', '=', householdId)
        .executeTakeFirst();
      if (!asked)
        return refuse(
          'address-not-waiting',
          'address',
          'No address waits to be confirmed. Load the page again.',
        );
      await askToConfirm(trx, householdId, asked.address);
      return found(true);
    },
    'no facts',
  );

/** A fresh secret for the letter to an address that is still asked; null where it is not any more. */
export async function secretFor(
  db: Database,
  householdId: HouseholdId,
  { id, address }: { readonly id: string; readonly address: string },
  now: number,
): Promise<string | null> {
  const token = newToken();
  return db.transaction().execute(async (trx) => {
    const kept = await trx
      .updateTable('mail_confirmation')
      .set({ token_hash: tokenHash(token), expires_at: now + confirmLastsMs })
      .where('household_id', '=', householdId)
      .where('id', '=', id)
      .where('address', '=', address)
      .executeTakeFirst();
    if (kept.numUpdatedRows !== 1n) return null;
    await forgetTokens(trx, householdId, 'mail address');
    await keepToken(trx, householdId, 'mail address', token);
    return token;
  });
}

export interface AskedAddress {
  readonly householdId: HouseholdId;
  readonly householdName: string;
  readonly timeZone: string;
  readonly locale: string;
  readonly address: string;
}

/** Whose letters an unused link is about; null when it was used, has expired or never was. */
export async function addressAsked(
  db: Database | Writing,
  token: string,
  now: number,
): Promise<AskedAddress | null> {
  const row = await db
    .selectFrom('household_token as key')
    .innerJoin('mail_confirmation as asked', (join) =>
      join
        .onRef('asked.household_id', '=', 'key.household_id')
        .onRef('asked.token_hash', '=', 'key.token_hash'),
    )
    .innerJoin('household', 'household.id', 'key.household_id')
    .select(['household.id', 'household.name', 'household.time_zone', 'household.locale', 'asked.address'])
    .where('key.token_hash', '=', tokenHash(token))
    .where('asked.expires_at', '>', now)
    .executeTakeFirst();
  if (!row) return null;
  return {
    householdId: row.id as HouseholdId,
    householdName: row.name,
    timeZone: row.time_zone,
    locale: row.locale,
    address: row.address,
  };
}

/** Letters go to the address from now on; where they went before is told. A link works once. */
export async function confirmAddress(
  db: Database,
  token: string,
  { at, today }: Moment,
): Promise<AskedAddress | null> {
  return db.transaction().execute(async (trx) => {
    const asked = await addressAsked(trx, token, at);
    if (asked === null) return null;
    const { householdId, address } = asked;
    await holdHousehold(trx, householdId);
    if ((await addressAsked(trx, token, at)) === null) return null;
    const before = await trx
      .selectFrom('mail_wish')
      .select(['address', 'confirmed_at'])
      .where('household_id', '=', householdId)
      .executeTakeFirst();
    if (!before) return null;
    await askNoMore(trx, householdId);
    await trx
      .updateTable('mail_wish')
      .set({ address, confirmed_at: at })
      .where('household_id', '=', householdId)
      .execute();
    if (before.confirmed_at !== null && before.address !== address) {
      await letterJobsEnd(trx, householdId, notSentElsewhere, at);
      await putLetter(trx, householdId, movedLetter(asked, before.address), { at, today });
    }
    return asked;
  });
}

/** Letters that wait are not sent any more, for that reason. */
export const letterJobsEnd = (trx: Writing, householdId: HouseholdId, failure: string, at: number) =>
  trx
    .updateTable('job')
    .set({ finished_at: at, failure })
    .where('kind', '=', 'letter')
    .where('household_id', '=', householdId)
    .where('finished_at', 'is', null)
    .execute();
