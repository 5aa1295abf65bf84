import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { Writing } from './handle.ts';

/**
 * Whoever writes of a household holds its row first, until the transaction ends: others who do wait, and what is read then is
 * what will be true when it is written.
 */
export async function holdHousehold(trx: Writing, householdId: HouseholdId, step = 0): Promise<void> {
  const { numUpdatedRows } = await trx
    .updateTable('household')
    .set((row) => ({ facts_version: row('facts_version', '+', step) }))
    .where('id', '=', householdId)
    .executeTakeFirstOrThrow();
  if (numUpdatedRows !== 1n)
    throw new ShelfwardError('household-unknown', `holdHousehold: no household ${householdId}`);
}
