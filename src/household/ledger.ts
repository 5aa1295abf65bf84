import type { ItemId, LotId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import type { CountExplanation } from '../../shared/schemas/shelf/shelf-count.ts';
import type { CalendarDate } from '../../shared/week.ts';

export type JarEventKind =
  | 'put up'
  | 'bought'
  | 'received'
  | 'taken'
  | 'given away'
  | 'discarded'
  | 'seal failed'
  | 'counted'
  | 'moved'
  | 'finished'
  | 'reversed';

export interface JarEvent {
  readonly seq: number;
  readonly entryId: string;
  readonly lotId: LotId;
  readonly batchCode: string;
  readonly jarKind: JarKind | null;
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly kind: JarEventKind;
  /** Positive comes onto the shelf, negative leaves it; in jars of the lot's own kind (or bags, lb …). */
  readonly units: number;
  readonly trainsUse: boolean;
  readonly reason: string | null;
  readonly occurredOn: CalendarDate;
  readonly recordedAt: number;
  readonly recordedBy: string | null;
  /** Who took it, where the household says so; a name, which stays when its member has gone. */
  readonly takenBy: string | null;
  readonly reversesSeq: number | null;
  /** A later event undid this one. */
  readonly isReversed: boolean;
  /** Of a batch that was carried: the places as they were called then; null of everything else. */
  readonly move: { readonly from: string | null; readonly to: string } | null;
}

/** One thing a person did: a take that spans two lots is one entry of two events. */
export interface Entry {
  readonly id: string;
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly kind: JarEventKind;
  readonly reason: string | null;
  /** Sum of the events, with their sign. */
  readonly units: number;
  readonly occurredOn: CalendarDate;
  readonly recordedAt: number;
  readonly recordedBy: string | null;
  readonly takenBy: string | null;
  readonly events: readonly JarEvent[];
  readonly isUndone: boolean;
}

export interface CountOfItem {
  readonly itemId: ItemId;
  readonly countedOn: CalendarDate;
  readonly bookUnits: number;
  readonly countedUnits: number;
  readonly explainedAs: CountExplanation;
}
