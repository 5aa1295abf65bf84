import type { Database } from '../../server/database/database.ts';
import { visibleHouseholds } from '../../server/queries/household/household.ts';
import type { Household } from '../../src/household/household.ts';

/** Every household of a file that was not deleted: one's own before the invented one, the oldest first. */
export async function households(db: Database): Promise<readonly Household[]> {
  const rows = await db.selectFrom('household').select('id').execute();
  const all = await visibleHouseholds(db, { ids: rows.map(({ id }) => id), open: false });
  return all.map(({ household }) => household);
}
