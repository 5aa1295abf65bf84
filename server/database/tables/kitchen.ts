import type { Generated } from 'kysely';
import type { DateText, Flag, Instant, WeekText } from './columns.ts';

/** The household and its kitchen: who, where, when there is time, and with what. */
export interface KitchenTables {
  household: HouseholdTable;
  place: PlaceTable;
  canner: CannerTable;
  kitchen_time: KitchenTimeTable;
  week_time: WeekTimeTable;
  session_rule: SessionRuleTable;
  session_pause: SessionPauseTable;
  away: AwayTable;
  school_holiday: SchoolHolidayTable;
  season_fund: SeasonFundTable;
  upkeep_task: UpkeepTaskTable;
  upkeep_event: UpkeepEventTable;
}

export interface HouseholdTable {
  id: string;
  name: string;
  people: Generated<number>;
  time_zone: string;
  locale: Generated<string>;
  /** ISO 4217 code. */
  currency: Generated<string>;
  units: Generated<'us' | 'metric'>;
  week_starts_on: Generated<'monday' | 'sunday'>;
  region: string | null;
  altitude_ft: number | null;
  storage_temperature_f: number | null;
  crock_quarts: Generated<number>;
  freezer_quarts_per_day: number | null;
  discard_ceiling_months: Generated<number>;
  recorded_since: DateText | null;
  emergency_days: number | null;
  water_gallons: number | null;
  water_filled_on: DateText | null;
  fruit_servings: number | null;
  vegetable_servings: number | null;
  protein_servings: number | null;
  sweet_servings: number | null;
  says_who_took: Generated<Flag>;
  is_demo: Generated<Flag>;
  /** Nobody owned it when this was last written: whether anybody does is asked of its members. */
  is_open: Generated<Flag>;
  /** The last night whose work is written down among the jobs. */
  noted_night: DateText | null;
  facts_version: Generated<number>;
  created_at: Instant;
}

export interface PlaceTable {
  household_id: string;
  id: string;
  name: string;
  kind: 'shelf' | 'cellar' | 'freezer' | 'refrigerator';
  capacity_quarts: number | null;
}

export interface CannerTable {
  household_id: string;
  id: string;
  name: string;
  method: 'boiling-water' | 'steam' | 'pressure';
  gauge: 'dial' | 'weighted' | null;
  gauge_checked_on: DateText | null;
  quart_jars: number;
  pint_jars: number;
  half_pint_jars: number;
  retired_on: DateText | null;
  gauge_off_at_5_psi: number | null;
  gauge_off_at_10_psi: number | null;
  gauge_off_at_15_psi: number | null;
  volume_quarts: number | null;
}

export interface KitchenTimeTable {
  household_id: string;
  sessions_per_week: Generated<number>;
  hours_per_session: Generated<number>;
  set_up_minutes: Generated<number>;
  stove_burners: Generated<number>;
  session_weekday: Generated<number>;
  /** Names with commas between; empty where nobody was named. */
  who: Generated<string>;
}

export interface WeekTimeTable {
  household_id: string;
  week: WeekText;
  sessions: number;
  hours_per_session: number | null;
  reason: string | null;
}

export interface SessionRuleTable {
  household_id: string;
  id: string;
  weekday: number;
  which: 'every' | 'first' | 'second' | 'third' | 'fourth' | 'last';
  hours: number;
  who: Generated<string>;
}

export interface SessionPauseTable {
  household_id: string;
  id: string;
  from_on: DateText;
  until_on: DateText;
  each_year: Flag;
}

export interface AwayTable {
  household_id: string;
  from_on: DateText;
  until_on: DateText;
}

export interface SchoolHolidayTable {
  household_id: string;
  from_on: DateText;
  until_on: DateText;
}

export interface SeasonFundTable {
  household_id: string;
  balance_cents: Generated<number>;
  balance_on: DateText;
  weekly_cents: Generated<number>;
  /** When the balance was said: what is bought later that day comes out of it; null for what was said before this was kept. */
  told_at: Instant | null;
}

/** What the household does to a canner or another device again and again. */
export interface UpkeepTaskTable {
  household_id: string;
  id: string;
  canner_id: string | null;
  device: string | null;
  name: string;
  every_months: number | null;
  retired_on: DateText | null;
}

export interface UpkeepEventTable {
  household_id: string;
  id: string;
  kind: 'gauge' | 'look-over' | 'own';
  canner_id: string | null;
  task_id: string | null;
  done_on: DateText;
  note: string | null;
  gauge_off_at_5_psi: number | null;
  gauge_off_at_10_psi: number | null;
  gauge_off_at_15_psi: number | null;
  recorded_by: string | null;
  recorded_at: Instant;
  undone_at: Instant | null;
}
