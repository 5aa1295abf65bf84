import { groupedBy } from '../../../shared/grouped-by.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { Database } from '../../database/database.ts';
import { fits, fitting } from '../household/fitting.ts';

/** By-products, frozen or fresh material that waits, with the day by which it must be used. */
export interface WaitingMaterial {
  readonly id: string;
  readonly name: string;
  readonly quantity: number;
  readonly unit: string;
  /** The earliest of the days of what is still there, the oldest used first; null where none was said. */
  readonly useBy: CalendarDate | null;
}

/** What came and went of each material, by its id, in the order it was written down. */
async function eventsByMaterial(db: Database, householdId: HouseholdId) {
  const stored = await db
    .selectFrom('material_event as event')
    .innerJoin('material', (join) =>
      join
        .onRef('material.household_id', '=', 'event.household_id')
        .onRef('material.id', '=', 'event.subject'),
    )
    .where('event.household_id', '=', householdId)
    .orderBy('event.seq')
    .select([
      'material.id',
      'material.name',
      'material.unit',
      'event.quantity',
      'event.use_by',
      'event.result_id',
      'event.kind',
    ])
    .execute();
  const rows = stored
    .filter(({ quantity }) => fits('material_event', 'quantity', quantity))
    .map((row) => ({ ...row, use_by: fitting('material_event', 'use_by', row.use_by, null) }));
  return groupedBy(rows, (row) => row.id);
}

/** What waits now, the most pressing first. */
export async function waitingMaterialsOf(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly WaitingMaterial[]> {
  const waiting = [...(await eventsByMaterial(db, householdId))].flatMap(
    ([id, events]): WaitingMaterial[] => {
      const [first] = events;
      const quantity = events.reduce((sum, event) => sum + event.quantity, 0);
      if (!first || quantity <= smallestAmount) return [];
      return [{ id, name: first.name, unit: first.unit, quantity, useBy: oldestLeft(events, quantity) }];
    },
  );
  return waiting.toSorted((one, other) => ((one.useBy ?? '9999') < (other.useBy ?? '9999') ? -1 : 1));
}

/** What waits of each material by the day by which it must be used, the oldest used first. */
export async function waitingByDay(
  db: Database,
  householdId: HouseholdId,
): Promise<
  ReadonlyMap<string, readonly { readonly quantity: number; readonly useBy: CalendarDate | null }[]>
> {
  return new Map(
    [...(await eventsByMaterial(db, householdId))].map(([id, events]) => [
      id,
      waitingOf(
        events,
        events.reduce((sum, event) => sum + event.quantity, 0),
      ).flatMap(({ event, waits }) =>
        waits > smallestAmount ? [{ quantity: waits, useBy: event.use_by as CalendarDate | null }] : [],
      ),
    ]),
  );
}

interface MaterialEvent {
  readonly quantity: number;
  readonly use_by: string | null;
  readonly result_id: string | null;
  readonly kind: string;
}

/**
 * What came in and still stands, oldest first: a by-product taken back with its batch does not count, and what an undone batch
 * had used came in before.
 */
const arrivalsIn = <Event extends MaterialEvent>(
  events: readonly Event[],
): readonly { readonly event: Event; readonly came: number }[] =>
  events
    .filter(({ quantity, kind }) => quantity > 0 && kind !== 'used')
    .map((event) => {
      const takenBack = events.filter(
        ({ quantity, result_id, kind }) =>
          kind !== 'used' && quantity < 0 && result_id !== null && result_id === event.result_id,
      );
      return { event, came: takenBack.reduce((sum, { quantity }) => sum + quantity, event.quantity) };
    })
    .filter(({ came }) => came > smallestAmount);

/** Of each arrival what still waits, when `left` waits in all: what came first is used first. */
function waitingOf<Event extends MaterialEvent>(events: readonly Event[], left: number) {
  let still = left;
  return arrivalsIn(events)
    .toReversed()
    .map(({ event, came }) => {
      const waits = Math.max(0, Math.min(came, still));
      still -= waits;
      return { event, came, waits };
    });
}

const oldestLeft = (events: readonly MaterialEvent[], left: number): CalendarDate | null => {
  const days = waitingOf(events, left).flatMap(({ event, waits }) =>
    waits > smallestAmount && event.use_by !== null ? [event.use_by] : [],
  );
  return (days.toSorted()[0] ?? null) as CalendarDate | null;
};

/** What a batch left over, and how much of it still waits. */
export interface ByProductArrival {
  readonly materialId: string;
  readonly unit: string;
  readonly on: CalendarDate;
  readonly came: number;
  readonly waits: number;
}

export async function arrivalsOf(
  db: Database,
  householdId: HouseholdId,
  resultId: string,
): Promise<readonly ByProductArrival[]> {
  const own = await db
    .selectFrom('material_event')
    .select('subject')
    .distinct()
    .where('household_id', '=', householdId)
    .where('result_id', '=', resultId)
    .execute();
  if (own.length === 0) return [];
  const events = await db
    .selectFrom('material_event')
    .selectAll()
    .where('household_id', '=', householdId)
    .where(
      'subject',
      'in',
      own.map(({ subject }) => subject),
    )
    .orderBy('seq')
    .execute();
  return [...groupedBy(events, (row) => row.subject)].flatMap(([materialId, ofMaterial]) =>
    waitingOf(
      ofMaterial,
      ofMaterial.reduce((sum, { quantity }) => sum + quantity, 0),
    )
      .filter(({ event }) => event.result_id === resultId)
      .map(({ event, came, waits }) => ({
        materialId,
        unit: event.unit,
        on: event.occurred_on as CalendarDate,
        came,
        waits,
      })),
  );
}
