import type { HouseholdId, ItemId, LotId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Database } from '../../database/database.ts';
import { fittingDay } from '../household/fitting.ts';

/** A take of units that the book did not have, kept until somebody settles it. */
export interface OpenConflict {
  readonly id: string;
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly lotId: LotId | null;
  readonly kind: string;
  readonly units: number;
  readonly occurredOn: CalendarDate;
  readonly recordedAt: number;
}

export async function openConflicts(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly OpenConflict[]> {
  const rows = await db
    .selectFrom('jar_conflict as conflict')
    .innerJoin('item', (join) =>
      join.onRef('item.household_id', '=', 'conflict.household_id').onRef('item.id', '=', 'conflict.item_id'),
    )
    .where('conflict.household_id', '=', householdId)
    .where('conflict.settled_at', 'is', null)
    .orderBy('conflict.recorded_at')
    .select([
      'conflict.id',
      'conflict.item_id',
      'item.name',
      'conflict.lot_id',
      'conflict.kind',
      'conflict.units',
      'conflict.occurred_on',
      'conflict.recorded_at',
    ])
    .execute();
  return rows.map((row) => ({
    id: row.id,
    itemId: row.item_id as ItemId,
    itemName: row.name,
    lotId: row.lot_id as LotId | null,
    kind: row.kind,
    units: row.units,
    occurredOn: fittingDay('jar_conflict', 'occurred_on', row.occurred_on, row.recorded_at),
    recordedAt: row.recorded_at,
  }));
}
