import type { Generated } from 'kysely';
import type { TradeMeasure } from '../../../shared/trade-measure.ts';
import type { DateText, Flag, Instant } from './columns.ts';

/** Where produce comes from and when, where the household gardens, and what waits to be used. */
export interface HarvestTables {
  source: SourceTable;
  harvest_window: HarvestWindowTable;
  material_event: MaterialEventTable;
  ground: GroundTable;
  season_lateness: SeasonLatenessTable;
  garden_yield: GardenYieldTable;
}

export interface SourceTable {
  household_id: string;
  id: string;
  crop: string;
  name: string;
  kind: 'garden' | 'pick-your-own' | 'market';
  price_cents_per_lb: Generated<number>;
  /** The trade measure the price was said in, and what one costs; null where it was said by weight. */
  price_measure: TradeMeasure | null;
  price_measure_cents: number | null;
  plants: number | null;
  lb_per_plant: number | null;
  use_by_days: Generated<number>;
  poor_year_chance: Generated<number>;
  poor_year_share: Generated<number>;
  fall_back: Generated<'buy' | 'substitute' | 'do-without'>;
  retired_on: DateText | null;
}

export interface HarvestWindowTable {
  household_id: string;
  source_id: string;
  year: number;
  begins_on: DateText;
  ends_on: DateText;
  most_active_from: DateText | null;
  most_active_until: DateText | null;
  lb_per_week: number;
  first_picked_on: DateText | null;
  dates_guessed: Generated<Flag>;
  usual_lb_per_week: number | null;
}

export interface GroundTable {
  household_id: string;
  town: string | null;
  station: string | null;
  state: string | null;
  last_frost: string | null;
  first_frost: string | null;
  strawberries_from: string | null;
}

export interface SeasonLatenessTable {
  household_id: string;
  year: number;
  crop: string;
  days: number;
}

export interface GardenYieldTable {
  household_id: string;
  source_id: string;
  year: number;
  lb: number;
  plants: number | null;
}

export interface MaterialEventTable {
  seq: number;
  household_id: string;
  subject: string;
  kind: 'picked' | 'bought' | 'left-over' | 'frozen' | 'used' | 'lost';
  quantity: number;
  unit: string;
  use_by: DateText | null;
  occurred_on: DateText;
  recorded_at: Instant;
  result_id: string | null;
}
