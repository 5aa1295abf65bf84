import { bounds, eitherWay, moneyBounds } from '../../shared/bounds.ts';
import { purchaseKinds } from '../../src/household/purchase.ts';
import { table } from './carried-table.ts';
import {
  centsOf,
  day,
  dayAfter,
  flag,
  instant,
  key,
  oneOf,
  orNone,
  sequence,
  week,
  within,
} from './column-kinds.ts';

// Of lines of the shopping list that were bought or skipped, and of supplies and crops that came and went.

export const buyingColumns = {
  bought: table('Bought or skipped', 20_000, ['id'], {
    id: key,
    week,
    kind: oneOf(purchaseKinds),
    what: key,
    pack_id: orNone(key),
    decision: oneOf(['bought', 'skipped']),
    quantity: within(bounds.boughtQuantity),
    cost_cents: centsOf(moneyBounds.paid),
    bought_on: day,
    settles: flag,
    entry_id: orNone(key),
    price_before_cents: orNone(centsOf(moneyBounds.pack)),
    price_taught_cents: orNone(centsOf({ ...moneyBounds.pack, from: 0.01 })),
    recorded_at: instant,
    undone_at: orNone(instant),
  }),
  store_event: table('Supplies and crops that came and went', 60_000, ['seq'], {
    seq: sequence,
    entry_id: key,
    store: oneOf(['supply', 'crop']),
    subject: key,
    kind: oneOf(['bought', 'used', 'counted', 'reversed']),
    quantity: within(eitherWay(bounds.lbPerWeek)),
    source_id: orNone(key),
    use_by: orNone(dayAfter),
    occurred_on: day,
    recorded_at: instant,
  }),
} as const;
