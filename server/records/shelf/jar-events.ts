import { randomUUID } from 'node:crypto';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { JarEventKind } from '../../../src/household/ledger.ts';
import { nextSeq } from '../next-seq.ts';
import type { Recorder } from '../record.ts';

export interface NewJarEvent {
  readonly entryId: string;
  readonly lotId: string;
  readonly kind: JarEventKind;
  /** Positive comes onto the shelf, negative leaves it. */
  readonly units: number;
  readonly trainsUse?: boolean;
  readonly reason?: string | null;
  readonly occurredOn: CalendarDate;
  readonly reversesSeq?: number;
  readonly takenBy?: string | null;
}

/** Id of one thing a person did, whatever number of events it takes. */
export const newEntryId = (): string => randomUUID();

/** Rows of one insert: SQLite takes 32,766 values at once, an event has 15. */
const rowsAtOnce = 100;

/** Adds events to the ledger in the order given. */
export async function addJarEvents(recorder: Recorder, events: readonly NewJarEvent[]): Promise<void> {
  for (let at = 0; at < events.length; at += rowsAtOnce)
    await recorder.trx
      .insertInto('jar_event')
      .values(events.slice(at, at + rowsAtOnce).map((event, before) => eventRow(recorder, event, before)))
      .execute();
}

const eventRow = (recorder: Recorder, event: NewJarEvent, before: number) => ({
  household_id: recorder.householdId,
  seq: nextSeq('jar_event', recorder.householdId, before),
  entry_id: event.entryId,
  lot_id: event.lotId,
  kind: event.kind,
  units: event.units,
  trains_use: event.trainsUse === true ? 1 : 0,
  reason: event.reason ?? null,
  occurred_on: event.occurredOn,
  recorded_at: recorder.at,
  recorded_by: recorder.by,
  taken_by: event.takenBy ?? null,
  reverses_seq: event.reversesSeq ?? null,
});

export interface NewEmptyJarEvent {
  readonly entryId: string;
  readonly jarKind: JarKind;
  /** `lent`: given away full and expected back; it changes no empty jar on hand. `returned`: it came back empty. */
  readonly kind: 'emptied' | 'filled' | 'bought' | 'lent' | 'returned' | 'broken' | 'counted';
  /** Positive: more empty jars on hand; of `lent` more jars away. */
  readonly jars: number;
  readonly occurredOn: CalendarDate;
}

/**
 * Adds events of empty jars. Nobody fills jars there are not: where more left than were known, the others are counted in with the
 * same entry, so that no later jar that comes back is swallowed by a number below nought.
 */
export async function addEmptyJarEvents(
  recorder: Recorder,
  events: readonly NewEmptyJarEvent[],
): Promise<void> {
  for (const event of events) {
    const lacking = event.kind === 'lent' ? 0 : -event.jars - (await emptyJars(recorder, event.jarKind));
    if (lacking > 0) await addEmptyJarEvent(recorder, { ...event, kind: 'counted', jars: lacking });
    await addEmptyJarEvent(recorder, event);
  }
}

const addEmptyJarEvent = (recorder: Recorder, event: NewEmptyJarEvent) =>
  recorder.trx
    .insertInto('empty_jar_event')
    .values({
      household_id: recorder.householdId,
      seq: nextSeq('empty_jar_event', recorder.householdId),
      entry_id: event.entryId,
      jar_kind: event.jarKind,
      kind: event.kind,
      jars: event.jars,
      occurred_on: event.occurredOn,
      recorded_at: recorder.at,
    })
    .execute();

/** Empty jars of a kind on hand. */
export async function emptyJars({ trx, householdId }: Recorder, jarKind: JarKind): Promise<number> {
  const { total } = await trx
    .selectFrom('empty_jar_event')
    .select((row) => row.fn.coalesce(row.fn.sum<number>('jars'), row.lit(0)).as('total'))
    .where('household_id', '=', householdId)
    .where('jar_kind', '=', jarKind)
    .where('kind', '<>', 'lent')
    .executeTakeFirstOrThrow();
  return total;
}
