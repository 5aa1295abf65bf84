import type { HouseholdId, ItemId } from '../../shared/ids.ts';
import type { CountExplanation } from '../../shared/schemas/shelf-count.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Database } from '../database/database.ts';

/** One item as it was counted on the shelf. */
export interface ItemCount {
  readonly itemId: ItemId;
  readonly countedOn: CalendarDate;
  readonly bookUnits: number;
  readonly countedUnits: number;
  readonly explainedAs: CountExplanation;
}

/** The newest count of every item that was ever counted. */
export async function newestCounts(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<ItemId, ItemCount>> {
  const rows = await db
    .selectFrom('shelf_count')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('counted_on')
    .orderBy('recorded_at')
    .execute();
  return new Map(
    rows.map((row) => [
      row.item_id as ItemId,
      {
        itemId: row.item_id as ItemId,
        countedOn: row.counted_on as CalendarDate,
        bookUnits: row.book_units,
        countedUnits: row.counted_units,
        explainedAs: row.explained_as,
      },
    ]),
  );
}
