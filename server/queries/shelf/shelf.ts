import { groupedBy } from '../../../shared/grouped-by.ts';
import type { HouseholdId, ItemId, LotId, PlaceId, RecipeId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import {
  type ItemOnShelf,
  type LotOnShelf,
  smallestAmount,
  unitsStanding,
} from '../../../src/household/lot.ts';
import { keptUntil } from '../../../src/shelf/best-quality.ts';
import type { Database } from '../../database/database.ts';
import type { LotTable } from '../../database/tables/shelf.ts';
import { fitting, fittingDay } from '../household/fitting.ts';
import { itemsOnShelf } from '../household/items.ts';

export interface LotFilter {
  readonly itemId?: string;
  readonly lotId?: string;
  /** Only events that happened on or before this date count. */
  readonly asOf?: CalendarDate;
  /** Lots with nothing left as well. */
  readonly empty?: boolean;
}

/** Lots with what is left of them, first-expired first: by best quality, then by the day they were made, then by id. */
export async function lotsOf(
  db: Database,
  householdId: HouseholdId,
  filter: LotFilter = {},
): Promise<readonly LotOnShelf[]> {
  const { asOf } = filter;
  let query = db
    .selectFrom('lot')
    .leftJoin('place', (join) =>
      join.onRef('place.household_id', '=', 'lot.household_id').onRef('place.id', '=', 'lot.place_id'),
    )
    .leftJoin('jar_event as event', (join) => {
      const same = join
        .onRef('event.household_id', '=', 'lot.household_id')
        .onRef('event.lot_id', '=', 'lot.id');
      return asOf === undefined ? same : same.on('event.occurred_on', '<=', asOf);
    })
    .innerJoin('item', (join) =>
      join.onRef('item.household_id', '=', 'lot.household_id').onRef('item.id', '=', 'lot.item_id'),
    )
    .innerJoin('household', 'household.id', 'lot.household_id')
    .where('lot.household_id', '=', householdId)
    .select((row) => [
      'item.kind as item_kind',
      'item.keeping',
      'household.discard_ceiling_months',
      'lot.id',
      'lot.item_id',
      'lot.batch_code',
      'lot.jar_kind',
      'lot.origin',
      'lot.made_on',
      'lot.ready_from',
      'lot.best_quality_until',
      'lot.place_id',
      'place.name as place_name',
      'lot.recipe_id',
      'lot.recorded_at',
      'lot.set_aside_at',
      'lot.set_aside_reason',
      row.fn.coalesce(row.fn.sum<number>('event.units'), row.lit(0)).as('units_left'),
      row.fn
        .coalesce(
          row.fn.sum<number>('event.units').filterWhere('event.kind', 'in', ['put up', 'bought', 'received']),
          row.lit(0),
        )
        .as('made_units'),
    ])
    .groupBy([
      'lot.household_id',
      'lot.id',
      'place.name',
      'item.kind',
      'item.keeping',
      'household.discard_ceiling_months',
    ])
    .orderBy('lot.best_quality_until')
    .orderBy('lot.made_on')
    .orderBy('lot.id');
  if (filter.itemId !== undefined) query = query.where('lot.item_id', '=', filter.itemId);
  if (filter.lotId !== undefined) query = query.where('lot.id', '=', filter.lotId);
  if (asOf !== undefined) query = query.where('lot.made_on', '<=', asOf);
  const rows = await query.execute();
  return rows
    .map((row): LotOnShelf => {
      const days = lotDays(row);
      return {
        id: row.id as LotId,
        itemId: row.item_id as ItemId,
        batchCode: row.batch_code,
        jarKind: fitting('lot', 'jar_kind', row.jar_kind, null) as JarKind | null,
        origin: row.origin,
        ...days,
        keptUntil: keptUntil({ kind: row.item_kind, keeping: row.keeping }, days, row.discard_ceiling_months),
        place:
          row.place_id === null || row.place_name === null
            ? null
            : { id: row.place_id as PlaceId, name: row.place_name },
        recipeId: row.recipe_id as RecipeId | null,
        setAside:
          row.set_aside_at === null ? null : { at: row.set_aside_at, reason: row.set_aside_reason ?? '' },
        madeUnits: row.made_units,
        unitsLeft: row.units_left < smallestAmount ? 0 : row.units_left,
      };
    })
    .filter((lot) => filter.empty === true || lot.unitsLeft > 0);
}

/** The days of a lot; where one is no day, it counts as made when it was written down, and as ready and past its best from then on. */
function lotDays(
  row: Pick<LotTable, 'made_on' | 'ready_from' | 'best_quality_until' | 'recorded_at'>,
): Pick<LotOnShelf, 'madeOn' | 'readyFrom' | 'bestQualityUntil'> {
  const madeOn = fittingDay('lot', 'made_on', row.made_on, row.recorded_at);
  return {
    madeOn,
    readyFrom: fitting('lot', 'ready_from', row.ready_from, madeOn) as CalendarDate,
    bestQualityUntil: fitting('lot', 'best_quality_until', row.best_quality_until, madeOn) as CalendarDate,
  };
}

/** Whether anything is written down of a day after that one. */
export async function isAheadOf(db: Database, householdId: HouseholdId, day: CalendarDate): Promise<boolean> {
  const lotsAhead = db.selectFrom('lot').where('household_id', '=', householdId).where('made_on', '>', day);
  const ahead = await db
    .selectFrom('jar_event')
    .where('household_id', '=', householdId)
    .where('occurred_on', '>', day)
    .select('lot_id')
    .union(lotsAhead.select('id as lot_id'))
    .limit(1)
    .executeTakeFirst();
  return ahead !== undefined;
}

/** The shelf as it stands, whatever day it is. */
export async function shelfByItem(db: Database, householdId: HouseholdId): Promise<readonly ItemOnShelf[]> {
  const [items, lots] = await Promise.all([itemsOnShelf(db, householdId), lotsOf(db, householdId)]);
  return onShelf(items, lots);
}

/** The shelf: every item kept, and those being eaten down, with lots first-expired first. Of a kept item nothing need be left. */
export function onShelf(items: readonly Item[], lots: readonly LotOnShelf[]): readonly ItemOnShelf[] {
  const lotsByItem = groupedBy(
    lots.filter(({ unitsLeft }) => unitsLeft > 0),
    (lot) => lot.itemId,
  );
  return items.map((item) => {
    const own = lotsByItem.get(item.id) ?? [];
    return { item, lots: own, units: unitsStanding(item, own) };
  });
}
