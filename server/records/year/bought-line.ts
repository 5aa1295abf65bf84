import type { Cents } from '../../../shared/money.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { PurchaseLine } from '../../../src/household/purchase.ts';
import type { Recorder } from '../record.ts';
import { newEntryId } from '../shelf/jar-events.ts';
import type { TaughtPrice } from './paid-prices.ts';

/** What became of a line of the shopping list. */
export interface NewBoughtLine {
  readonly decision: 'bought' | 'skipped';
  readonly quantity: number;
  readonly cost: Cents;
  readonly on: CalendarDate;
  /** Whether nothing of the line is asked for any more. */
  readonly settles: boolean;
  /** What raised what is on hand; null where nothing did. */
  readonly entryId: string | null;
  /** What its price was before, and is by what was paid; null where it taught none. */
  readonly price: TaughtPrice | null;
}

/** Writes down what became of a line; answers the id by which it is taken back. */
export async function addBoughtLine(
  { trx, householdId, at }: Recorder,
  { week, kind, what, pack }: PurchaseLine,
  { decision, quantity, cost, on, settles, entryId, price }: NewBoughtLine,
): Promise<string> {
  const id = newEntryId();
  await trx
    .insertInto('bought')
    .values({
      household_id: householdId,
      id,
      week,
      kind,
      what,
      pack_id: pack,
      decision,
      quantity,
      cost_cents: cost,
      bought_on: on,
      settles: settles ? 1 : 0,
      entry_id: entryId,
      price_before_cents: price?.before ?? null,
      price_taught_cents: price?.taught ?? null,
      recorded_at: at,
      undone_at: null,
    })
    .execute();
  return id;
}
