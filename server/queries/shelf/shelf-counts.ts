import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { CountOfItem } from '../../../src/household/ledger.ts';
import type { Database } from '../../database/database.ts';

/** Every count of the shelf up to a date, oldest first. */
export async function shelfCountsOf(
  db: Database,
  householdId: HouseholdId,
  to: CalendarDate,
): Promise<readonly CountOfItem[]> {
  const rows = await db
    .selectFrom('shelf_count')
    .select(['item_id', 'counted_on', 'book_units', 'counted_units', 'explained_as'])
    .where('household_id', '=', householdId)
    .where('counted_on', '<=', to)
    .orderBy('counted_on')
    .orderBy('recorded_at')
    .execute();
  return rows.map((row) => ({
    itemId: row.item_id as ItemId,
    countedOn: row.counted_on as CalendarDate,
    bookUnits: row.book_units,
    countedUnits: row.counted_units,
    explainedAs: row.explained_as,
  }));
}
