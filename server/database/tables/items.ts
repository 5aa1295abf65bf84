import type { Generated } from 'kysely';
import type { Family } from '../../../shared/family.ts';
import type { CountsAs } from '../../../shared/meal-kinds.ts';
import type { ItemUnit, Keeping } from '../../../src/household/item.ts';
import type { DateText, Flag, Instant } from './columns.ts';

/** What is kept, how much of it is eaten and wanted, and in which packs shops sell it. */
export interface ItemsTables {
  item: ItemTable;
  item_group: ItemGroupTable;
  item_group_member: ItemGroupMemberTable;
  declared_use: DeclaredUseTable;
  season_multiplier: SeasonMultiplierTable;
  occasion: OccasionTable;
  ordinary_use: OrdinaryUseTable;
  hand_target: HandTargetTable;
  shop_pack: ShopPackTable;
}

export interface ItemTable {
  household_id: string;
  id: string;
  name: string;
  kind: 'preserve' | 'staple';
  keeping: Keeping;
  family: Family;
  unit: ItemUnit;
  usual_jar: string | null;
  servings_per_unit: number | null;
  shelf_life_key: string | null;
  best_quality_days: Generated<number>;
  keep_cold_days: number | null;
  freezer_quarts: number | null;
  chance_wanted: Generated<number>;
  family_minimum_units: number | null;
  emergency_units: number | null;
  counts_as: CountsAs | null;
  retired_on: DateText | null;
}

export interface ItemGroupTable {
  household_id: string;
  id: string;
  name: string;
  total_units: number;
  unit_jar: string | null;
  least_kinds: Generated<number>;
  largest_share: Generated<number>;
}

export interface ItemGroupMemberTable {
  household_id: string;
  group_id: string;
  item_id: string;
}

export interface DeclaredUseTable {
  household_id: string;
  item_id: string;
  since_on: DateText;
  amount: number;
  per: 'week' | 'month' | 'year' | 'meal' | 'school-week';
  counted_in: 'units' | 'servings';
  people: number | null;
  meals_per_week: number | null;
  restarts_filter: Generated<Flag>;
  recorded_at: Instant;
}

export interface SeasonMultiplierTable {
  household_id: string;
  item_id: string;
  month: number;
  multiplier: number;
}

export interface OccasionTable {
  household_id: string;
  id: string;
  item_id: string;
  kind: 'occasion' | 'gift' | 'promised';
  on_date: DateText;
  units: number;
  note: Generated<string>;
  yearly: Generated<Flag>;
}

export interface OrdinaryUseTable {
  household_id: string;
  item_id: string;
  kind: 'week' | 'year';
  on_date: DateText;
}

export interface HandTargetTable {
  household_id: string;
  item_id: string;
  units: number;
  set_on: DateText;
}

export interface ShopPackTable {
  household_id: string;
  item_id: string;
  id: string;
  units: number;
  price_cents: number;
  buy_at_or_below_cents: number | null;
  sale_from_month: number | null;
  sale_until_month: number | null;
  sale_price_cents: number | null;
  /** 0: only says what a store asks for something that is put up here. */
  is_planned: Generated<Flag>;
}
