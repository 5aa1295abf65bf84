import type { Generated } from 'kysely';
import type { DateText, Flag, Instant, WeekText } from './columns.ts';

/** What was bought of the plan's list, and supplies and crops that came and went. */
export interface BuyingTables {
  bought: BoughtTable;
  store_event: StoreEventTable;
}

export interface BoughtTable {
  household_id: string;
  id: string;
  week: WeekText;
  kind: 'item' | 'produce' | 'supply' | 'jars' | 'lids';
  what: string;
  pack_id: string | null;
  decision: 'bought' | 'skipped';
  quantity: number;
  cost_cents: number;
  bought_on: DateText;
  /** 1: nothing more of the line is asked for; 0: the rest of it still is. */
  settles: Flag;
  /** What it raised: an entry of the ledger, of the empty jars or of the stores, or a box of lids; null for what was skipped. */
  entry_id: string | null;
  /** The price of its pack, box or pound before, and as what was paid taught it; null where it taught nothing. */
  price_before_cents: Generated<number | null>;
  price_taught_cents: Generated<number | null>;
  recorded_at: Instant;
  undone_at: Instant | null;
}

export interface StoreEventTable {
  seq: number;
  household_id: string;
  entry_id: string;
  store: 'supply' | 'crop';
  subject: string;
  kind: 'bought' | 'used' | 'counted' | 'reversed';
  quantity: number;
  source_id: string | null;
  use_by: DateText | null;
  occurred_on: DateText;
  recorded_at: Instant;
}
