import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Database } from '../database/database.ts';
import { groupedBy } from './row.ts';

/** By-products, frozen or fresh material that waits, with the day by which it must be used. */
export interface WaitingMaterial {
  readonly id: string;
  readonly name: string;
  readonly quantity: number;
  readonly unit: string;
  /** The earliest of the days of what is still there, the oldest used first; null where none was said. */
  readonly useBy: CalendarDate | null;
}

const smallestAmount = 1e-9;

/** What waits now, the most pressing first. */
export async function waitingMaterials(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly WaitingMaterial[]> {
  const rows = await db
    .selectFrom('material_event as event')
    .innerJoin('material', (join) =>
      join
        .onRef('material.household_id', '=', 'event.household_id')
        .onRef('material.id', '=', 'event.subject'),
    )
    .where('event.household_id', '=', householdId)
    .orderBy('event.seq')
    .select(['material.id', 'material.name', 'material.unit', 'event.quantity', 'event.use_by'])
    .execute();
  const waiting = [...groupedBy(rows, (row) => row.id)].flatMap(([id, events]): WaitingMaterial[] => {
    const [first] = events;
    const quantity = events.reduce((sum, event) => sum + event.quantity, 0);
    if (!first || quantity <= smallestAmount) return [];
    return [{ id, name: first.name, unit: first.unit, quantity, useBy: oldestLeft(events, quantity) }];
  });
  return waiting.toSorted((one, other) => ((one.useBy ?? '9999') < (other.useBy ?? '9999') ? -1 : 1));
}

/** Of what came in, the last arrivals are what is left; the oldest of them has the earliest day. */
function oldestLeft(
  events: readonly { readonly quantity: number; readonly use_by: string | null }[],
  left: number,
): CalendarDate | null {
  let still = left;
  let useBy: string | null = null;
  for (const event of events.toReversed()) {
    if (event.quantity <= 0) continue;
    if (still <= smallestAmount) break;
    still -= event.quantity;
    if (event.use_by !== null && (useBy === null || event.use_by < useBy)) useBy = event.use_by;
  }
  return useBy as CalendarDate | null;
}
