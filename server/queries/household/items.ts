import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { Database } from '../../database/database.ts';
import type { ItemTable } from '../../database/tables.ts';
import type { Row } from '../row.ts';
import { fits, fittingRows } from './fitting.ts';

const fromRow = (stored: Row<ItemTable>): Item => asItem(fittingRows('item', [stored])[0] ?? stored);

const asItem = (row: Row<ItemTable>): Item => ({
  id: row.id as ItemId,
  name: row.name,
  kind: row.kind,
  keeping: row.keeping,
  family: row.family,
  unit: row.unit,
  usualJar: row.usual_jar as JarKind | null,
  servingsPerUnit: row.servings_per_unit,
  shelfLifeKey: row.shelf_life_key,
  bestQualityDays: row.best_quality_days,
  keepColdDays: row.keep_cold_days,
  freezerQuarts: row.freezer_quarts,
  chanceWanted: row.chance_wanted,
  familyMinimumUnits: row.family_minimum_units,
  emergencyUnits: row.emergency_units,
  countsAs: row.counts_as,
  retiredOn: row.retired_on as CalendarDate | null,
});

/** What the household keeps now, by name; retired items are left out. */
export async function itemsOf(db: Database, householdId: HouseholdId): Promise<readonly Item[]> {
  const rows = await db
    .selectFrom('item')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('retired_on', 'is', null)
    .orderBy('name')
    .orderBy('id')
    .execute();
  return rows.map(fromRow);
}

/** What stands or may stand on the shelf, by name: everything kept, and what is no longer kept but not yet eaten down. */
export async function itemsOnShelf(db: Database, householdId: HouseholdId): Promise<readonly Item[]> {
  const rows = await db
    .selectFrom('item')
    .selectAll()
    .where('household_id', '=', householdId)
    .where((row) =>
      row.or([
        row('retired_on', 'is', null),
        row(
          'id',
          'in',
          row
            .selectFrom('lot')
            .innerJoin('jar_event as event', (join) =>
              join.onRef('event.household_id', '=', 'lot.household_id').onRef('event.lot_id', '=', 'lot.id'),
            )
            .where('lot.household_id', '=', householdId)
            .groupBy('lot.item_id')
            .having((sum) => sum(sum.fn.sum('event.units'), '>', smallestAmount))
            .select('lot.item_id'),
        ),
      ]),
    )
    .orderBy('name')
    .orderBy('id')
    .execute();
  return rows.map(fromRow);
}

/** Items that are no longer kept, the last retired first. */
export async function retiredItems(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly { readonly item: Item; readonly retiredOn: CalendarDate }[]> {
  const rows = await db
    .selectFrom('item')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('retired_on', 'is not', null)
    .orderBy('retired_on', 'desc')
    .orderBy('name')
    .execute();
  return rows.flatMap((row) =>
    fits('item', 'retired_on', row.retired_on)
      ? [{ item: fromRow(row), retiredOn: row.retired_on as CalendarDate }]
      : [],
  );
}

/** Null when this household has no such item; retired items are found, because their jars may still stand. */
export async function itemById(db: Database, householdId: HouseholdId, itemId: string): Promise<Item | null> {
  const row = await db
    .selectFrom('item')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('id', '=', itemId)
    .executeTakeFirst();
  return row ? fromRow(row) : null;
}

/** The same, and whether something of it was ever promised to somebody. */
export async function itemPromised(
  db: Database,
  householdId: HouseholdId,
  itemId: string,
): Promise<{ readonly item: Item; readonly isPromised: boolean } | null> {
  const row = await db
    .selectFrom('item')
    .selectAll('item')
    .select(({ selectFrom }) =>
      selectFrom('occasion')
        .select((occasion) => occasion.fn.countAll<number>().as('n'))
        .where('occasion.household_id', '=', householdId)
        .where('occasion.item_id', '=', itemId)
        .where('occasion.kind', '=', 'promised')
        .as('promises'),
    )
    .where('household_id', '=', householdId)
    .where('id', '=', itemId)
    .executeTakeFirst();
  return row ? { item: fromRow(row), isPromised: (row.promises ?? 1) > 0 } : null;
}
