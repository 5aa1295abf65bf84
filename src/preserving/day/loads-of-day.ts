import type { ClockEvent } from './process-clock.ts';

/** What happened to each load of a day. */
export interface LoadsOfDay {
  readonly tickedByLoad: ReadonlyMap<string, ReadonlySet<string>>;
  readonly clockByLoad: ReadonlyMap<string, readonly ClockEvent[]>;
}
