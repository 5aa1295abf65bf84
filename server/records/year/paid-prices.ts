import { type Bound, moneyBounds } from '../../../shared/bounds.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import type { PurchaseLine } from '../../../src/household/purchase.ts';
import { isInMonths } from '../../../src/planning/year/months.ts';
import type { Recorder } from '../record.ts';

// What was paid teaches the price that plans count with: of the pack, the box, or a pound. A line bought for what was planned
// teaches nothing, nor does a gift, nor what is paid in the weeks of a sale, nor a price that no form would take.

/** A price as it stood, and as it is from now on. */
export interface TaughtPrice {
  readonly before: Cents;
  readonly taught: Cents;
}

interface Priced {
  /** The amount one price is for: units in a pack, jars in a pack, lids in a box, 1 lb. */
  readonly amount: number;
  readonly price: Cents;
  /** Of a price that its form takes, dollars. */
  readonly bound: Bound;
  /** In the week of the line another price stands in for it. */
  readonly isOnSale?: boolean;
  set(price: Cents): Promise<unknown>;
}

/** Sets the price of a line to what was paid for it; null where it taught nothing. */
export async function teachPrice(
  recorder: Recorder,
  line: PurchaseLine,
  { quantity, paid }: { readonly quantity: number; readonly paid: Cents },
): Promise<TaughtPrice | null> {
  const priced = await pricedBy(recorder, line);
  if (priced === null || priced.isOnSale || paid <= 0 || quantity <= 0) return null;
  const taught = asCents((paid * priced.amount) / quantity);
  if (taught <= 0 || taught > asCents(priced.bound.to * 100) || taught === priced.price) return null;
  await priced.set(taught);
  return { before: priced.price, taught };
}

/**
 * Gives a price back as it was before a line taught it at an instant, unless it was set to something else since. Where a later line taught it
 * anew, that line's price stands, and what it would give back is what stood before both.
 */
export async function forgetPrice(
  recorder: Recorder,
  line: PurchaseLine,
  { before, taught, at }: TaughtPrice & { readonly at: number },
): Promise<void> {
  const { trx, householdId } = recorder;
  const priced = await pricedBy(recorder, line);
  if (priced?.price === taught) await priced.set(before);
  await trx
    .updateTable('bought')
    .set({ price_before_cents: before })
    .where('household_id', '=', householdId)
    .where('kind', '=', line.kind)
    .where('what', '=', line.what)
    .where('pack_id', line.pack === null ? 'is' : '=', line.pack)
    .where('undone_at', 'is', null)
    .where('price_before_cents', '=', taught)
    .where('recorded_at', '>', at)
    .execute();
}

/** Where the price of a line stands; null where it has none of its own. */
async function pricedBy(
  { trx, householdId }: Recorder,
  { week, kind, what, pack }: PurchaseLine,
): Promise<Priced | null> {
  switch (kind) {
    case 'item': {
      const row = await trx
        .selectFrom('shop_pack')
        .selectAll()
        .where('household_id', '=', householdId)
        .where('item_id', '=', what)
        .where('id', '=', pack ?? '')
        .executeTakeFirst();
      if (row === undefined) return null;
      const { sale_from_month: fromMonth, sale_until_month: untilMonth } = row;
      return {
        amount: row.units,
        price: asCents(row.price_cents),
        bound: moneyBounds.pack,
        isOnSale: fromMonth !== null && untilMonth !== null && isInMonths(week, { fromMonth, untilMonth }),
        set: (price) =>
          trx
            .updateTable('shop_pack')
            .set({ price_cents: price })
            .where('household_id', '=', householdId)
            .where('item_id', '=', what)
            .where('id', '=', row.id)
            .execute(),
      };
    }
    case 'produce': {
      const row = await trx
        .selectFrom('source')
        .select(['kind', 'price_cents_per_lb'])
        .where('household_id', '=', householdId)
        .where('id', '=', what)
        .executeTakeFirst();
      if (row === undefined || row.kind === 'garden') return null;
      return {
        amount: 1,
        price: asCents(row.price_cents_per_lb),
        bound: moneyBounds.perLb,
        set: (price) =>
          trx
            .updateTable('source')
            .set({ price_cents_per_lb: price })
            .where('household_id', '=', householdId)
            .where('id', '=', what)
            .execute(),
      };
    }
    case 'supply': {
      const row = await trx
        .selectFrom('supply')
        .select(['pack_quantity', 'pack_price_cents'])
        .where('household_id', '=', householdId)
        .where('id', '=', what)
        .executeTakeFirst();
      if (row === undefined) return null;
      return {
        amount: row.pack_quantity,
        price: asCents(row.pack_price_cents),
        bound: moneyBounds.pack,
        set: (price) =>
          trx
            .updateTable('supply')
            .set({ pack_price_cents: price })
            .where('household_id', '=', householdId)
            .where('id', '=', what)
            .execute(),
      };
    }
    case 'jars': {
      const row = await trx
        .selectFrom('jar_holding')
        .select(['pack', 'price_cents'])
        .where('household_id', '=', householdId)
        .where('jar_kind', '=', what)
        .executeTakeFirst();
      if (row === undefined) return null;
      return {
        amount: row.pack,
        price: asCents(row.price_cents),
        bound: moneyBounds.jarPack,
        set: (price) =>
          trx
            .updateTable('jar_holding')
            .set({ price_cents: price })
            .where('household_id', '=', householdId)
            .where('jar_kind', '=', what)
            .execute(),
      };
    }
    case 'lids': {
      const row = await trx
        .selectFrom('lid_price')
        .selectAll()
        .where('household_id', '=', householdId)
        .where('mouth', '=', what === 'wide' ? 'wide' : 'regular')
        .executeTakeFirst();
      if (row === undefined) return null;
      return {
        amount: row.box,
        price: asCents(row.box_price_cents),
        bound: moneyBounds.lidBox,
        set: (price) =>
          trx
            .updateTable('lid_price')
            .set({ box_price_cents: price })
            .where('household_id', '=', householdId)
            .where('mouth', '=', row.mouth)
            .execute(),
      };
    }
  }
}
