import { groupedBy } from '../../../shared/grouped-by.ts';
import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import { type CalendarDate, weekOf } from '../../../shared/week.ts';
import type { OrdinaryUse } from '../../../src/household/appetite.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';

/** What the household called ordinary, by item; an item it said nothing of has none. */
export async function ordinaryUseOf(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<ItemId, OrdinaryUse>> {
  const rows = await db
    .selectFrom('ordinary_use')
    .selectAll()
    .where('household_id', '=', householdId)
    .execute();
  return new Map(
    [...groupedBy(fittingRows('ordinary_use', rows), (row) => row.item_id as ItemId)].map(
      ([itemId, said]) => [
        itemId,
        {
          weeks: new Set(
            said.filter(({ kind }) => kind === 'week').map(({ on_date }) => weekOf(on_date as CalendarDate)),
          ),
          isAllYearAlike: said.some(({ kind }) => kind === 'year'),
        },
      ],
    ),
  );
}
