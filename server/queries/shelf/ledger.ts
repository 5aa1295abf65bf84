import { groupedBy } from '../../../shared/grouped-by.ts';
import type { HouseholdId, ItemId, LotId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Entry, JarEvent, JarEventKind } from '../../../src/household/ledger.ts';
import type { Database } from '../../database/database.ts';
import { fitting, fittingDay } from '../household/fitting.ts';

export interface LedgerFilter {
  readonly itemId?: string;
  readonly lotId?: string;
  readonly entryId?: string;
  readonly from?: CalendarDate;
  readonly to?: CalendarDate;
  readonly kinds?: readonly JarEventKind[];
}

/** Events in the order they were recorded. */
export async function ledgerOf(
  db: Database,
  householdId: HouseholdId,
  filter: LedgerFilter = {},
): Promise<readonly JarEvent[]> {
  let query = eventsOf(db, householdId).orderBy('event.seq');
  if (filter.itemId !== undefined) query = query.where('lot.item_id', '=', filter.itemId);
  if (filter.lotId !== undefined) query = query.where('event.lot_id', '=', filter.lotId);
  if (filter.entryId !== undefined) query = query.where('event.entry_id', '=', filter.entryId);
  if (filter.from !== undefined) query = query.where('event.occurred_on', '>=', filter.from);
  if (filter.to !== undefined) query = query.where('event.occurred_on', '<=', filter.to);
  if (filter.kinds !== undefined) query = query.where('event.kind', 'in', [...filter.kinds]);
  return (await query.execute()).map(fromRow);
}

/** The last things that were done, newest first; reversals show on the entry they undid and are not listed themselves. */
export async function recentEntries(
  db: Database,
  householdId: HouseholdId,
  howMany: number,
): Promise<readonly Entry[]> {
  const newest = await db
    .selectFrom('jar_event')
    .select((row) => ['entry_id', row.fn.max('seq').as('last')])
    .where('household_id', '=', householdId)
    .where('kind', '<>', 'reversed')
    .groupBy('entry_id')
    .orderBy('last', 'desc')
    .limit(howMany)
    .execute();
  if (newest.length === 0) return [];
  const rows = await eventsOf(db, householdId)
    .where(
      'event.entry_id',
      'in',
      newest.map((row) => row.entry_id),
    )
    .orderBy('event.seq')
    .execute();
  const eventsByEntry = groupedBy(rows.map(fromRow), (event) => event.entryId);
  return newest.flatMap(({ entry_id }) => entryOf(eventsByEntry.get(entry_id) ?? []));
}

const entryOf = (events: readonly JarEvent[]): Entry[] => {
  const [first] = events;
  if (!first) return [];
  return [
    {
      id: first.entryId,
      itemId: first.itemId,
      itemName: first.itemName,
      kind: first.kind,
      reason: first.reason,
      units: events.reduce((total, event) => total + event.units, 0),
      occurredOn: first.occurredOn,
      recordedAt: first.recordedAt,
      recordedBy: first.recordedBy,
      takenBy: first.takenBy,
      events,
      isUndone: events.every((event) => event.isReversed),
    },
  ];
};

const eventsOf = (db: Database, householdId: HouseholdId) =>
  db
    .selectFrom('jar_event as event')
    .innerJoin('lot', (join) =>
      join.onRef('lot.household_id', '=', 'event.household_id').onRef('lot.id', '=', 'event.lot_id'),
    )
    .innerJoin('item', (join) =>
      join.onRef('item.household_id', '=', 'lot.household_id').onRef('item.id', '=', 'lot.item_id'),
    )
    .leftJoin('jar_event as reversal', (join) =>
      join
        .onRef('reversal.household_id', '=', 'event.household_id')
        .onRef('reversal.reverses_seq', '=', 'event.seq'),
    )
    .leftJoin('lot_move as move', (join) =>
      join
        .onRef('move.household_id', '=', 'event.household_id')
        .onRef('move.entry_id', '=', 'event.entry_id'),
    )
    .where('event.household_id', '=', householdId)
    .select([
      'event.seq',
      'event.entry_id',
      'event.lot_id',
      'lot.batch_code',
      'lot.jar_kind',
      'lot.item_id',
      'item.name as item_name',
      'event.kind',
      'event.units',
      'event.trains_use',
      'event.reason',
      'event.occurred_on',
      'event.recorded_at',
      'event.recorded_by',
      'event.taken_by',
      'event.reverses_seq',
      'reversal.seq as reversal_seq',
      'move.from_name as moved_from',
      'move.to_name as moved_to',
    ]);

type EventRow = Awaited<ReturnType<ReturnType<typeof eventsOf>['execute']>>[number];

const fromRow = (row: EventRow): JarEvent => ({
  seq: row.seq,
  entryId: row.entry_id,
  lotId: row.lot_id as LotId,
  batchCode: row.batch_code,
  jarKind: fitting('lot', 'jar_kind', row.jar_kind, null) as JarKind | null,
  itemId: row.item_id as ItemId,
  itemName: row.item_name,
  kind: row.kind,
  units: row.units,
  trainsUse: row.trains_use === 1,
  reason: row.reason,
  occurredOn: fittingDay('jar_event', 'occurred_on', row.occurred_on, row.recorded_at),
  recordedAt: row.recorded_at,
  recordedBy: row.recorded_by,
  takenBy: row.taken_by,
  reversesSeq: row.reverses_seq,
  isReversed: row.reversal_seq !== null,
  move: row.moved_to === null ? null : { from: row.moved_from, to: row.moved_to },
});
