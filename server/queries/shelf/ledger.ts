import type { HouseholdId, ItemId, LotId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { JarEvent, JarEventKind } from '../../../src/household/ledger.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';
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

// A household that is put in its place again from a file has another book under the numbers of the one before: its facts go on from the next
// round version, and nobody reads on across one. A household that comes to it by itself is read in whole once more, and no harm done.
export const versionsOfABook = 10_000;
const bookAt = (version: number): number => Math.floor(version / versionsOfABook);

/** What a household had on record when it was read last, up to a day, with the version of its facts then. */
export interface BookSoFar {
  readonly version: number;
  readonly events: readonly JarEvent[];
}

/**
 * The ledger up to a date. It only grows: where what was read up to the same date before still stands, only what was written down since is
 * read, and every event that still says the same is the very same object. `lots` are all of that date, empty ones too.
 */
export async function ledgerReadOn(
  db: Database,
  householdId: HouseholdId,
  to: CalendarDate,
  {
    version,
    lots,
    before,
  }: {
    readonly version: number;
    readonly lots: readonly LotOnShelf[];
    readonly before: BookSoFar | undefined;
  },
): Promise<readonly JarEvent[]> {
  const last = before?.events.at(-1);
  if (before !== undefined && last !== undefined && bookAt(before.version) === bookAt(version)) {
    const stands = await standingOf(db, householdId, to, last.seq);
    if (stands.events === before.events.length && before.events.every(saysTheSame(lots, stands.names)))
      return withLater(db, householdId, to, before.events, last.seq);
  }
  return ledgerOf(db, householdId, { to });
}

/** What the events up to one that is known hang on: how many there are, and what each item is called. */
async function standingOf(db: Database, householdId: HouseholdId, to: CalendarDate, seq: number) {
  const rows = await db
    .selectFrom('item')
    .where('household_id', '=', householdId)
    .select((row) => [
      'id',
      'name',
      row
        .selectFrom('jar_event')
        .select(({ fn }) => fn.countAll<number>().as('n'))
        .where('household_id', '=', householdId)
        .where('seq', '<=', seq)
        .where('occurred_on', '<=', to)
        .as('events'),
    ])
    .execute();
  return {
    events: rows[0]?.events ?? null,
    names: new Map(rows.map(({ id, name }) => [id, name])),
  };
}

/** Whether an event says the same of its batch and item as they say now. */
const saysTheSame = (lots: readonly LotOnShelf[], names: ReadonlyMap<string, string>) => {
  const lotById = new Map(lots.map((lot) => [lot.id, lot]));
  return ({ lotId, itemId, itemName, batchCode, jarKind }: JarEvent): boolean => {
    const lot = lotById.get(lotId);
    return (
      lot?.itemId === itemId &&
      lot.batchCode === batchCode &&
      lot.jarKind === jarKind &&
      names.get(itemId) === itemName
    );
  };
};

/** The known events with those that were written down after the last of them; some of the known ones may be undone by them. */
async function withLater(
  db: Database,
  householdId: HouseholdId,
  to: CalendarDate,
  known: readonly JarEvent[],
  last: number,
): Promise<readonly JarEvent[]> {
  const rows = await eventsOf(db, householdId).where('event.seq', '>', last).orderBy('event.seq').execute();
  if (rows.length === 0) return known;
  const undone = new Set(rows.map(({ reverses_seq }) => reverses_seq));
  return [
    ...known.map((event) =>
      undone.has(event.seq) && !event.isReversed ? { ...event, isReversed: true } : event,
    ),
    ...rows.filter(({ occurred_on }) => occurred_on <= to).map(fromRow),
  ];
}

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
