import type { Generated } from 'kysely';
import type { DateText, Instant } from './columns.ts';

/** Jars and lids: owned, bought and empty, and which jar the household wants for what. */
export interface JarsTables {
  jar_holding: JarHoldingTable;
  lid_price: LidPriceTable;
  lid_box: LidBoxTable;
  empty_jar_event: EmptyJarEventTable;
  jar_wish: JarWishTable;
}

export interface JarHoldingTable {
  household_id: string;
  jar_kind: string;
  /** What an earlier version was told; read by nobody: what is owned is what is full, empty and away. */
  owned: Generated<number>;
  price_cents: Generated<number>;
  pack: Generated<number>;
  return_share: Generated<number>;
}

export interface LidPriceTable {
  household_id: string;
  mouth: 'regular' | 'wide';
  box: Generated<number>;
  box_price_cents: number;
}

export interface LidBoxTable {
  household_id: string;
  id: string;
  mouth: 'regular' | 'wide';
  lids: number;
  bought_on: DateText;
}

export interface EmptyJarEventTable {
  seq: number;
  household_id: string;
  entry_id: string;
  jar_kind: string;
  kind: 'emptied' | 'filled' | 'bought' | 'lent' | 'returned' | 'broken' | 'counted';
  jars: number;
  occurred_on: DateText;
  recorded_at: Instant;
}

export interface JarWishTable {
  household_id: string;
  item_id: string;
  meal_servings: number | null;
  gift_size: string | null;
  gift_jars: number | null;
  lunch_size: string | null;
  lunch_jars: number | null;
}
