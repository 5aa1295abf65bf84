import type { Generated } from 'kysely';
import type { DateText, Flag, Instant } from './columns.ts';

/** How things are made, and of what. */
export interface RecipesTables {
  recipe: RecipeTable;
  recipe_produce: RecipeProduceTable;
  supply: SupplyTable;
  recipe_supply: RecipeSupplyTable;
  recipe_stage: RecipeStageTable;
  name_denial: NameDenialTable;
  recipe_way: RecipeWayTable;
  material: MaterialTable;
  recipe_material: RecipeMaterialTable;
  guess: GuessTable;
}

export interface RecipeTable {
  household_id: string;
  id: string;
  item_id: string;
  name: string;
  based_on: string;
  process_food: string | null;
  process_style: string | null;
  process_pack: string | null;
  canner_id: string | null;
  jar_kind: string | null;
  yield_low: number;
  yield_high: number;
  hands_on_minutes: number;
  ready_after_days: Generated<number>;
  crock_quarts: number | null;
  crock_days: number | null;
  season_from_month: number | null;
  season_until_month: number | null;
  retired_on: DateText | null;
  changes_json: Generated<string>;
  /** Why a process that was brought in with it was not believed. */
  process_refused: string | null;
}

export interface RecipeProduceTable {
  household_id: string;
  recipe_id: string;
  crop: string;
  lb: number;
  may_be_frozen: Generated<Flag>;
}

export interface SupplyTable {
  household_id: string;
  id: string;
  name: string;
  unit: string;
  pack_quantity: number;
  pack_price_cents: number;
  on_hand: Generated<number>;
}

export interface RecipeSupplyTable {
  household_id: string;
  recipe_id: string;
  supply_id: string;
  quantity: number;
}

/** What somebody said is not in what a recipe makes, though a name of it seems to say so. */
export interface NameDenialTable {
  household_id: string;
  recipe_id: string;
  name: string;
  other_food: string;
  denied_by: string | null;
  denied_at: Instant;
}

export interface RecipeStageTable {
  household_id: string;
  recipe_id: string;
  position: number;
  name: string;
  after_days: number;
  hands_on_minutes: number;
}

/** Which printed way the household takes with a recipe; the newest line holds. */
export interface RecipeWayTable {
  seq: number;
  household_id: string;
  recipe_id: string;
  way: string;
  chosen_by: string | null;
  chosen_at: Instant;
}

export interface MaterialTable {
  household_id: string;
  id: string;
  name: string;
  unit: string;
  keeps_days_cold: number;
  keeps_months_frozen: number | null;
  quarts_per_unit: Generated<number>;
}

export interface RecipeMaterialTable {
  household_id: string;
  recipe_id: string;
  material_id: string;
  direction: 'gives' | 'uses';
  quantity: number;
}

export interface GuessTable {
  household_id: string;
  kind: 'source' | 'supply' | 'minutes';
  subject: string;
  guessed_at: Instant;
}
