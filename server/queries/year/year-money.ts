import type { HouseholdId } from '../../../shared/ids.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Database } from '../../database/database.ts';
import { standingLots } from '../household/kitchen.ts';

/** What was paid for lots that came ready-made, by item, from a day up to and without another. */
export async function paidByItem(
  db: Database,
  householdId: HouseholdId,
  span: { readonly from: CalendarDate; readonly until: CalendarDate },
): Promise<ReadonlyMap<string, Cents>> {
  const rows = await standingLots(db, householdId)
    .select((row) => ['item_id', row.fn.sum<number>('cost_cents').as('paid')])
    .where('made_on', '>=', span.from)
    .where('made_on', '<', span.until)
    .where('cost_cents', 'is not', null)
    .groupBy('item_id')
    .execute();
  return new Map(rows.map((row) => [row.item_id, asCents(row.paid)]));
}
