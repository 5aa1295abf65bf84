import type { JarKind } from '../../shared/jar.ts';
import { found, type Outcome } from '../../shared/problems.ts';
import { ledger } from '../queries/ledger.ts';
import { lots } from '../queries/shelf.ts';
import { addEmptyJarEvents, addJarEvents, newEntryId } from './jar-events.ts';
import { type Recorder, type Recording, record, refuse } from './record.ts';

export interface UndoAnswer {
  readonly entryId: string;
  readonly itemId: string;
  readonly itemName: string;
  /** Units that came back onto the shelf; negative when a put-up or purchase was undone. */
  readonly units: number;
}

/** Takes one entry back by adding the opposite of each of its events; nothing is deleted. */
export const undo = (recording: Recording, entryId: string): Promise<Outcome<UndoAnswer>> =>
  record(recording, 'undo', { entryId }, (recorder) => undoWithin(recorder, entryId));

export async function undoWithin(recorder: Recorder, entryId: string): Promise<Outcome<UndoAnswer>> {
  const { trx, householdId } = recorder;
  const events = await ledger(trx, householdId, { entryId });
  const [first] = events;
  if (!first || first.kind === 'reversed')
    return refuse(
      'entry-unknown',
      'entryId',
      `Expected something recorded here; found “${entryId.slice(0, 64)}”. Look at the history and choose an entry.`,
    );
  if (events.some((event) => event.isReversed))
    return refuse(
      'already-undone',
      'entryId',
      `This entry of ${first.occurredOn} is already undone. Nothing is left to do; record it anew if it did happen.`,
    );
  for (const event of events) {
    const [lot] = await lots(trx, householdId, { lotId: event.lotId, empty: true });
    if (lot && lot.unitsLeft - event.units < -1e-9)
      return refuse(
        'already-used',
        'entryId',
        `Expected all ${event.units} of batch ${event.batchCode} to be still there; found ${lot.unitsLeft}. Undo what was taken from it first.`,
      );
  }

  const reversalId = newEntryId();
  await addJarEvents(
    recorder,
    events.map((event) => ({
      entryId: reversalId,
      lotId: event.lotId,
      kind: 'reversed',
      units: -event.units,
      reason: null,
      occurredOn: event.occurredOn,
      reversesSeq: event.seq,
    })),
  );
  await returnJars(recorder, entryId, reversalId);
  return found({
    entryId: reversalId,
    itemId: first.itemId,
    itemName: first.itemName,
    units: -events.reduce((total, event) => total + event.units, 0),
  });
}

async function returnJars(recorder: Recorder, entryId: string, reversalId: string): Promise<void> {
  const moved = await recorder.trx
    .selectFrom('empty_jar_event')
    .selectAll()
    .where('household_id', '=', recorder.householdId)
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
