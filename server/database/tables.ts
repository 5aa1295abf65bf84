import type { Generated } from 'kysely';

// One interface per table, exactly as SQLite holds it: text, numbers and nothing else. Rows stay inside server/queries and
// server/records; everything else works with the values those return. `Flag` is 0 or 1, `Instant` UTC milliseconds.
type Flag = number;
type Instant = number;
type DateText = string;
type WeekText = string;

export interface HouseholdTable {
  id: string;
  name: string;
  people: Generated<number>;
  time_zone: string;
  locale: Generated<string>;
  units: Generated<'us' | 'metric'>;
  week_starts_on: Generated<'monday' | 'sunday'>;
  region: string | null;
  altitude_ft: number | null;
  storage_temperature_f: number | null;
  crock_quarts: Generated<number>;
  freezer_quarts_per_day: number | null;
  discard_ceiling_months: Generated<number>;
  is_demo: Generated<Flag>;
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
}

export interface KitchenTimeTable {
  household_id: string;
  sessions_per_week: Generated<number>;
  hours_per_session: Generated<number>;
  set_up_minutes: Generated<number>;
  session_weekday: Generated<number>;
}

export interface WeekTimeTable {
  household_id: string;
  week: WeekText;
  sessions: number;
  hours_per_session: number | null;
  reason: string | null;
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
}

export interface JarHoldingTable {
  household_id: string;
  jar_kind: string;
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

export interface ItemTable {
  household_id: string;
  id: string;
  name: string;
  kind: 'preserve' | 'staple';
  keeping: 'canned' | 'frozen' | 'dried' | 'fermented' | 'cellar' | 'bought';
  family:
    | 'stone-fruit'
    | 'berries'
    | 'apples-pears'
    | 'tomatoes'
    | 'greens-beans'
    | 'roots'
    | 'pickles'
    | 'dry-goods'
    | 'meat-stock';
  unit: 'jar' | 'bag' | 'lb' | 'bin' | 'each';
  usual_jar: string | null;
  servings_per_unit: number | null;
  shelf_life_key: string | null;
  best_quality_days: Generated<number>;
  keep_cold_days: number | null;
  chance_wanted: Generated<number>;
  family_minimum_units: number | null;
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

export interface RecipeStageTable {
  household_id: string;
  recipe_id: string;
  position: number;
  name: string;
  after_days: number;
  hands_on_minutes: number;
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

export interface SourceTable {
  household_id: string;
  id: string;
  crop: string;
  name: string;
  kind: 'garden' | 'pick-your-own' | 'market';
  price_cents_per_lb: Generated<number>;
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
}

export interface LotTable {
  household_id: string;
  id: string;
  item_id: string;
  batch_code: string;
  jar_kind: string | null;
  origin: 'put-up' | 'bought' | 'received';
  made_on: DateText;
  ready_from: DateText;
  best_quality_until: DateText;
  place_id: string | null;
  cost_cents: number | null;
  set_aside_at: Instant | null;
  set_aside_reason: string | null;
  recipe_id: string | null;
  recorded_at: Instant;
}

export interface ProcessingEvidenceTable {
  household_id: string;
  lot_id: string;
  canner_id: string;
  method: string;
  gauge: string | null;
  schedule_row: string;
  altitude_ft: number;
  psi: number | null;
  minutes_run: number;
  acid_ticked: Flag | null;
  done_by: string;
}

export type JarEventKind =
  | 'put up'
  | 'bought'
  | 'received'
  | 'taken'
  | 'given away'
  | 'discarded'
  | 'seal failed'
  | 'counted'
  | 'moved'
  | 'finished'
  | 'reversed';

export interface JarEventTable {
  seq: Generated<number>;
  household_id: string;
  entry_id: string;
  lot_id: string;
  kind: JarEventKind;
  units: number;
  trains_use: Generated<Flag>;
  reason: string | null;
  occurred_on: DateText;
  recorded_at: Instant;
  recorded_by: string | null;
  reverses_seq: number | null;
}

export interface JarConflictTable {
  household_id: string;
  id: string;
  item_id: string;
  lot_id: string | null;
  kind: string;
  units: number;
  occurred_on: DateText;
  recorded_at: Instant;
  settled_at: Instant | null;
  settled_as: string | null;
}

export interface ShelfCountTable {
  household_id: string;
  id: string;
  item_id: string;
  counted_on: DateText;
  book_units: number;
  counted_units: number;
  explained_as: 'taken-unrecorded' | 'miscount' | 'breakage' | 'gift' | 'found';
  recorded_at: Instant;
}

export interface EmptyJarEventTable {
  seq: Generated<number>;
  household_id: string;
  entry_id: string;
  jar_kind: string;
  kind: 'emptied' | 'filled' | 'bought' | 'lent' | 'returned' | 'broken' | 'counted';
  jars: number;
  occurred_on: DateText;
  recorded_at: Instant;
}

export interface MaterialEventTable {
  seq: Generated<number>;
  household_id: string;
  subject: string;
  kind: 'picked' | 'bought' | 'left-over' | 'frozen' | 'used' | 'lost';
  quantity: number;
  unit: string;
  use_by: DateText | null;
  occurred_on: DateText;
  recorded_at: Instant;
}

export interface PlanTable {
  household_id: string;
  id: string;
  as_of: DateText;
  facts_version: number;
  input_json: string;
  result_json: string;
  made_at: Instant;
}

export interface KeptTable {
  household_id: string;
  recipe_id: string;
  week: WeekText;
  decision: 'pinned' | 'ruled-out' | 'done';
  batches: number | null;
  decided_at: Instant;
}

export interface NoticeTable {
  household_id: string;
  id: string;
  kind: string;
  subject: string;
  reason: string;
  due_on: DateText | null;
  state: Generated<'open' | 'snoozed' | 'done' | 'gone'>;
  snoozed_until: DateText | null;
  first_seen_at: Instant;
  changed_at: Instant;
  sent_at: Instant | null;
}

export interface IdempotencyTable {
  household_id: string;
  key: string;
  request_hash: string;
  answer_json: string;
  recorded_at: Instant;
}

export interface CanningSessionTable {
  household_id: string;
  session_on: DateText;
  setting_json: string;
  work_json: string;
  opened_at: Instant;
}

export interface SessionTickTable {
  household_id: string;
  session_on: DateText;
  load_key: string;
  step: string;
  ticked_at: Instant;
}

export interface LoadClockEventTable {
  seq: Generated<number>;
  household_id: string;
  session_on: DateText;
  load_key: string;
  kind: 'started' | 'interrupted';
  why: 'boil-stopped' | 'pressure-dropped' | 'power-cut' | null;
  at: Instant;
}

export interface PrintedSheetTable {
  household_id: string;
  number: number;
  session_on: DateText;
  basis_json: string;
  printed_at: Instant;
}

export interface BatchResultTable {
  household_id: string;
  id: string;
  recipe_id: string;
  made_on: DateText;
  batches: number;
  jars: number;
  minutes_taken: number | null;
  processed_at: Instant;
  note: Generated<string>;
  recorded_at: Instant;
}

export interface BatchResultLotTable {
  household_id: string;
  result_id: string;
  lot_id: string;
}

export interface SealCheckTable {
  household_id: string;
  lot_id: string;
  checked_at: Instant;
  failed: number;
  choice: 'reprocess' | 'freeze' | 'refrigerate' | 'discard' | null;
}

export interface LotStandingEventTable {
  seq: Generated<number>;
  household_id: string;
  lot_id: string;
  kind: 'set-aside' | 'released';
  reason: Generated<string>;
  at: Instant;
}

export interface CalendarFeedTable {
  household_id: string;
  token: string;
  canning: Generated<Flag>;
  shopping: Generated<Flag>;
  best_quality: Generated<Flag>;
  harvest: Generated<Flag>;
  created_at: Instant;
}

export interface CalendarEntryTable {
  household_id: string;
  uid: string;
  content_hash: string;
  sequence: Generated<number>;
  created_at: Instant;
  changed_at: Instant;
}

export interface LabelGridTable {
  household_id: string;
  paper: 'A4' | 'Letter';
  columns: number;
  rows: number;
  width_mm: number;
  height_mm: number;
  left_mm: number;
  top_mm: number;
  across_mm: number;
  down_mm: number;
  address: Generated<string>;
}

export interface ImportDraftTable {
  household_id: string;
  id: string;
  kind: 'stock' | 'past use';
  file_name: string;
  content: string;
  received_at: Instant;
}

export interface NoticeLeadTable {
  household_id: string;
  kind: string;
  days: number | null;
}

export interface MailWishTable {
  household_id: string;
  address: string;
  weekly: Generated<Flag>;
  weekday: Generated<number>;
  urgent: Generated<Flag>;
}

export interface LetterTable {
  household_id: string;
  id: string;
  about: string;
  recipient: string;
  subject: string;
  plain: string;
  html: string;
  notices_json: string;
  written_at: Instant;
  attempts: Generated<number>;
  try_at: Instant | null;
  failure: string | null;
  sent_at: Instant | null;
}

export interface GuessTable {
  household_id: string;
  kind: 'source' | 'supply' | 'minutes';
  subject: string;
  guessed_at: Instant;
}

export interface PersonTable {
  id: string;
  name: string;
  passphrase_hash: string;
  created_at: Instant;
}

export interface MembershipTable {
  household_id: string;
  person_id: string;
  role: 'owner' | 'cook' | 'helper' | 'reader';
  since_at: Instant;
}

export interface InvitationTable {
  household_id: string;
  token_hash: string;
  role: 'owner' | 'cook' | 'helper' | 'reader';
  made_at: Instant;
  expires_at: Instant;
}

export interface SignInTable {
  token_hash: string;
  person_id: string;
  began_at: Instant;
  seen_at: Instant;
}

export interface SignInFailureTable {
  seq: Generated<number>;
  subject: string;
  failed_at: Instant;
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

export interface JobTable {
  seq: Generated<number>;
  kind: 'notices' | 'replan' | 'backup';
  subject: string;
  for_on: DateText;
  due_at: Instant;
  attempts: Generated<number>;
  leased_until: Instant | null;
  finished_at: Instant | null;
  failure: string | null;
}

/** Every table of the program by its name. */
export interface Tables {
  household: HouseholdTable;
  place: PlaceTable;
  canner: CannerTable;
  kitchen_time: KitchenTimeTable;
  week_time: WeekTimeTable;
  away: AwayTable;
  school_holiday: SchoolHolidayTable;
  season_fund: SeasonFundTable;
  jar_holding: JarHoldingTable;
  lid_price: LidPriceTable;
  lid_box: LidBoxTable;
  item: ItemTable;
  item_group: ItemGroupTable;
  item_group_member: ItemGroupMemberTable;
  declared_use: DeclaredUseTable;
  season_multiplier: SeasonMultiplierTable;
  occasion: OccasionTable;
  hand_target: HandTargetTable;
  jar_wish: JarWishTable;
  shop_pack: ShopPackTable;
  recipe: RecipeTable;
  recipe_produce: RecipeProduceTable;
  supply: SupplyTable;
  recipe_supply: RecipeSupplyTable;
  recipe_stage: RecipeStageTable;
  material: MaterialTable;
  recipe_material: RecipeMaterialTable;
  source: SourceTable;
  harvest_window: HarvestWindowTable;
  lot: LotTable;
  processing_evidence: ProcessingEvidenceTable;
  jar_event: JarEventTable;
  jar_conflict: JarConflictTable;
  shelf_count: ShelfCountTable;
  empty_jar_event: EmptyJarEventTable;
  material_event: MaterialEventTable;
  plan: PlanTable;
  kept: KeptTable;
  notice: NoticeTable;
  idempotency: IdempotencyTable;
  canning_session: CanningSessionTable;
  session_tick: SessionTickTable;
  load_clock_event: LoadClockEventTable;
  printed_sheet: PrintedSheetTable;
  batch_result: BatchResultTable;
  batch_result_lot: BatchResultLotTable;
  seal_check: SealCheckTable;
  lot_standing_event: LotStandingEventTable;
  calendar_feed: CalendarFeedTable;
  calendar_entry: CalendarEntryTable;
  label_grid: LabelGridTable;
  import_draft: ImportDraftTable;
  notice_lead: NoticeLeadTable;
  mail_wish: MailWishTable;
  letter: LetterTable;
  guess: GuessTable;
  person: PersonTable;
  membership: MembershipTable;
  invitation: InvitationTable;
  sign_in: SignInTable;
  sign_in_failure: SignInFailureTable;
  job: JobTable;
}
