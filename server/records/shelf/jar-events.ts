import { randomUUID } from 'node:crypto';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { JarEventKind } from '../../../src/household/ledger.ts';
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
}

/** Id of one thing a person did, whatever number of events it takes. */
export const newEntryId = (): string => randomUUID();

/** Rows of one insert: SQLite takes 32,766 values at once, an event has 11. */
const rowsAtOnce = 100;

/** Adds events to the ledger in the order given. */
export async function addJarEvents(recorder: Recorder, events: readonly NewJarEvent[]): Promise<void> {
  for (let at = 0; at < events.length; at += rowsAtOnce)
    await recorder.trx
      .insertInto('jar_event')
      .values(events.slice(at, at + rowsAtOnce).map((event) => eventRow(recorder, event)))
      .execute();
}

const eventRow = (recorder: Recorder, event: NewJarEvent) => ({
  household_id: recorder.householdId,
  entry_id: event.entryId,
  lot_id: event.lotId,
  kind: event.kind,
  units: event.units,
  trains_use: event.trainsUse === true ? 1 : 0,
  reason: event.reason ?? null,
  occurred_on: event.occurredOn,
  recorded_at: recorder.at,
  recorded_by: recorder.by,
  reverses_seq: event.reversesSeq ?? null,
});

export interface NewEmptyJarEvent {
  readonly entryId: string;
  readonly jarKind: JarKind;
  readonly kind: 'emptied' | 'filled' | 'bought' | 'lent' | 'returned' | 'broken' | 'counted';
  /** Positive: more empty jars on hand. */
  readonly jars: number;
  readonly occurredOn: CalendarDate;
}

export async function addEmptyJarEvents(
  recorder: Recorder,
  events: readonly NewEmptyJarEvent[],
): Promise<void> {
  for (const event of events) {
    await recorder.trx
      .insertInto('empty_jar_event')
      .values({
        household_id: recorder.householdId,
        entry_id: event.entryId,
        jar_kind: event.jarKind,
        kind: event.kind,
        jars: event.jars,
        occurred_on: event.occurredOn,
        recorded_at: recorder.at,
      })
      .execute();
  }
}
