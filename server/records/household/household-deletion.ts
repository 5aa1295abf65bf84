import type { HouseholdId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import { forgetTokens } from '../../access/household-tokens.ts';
import { carriedTables } from '../../columns/household-columns.ts';
import type { Database, Writing } from '../../database/database.ts';
import { engineOf } from '../../database/engine-of.ts';
import { refuse } from '../record.ts';

/** So long a deleted household can come back. */
export const deletedStaysMs = 7 * 24 * 60 * 60_000;

/** From now on nobody sees the household; within seven days an owner can bring it back, whole. */
export async function deleteHousehold(
  db: Database,
  householdId: HouseholdId,
  by: string,
  at: number,
): Promise<void> {
  await db.transaction().execute(async (trx) => {
    await trx
      .insertInto('household_deletion')
      .values({ household_id: householdId, deleted_at: at, by_name: by })
      .onConflict((same) => same.column('household_id').doNothing())
      .execute();
    await trx.deleteFrom('invitation').where('household_id', '=', householdId).execute();
    await forgetTokens(trx, householdId, 'invitation');
  });
}

/** The household is there again with all that is in it. */
export async function bringHouseholdBack(
  db: Database,
  householdId: HouseholdId,
  at: number,
): Promise<Outcome<true>> {
  const back = await db
    .deleteFrom('household_deletion')
    .where('household_id', '=', householdId)
    .where('deleted_at', '>', at - deletedStaysMs)
    .executeTakeFirst();
  return back.numDeletedRows === 1n
    ? found(true)
    : refuse(
        'household-gone',
        '',
        'This household was deleted more than seven days ago and is gone. Take a saved household or a backup.',
      );
}

/** Takes the household away with every row it has. */
export const forgetHousehold = (trx: Writing, householdId: HouseholdId): Promise<void> =>
  engineOf(trx).forgetHousehold(trx, householdId, carriedTables);

/** What was deleted more than seven days ago is gone for good; backups hold it until they go themselves. Answers how many. */
export const purgeHouseholds = (db: Database, at: number): Promise<number> =>
  db.transaction().execute(async (trx) => {
    const due = await trx
      .selectFrom('household_deletion')
      .select('household_id')
      .where('deleted_at', '<=', at - deletedStaysMs)
      .execute();
    for (const { household_id: id } of due) {
      await trx.deleteFrom('job').where('household_id', '=', id).execute();
      await forgetHousehold(trx, id as HouseholdId);
    }
    return due.length;
  });
