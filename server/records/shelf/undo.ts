import { dateWords } from '../../../shared/date-words.ts';
import { type JarKind, mouthOf } from '../../../shared/jar.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import { type CalendarDate, weekHolding } from '../../../shared/week.ts';
import type { JarEvent } from '../../../src/household/ledger.ts';
import { batchResultsOf } from '../../queries/canning/batch-results.ts';
import { householdById } from '../../queries/household/household.ts';
import { ledgerOf } from '../../queries/shelf/ledger.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { type Recorder, type Recording, record, refuse } from '../record.ts';
import { takeStoresBack } from '../year/stores.ts';
import { takeByProductsBack } from '../year/waiting-material.ts';
import { addEmptyJarEvents, addJarEvents, newEntryId } from './jar-events.ts';
import { moveBack } from './move-lots.ts';

export interface UndoAnswer {
  readonly entryId: string;
  readonly itemId: string;
  readonly itemName: string;
  /** Units that came back onto the shelf; negative when a put-up or purchase was undone. */
  readonly units: number;
  /** Set where the batch left something over that was used already: that use stays written down. */
  readonly byProductUsed: boolean;
}

/** Takes one entry back by adding the opposite of each of its events; nothing is deleted. */
export const undo = (recording: Recording, entryId: string): Promise<Outcome<UndoAnswer>> =>
  record(recording, 'undo', { entryId }, (recorder) => undoWithin(recorder, entryId));

export async function undoWithin(recorder: Recorder, entryId: string): Promise<Outcome<UndoAnswer>> {
  const { trx, householdId } = recorder;
  const events = await ledgerOf(trx, householdId, { entryId });
  const [first] = events;
  if (!first || first.kind === 'reversed')
    return refuse(
      'entry-unknown',
      'entryId',
      'That was not recorded here. Look at the history and choose an entry.',
    );
  if (events.some((event) => event.isReversed))
    return refuse(
      'already-undone',
      'entryId',
      `This entry of ${dateWords(first.occurredOn)} is already undone. Nothing is left to do; record it anew if it did happen.`,
    );
  for (const event of events) {
    const [lot] = await lotsOf(trx, householdId, { lotId: event.lotId, empty: true });
    if (lot && lot.unitsLeft - event.units < -1e-9)
      return refuse(
        'already-used',
        'entryId',
        `Of the ${event.units} of batch ${event.batchCode}, ${lot.unitsLeft} are left. Undo what was taken from it first.`,
      );
  }

  const carriedBack = await moveBack(recorder, entryId);
  if (!carriedBack.ok) return carriedBack;

  const reversalId = newEntryId();
  await addJarEvents(
    recorder,
    events.map((event) => ({
      entryId: reversalId,
      lotId: event.lotId,
      kind: 'reversed',
      units: 0 - event.units,
      reason: null,
      occurredOn: event.occurredOn,
      reversesSeq: event.seq,
    })),
  );
  await returnJars(recorder, entryId, reversalId);
  await returnLids(recorder, events);
  await freeDoneBatches(recorder, events);
  await takeStoresBack(recorder, entryId);
  await askAgain(recorder, entryId);
  const { usedAlready } = await takeByProductsBack(recorder, await undoneResults(recorder, events));
  return found({
    entryId: reversalId,
    itemId: first.itemId,
    itemName: first.itemName,
    units: -events.reduce((total, event) => total + event.units, 0),
    byProductUsed: usedAlready,
  });
}

/** A line of the shopping list that this brought is asked for again. */
const askAgain = ({ trx, householdId, at }: Recorder, entryId: string) =>
  trx
    .updateTable('bought')
    .set({ undone_at: at })
    .where('household_id', '=', householdId)
    .where('entry_id', '=', entryId)
    .where('undone_at', 'is', null)
    .execute();

async function returnJars(recorder: Recorder, entryId: string, reversalId: string): Promise<void> {
  const { trx, householdId } = recorder;
  const moved = await trx
    .selectFrom('empty_jar_event')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('entry_id', '=', entryId)
    .execute();
  await addEmptyJarEvents(
    recorder,
    moved.map((row) => ({
      entryId: reversalId,
      jarKind: row.jar_kind as JarKind,
      kind: row.kind,
      jars: -row.jars,
      occurredOn: row.occurred_on as typeof recorder.today,
    })),
  );
}

/** Lids that were never used after all go back into the newest box that was there by then; what was counted since is right as it is. */
async function returnLids({ trx, householdId }: Recorder, events: readonly JarEvent[]): Promise<void> {
  for (const { kind, jarKind, units, occurredOn } of events) {
    if (kind !== 'put up' || jarKind === null) continue;
    const box = await trx
      .selectFrom('lid_box')
      .select(['id', 'lids'])
      .where('household_id', '=', householdId)
      .where('mouth', '=', mouthOf(jarKind))
      .where('bought_on', '<=', occurredOn)
      .orderBy('bought_on', 'desc')
      .limit(1)
      .executeTakeFirst();
    if (box)
      await trx
        .updateTable('lid_box')
        .set({ lids: box.lids + units })
        .where('household_id', '=', householdId)
        .where('id', '=', box.id)
        .execute();
  }
}

/** Batches that were written down and of which no jar stands as put up any more. */
async function undoneResults(
  { trx, householdId }: Recorder,
  events: readonly JarEvent[],
): Promise<readonly string[]> {
  const lotIds = events.filter(({ kind }) => kind === 'put up').map(({ lotId }) => lotId);
  if (lotIds.length === 0) return [];
  const rows = await trx
    .selectFrom('batch_result_lot')
    .select('result_id')
    .distinct()
    .where('household_id', '=', householdId)
    .where('lot_id', 'in', lotIds)
    .execute();
  const standing = new Set((await batchResultsOf(trx, householdId)).map(({ id }) => id));
  return rows.map((row) => row.result_id).filter((id) => !standing.has(id));
}

/** A batch whose jars were all taken back was not made; its week is free to be planned again. */
async function freeDoneBatches(recorder: Recorder, events: readonly JarEvent[]): Promise<void> {
  const { trx, householdId } = recorder;
  const { weekStartsOn } = await householdById(trx, householdId);
  const plannedOn = await plannedDays(recorder);
  const weekOf = (lot: { readonly id: string; readonly madeOn: CalendarDate }) =>
    weekHolding(plannedOn.get(lot.id) ?? lot.madeOn, weekStartsOn);
  for (const event of events.filter(({ kind }) => kind === 'put up')) {
    const [lot] = await lotsOf(trx, householdId, { lotId: event.lotId, empty: true });
    if (!lot || lot.recipeId === null) continue;
    const siblings = await lotsOf(trx, householdId, { itemId: lot.itemId });
    const week = weekOf(lot);
    if (siblings.some((other) => other.recipeId === lot.recipeId && weekOf(other) === week)) continue;
    await trx
      .deleteFrom('kept')
      .where('household_id', '=', householdId)
      .where('recipe_id', '=', lot.recipeId)
      .where('week', '=', week)
      .where('decision', '=', 'done')
      .execute();
  }
}

/** The canning day on which a lot was written down, by lot; it may have been begun before or after its date. */
async function plannedDays({ trx, householdId }: Recorder): Promise<ReadonlyMap<string, CalendarDate>> {
  const rows = await trx
    .selectFrom('batch_result_lot as of')
    .innerJoin('batch_result as result', (join) =>
      join.onRef('result.household_id', '=', 'of.household_id').onRef('result.id', '=', 'of.result_id'),
    )
    .where('of.household_id', '=', householdId)
    .select(['of.lot_id', 'result.session_on'])
    .execute();
  return new Map(
    rows.flatMap(({ lot_id: lot, session_on: on }) =>
      on === null ? [] : [[lot, on as CalendarDate] as const],
    ),
  );
}
