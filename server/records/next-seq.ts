import type { HouseholdId } from '../../shared/ids.ts';
import type { Writing } from '../database/database.ts';

/** The number of the next row of a household: what is newest is told by the order of writing, since a clock can be wrong. */
export async function nextSeq(
  trx: Writing,
  table: 'plan' | 'notice' | 'letter',
  householdId: HouseholdId,
): Promise<number> {
  const { last } = await trx
    .selectFrom(table)
    .select((row) => row.fn.max('seq').as('last'))
    .where('household_id', '=', householdId)
    .executeTakeFirstOrThrow();
  return (last ?? 0) + 1;
}
