import { entryId, noonUtc, type Scene } from './scene.ts';

/** The ledger of the year: batches with their evidence, everything taken, and the counts of the shelf. */
export async function writeBook({ db, data, book, own }: Scene): Promise<void> {
  const { altitudeFt, members } = data.household;
  const memberOf = (number: number): string => members[number % members.length] ?? 'household';
  const lots = book.lots.map((lot) => ({
    ...own,
    id: lot.id,
    item_id: lot.itemId,
    batch_code: lot.batchCode,
    jar_kind: lot.jarKind,
    origin: lot.origin,
    made_on: lot.madeOn,
    ready_from: lot.readyFrom,
    best_quality_until: lot.bestQualityUntil,
    place_id: lot.placeId,
    cost_cents: lot.cost,
    set_aside_at: null,
    set_aside_reason: null,
    recipe_id: lot.recipeId,
    recorded_at: noonUtc(lot.madeOn),
  }));
  const evidence = book.lots.flatMap((lot) =>
    lot.evidence === null
      ? []
      : {
          ...own,
          lot_id: lot.id,
          canner_id: lot.evidence.cannerId,
          method: lot.evidence.method,
          gauge: lot.evidence.gauge,
          schedule_row: lot.evidence.scheduleRow,
          altitude_ft: altitudeFt,
          psi: lot.evidence.psi,
          minutes_run: lot.evidence.minutesRun,
          acid_ticked: lot.evidence.acidTicked === null ? null : Number(lot.evidence.acidTicked),
          done_by: memberOf(0),
        },
  );
  const events = book.events.map((event, before) => ({
    ...own,
    seq: before + 1,
    entry_id: entryId(event.entry),
    lot_id: event.lotId,
    kind: event.kind,
    units: event.units,
    trains_use: event.trainsUse ? 1 : 0,
    reason: event.reason,
    occurred_on: event.on,
    recorded_at: noonUtc(event.on) + event.entry,
    recorded_by: memberOf(event.entry),
    reverses_seq: null,
  }));
  const counts = book.counts.map((count) => ({
    ...own,
    id: `count-${count.on}-${count.itemId}`,
    item_id: count.itemId,
    counted_on: count.on,
    book_units: count.bookUnits,
    counted_units: count.countedUnits,
    explained_as: 'taken-unrecorded' as const,
    recorded_at: noonUtc(count.on),
  }));
  for (const rows of inPages(lots)) await db.insertInto('lot').values(rows).execute();
  for (const rows of inPages(evidence)) await db.insertInto('processing_evidence').values(rows).execute();
  for (const rows of inPages(events)) await db.insertInto('jar_event').values(rows).execute();
  for (const rows of inPages(counts)) await db.insertInto('shelf_count').values(rows).execute();
}

/** SQLite takes a limited number of values in one statement. */
const rowsPerStatement = 100;

const inPages = <Row>(rows: readonly Row[]): readonly (readonly Row[])[] =>
  Array.from({ length: Math.ceil(rows.length / rowsPerStatement) }, (_, page) =>
    rows.slice(page * rowsPerStatement, (page + 1) * rowsPerStatement),
  );
