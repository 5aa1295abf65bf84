import type { HouseholdId } from '../../shared/ids.ts';
import type { Writing } from '../database/database.ts';
import type { HouseholdTokenTable } from '../database/tables.ts';
import { newToken, tokenHash } from './tokens.ts';

// Which household a secret is of is asked of one table, which stands with the accounts; what the secret opens stands with the
// household. Each is written and forgotten with the other, in one transaction.

type Opens = HouseholdTokenTable['opens'];

/** From now on this token leads to the household. */
export const keepToken = (trx: Writing, householdId: HouseholdId, opens: Opens, token: string) =>
  trx
    .insertInto('household_token')
    .values({ token_hash: tokenHash(token), household_id: householdId, opens })
    .execute();

/** Nothing of the household is opened by such a token any more. */
export const forgetTokens = (trx: Writing, householdId: HouseholdId, opens: Opens) =>
  trx
    .deleteFrom('household_token')
    .where('household_id', '=', householdId)
    .where('opens', '=', opens)
    .execute();

/** One token leads nowhere any more. */
export const forgetToken = (trx: Writing, householdId: HouseholdId, hash: string) =>
  trx
    .deleteFrom('household_token')
    .where('household_id', '=', householdId)
    .where('token_hash', '=', hash)
    .execute();

/** Whatever address the household's calendar had opens nothing now; a calendar that is kept opens by this one. */
export async function renewCalendarToken(trx: Writing, householdId: HouseholdId): Promise<boolean> {
  const token = newToken();
  const renewed = await trx
    .updateTable('calendar_feed')
    .set({ token })
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  await forgetTokens(trx, householdId, 'calendar');
  if (renewed.numUpdatedRows === 0n) return false;
  await keepToken(trx, householdId, 'calendar', token);
  return true;
}
