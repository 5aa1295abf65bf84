import { type Kysely, sql } from 'kysely';

// The schema a PostgreSQL database begins with: what all the steps for a file came to when it was written, table by table. From
// here on a step is one for both.

/** A day of the calendar, `2026-08-17`; nothing is fit too, where a column may be empty. */
const isDay = `CREATE FUNCTION is_day(said text) RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE
    WHEN said IS NULL THEN true
    WHEN said ~ '^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$' THEN substr(said, 9, 2)::int <= CASE
      WHEN substr(said, 6, 2) IN ('04', '06', '09', '11') THEN 30
      WHEN substr(said, 6, 2) <> '02' THEN 31
      WHEN substr(said, 1, 4)::int % 4 = 0 AND (substr(said, 1, 4)::int % 100 <> 0 OR substr(said, 1, 4)::int % 400 = 0)
        THEN 29
      ELSE 28 END
    ELSE false END
$$`;

const isMinute = `CREATE FUNCTION is_minute(said text) RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
  SELECT said IS NULL OR (is_day(substr(said, 1, 10)) AND substr(said, 11) ~ '^T([01][0-9]|2[0-3]):[0-5][0-9]$')
$$`;

/** What is no JSON is refused by the cast itself. */
const isJson = `CREATE FUNCTION is_json(said text) RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
  SELECT said IS NULL OR said::json IS NOT NULL
$$`;

const tables = [
  `CREATE TABLE household (
    "id" text COLLATE "C" NOT NULL PRIMARY KEY,
    "name" text COLLATE "C" NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
    "people" bigint NOT NULL DEFAULT 2 CHECK (people BETWEEN 1 AND 40),
    "time_zone" text COLLATE "C" NOT NULL,
    "locale" text COLLATE "C" NOT NULL DEFAULT 'en-US',
    "units" text COLLATE "C" NOT NULL DEFAULT 'us' CHECK (units IN ('us', 'metric')),
    "week_starts_on" text COLLATE "C" NOT NULL DEFAULT 'sunday' CHECK (week_starts_on IN ('monday', 'sunday')),
    "region" text COLLATE "C",
    "altitude_ft" double precision CHECK (altitude_ft BETWEEN -1500 AND 20000),
    "storage_temperature_f" double precision CHECK (storage_temperature_f BETWEEN -40 AND 140),
    "crock_quarts" double precision NOT NULL DEFAULT 0 CHECK (crock_quarts >= 0),
    "freezer_quarts_per_day" double precision CHECK (freezer_quarts_per_day >= 0),
    "discard_ceiling_months" bigint NOT NULL DEFAULT 18 CHECK (discard_ceiling_months BETWEEN 12 AND 60),
    "is_demo" bigint NOT NULL DEFAULT 0 CHECK (is_demo IN (0, 1)),
    "facts_version" bigint NOT NULL DEFAULT 1,
    "created_at" bigint NOT NULL,
    "recorded_since" text COLLATE "C" CHECK (is_day(recorded_since)),
    "currency" text COLLATE "C" NOT NULL DEFAULT 'USD' CHECK (currency ~ '^[A-Z]{3}$'),
    "emergency_days" bigint CHECK (emergency_days BETWEEN 1 AND 90),
    "water_gallons" double precision CHECK (water_gallons >= 0),
    "water_filled_on" text COLLATE "C",
    "fruit_servings" double precision CHECK (fruit_servings >= 0),
    "vegetable_servings" double precision CHECK (vegetable_servings >= 0),
    "protein_servings" double precision CHECK (protein_servings >= 0),
    "sweet_servings" double precision CHECK (sweet_servings >= 0),
    "says_who_took" bigint NOT NULL DEFAULT 0 CHECK (says_who_took IN (0, 1)),
    "is_open" bigint NOT NULL DEFAULT 1 CHECK (is_open IN (0, 1)),
    "noted_night" text COLLATE "C" CHECK (is_day(noted_night))
  )`,
  `CREATE TABLE away (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "from_on" text COLLATE "C" NOT NULL CHECK (is_day(from_on)),
    "until_on" text COLLATE "C" NOT NULL CHECK (is_day(until_on)),
    CHECK (from_on < until_on),
    PRIMARY KEY (household_id, from_on)
  )`,
  `CREATE TABLE canner (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "method" text COLLATE "C" NOT NULL CHECK (method IN ('boiling-water', 'steam', 'pressure')),
    "gauge" text COLLATE "C" CHECK (gauge IN ('dial', 'weighted')),
    "gauge_checked_on" text COLLATE "C" CHECK (is_day(gauge_checked_on)),
    "quart_jars" bigint NOT NULL CHECK (quart_jars BETWEEN 0 AND 40),
    "pint_jars" bigint NOT NULL CHECK (pint_jars BETWEEN 0 AND 60),
    "half_pint_jars" bigint NOT NULL CHECK (half_pint_jars BETWEEN 0 AND 100),
    "retired_on" text COLLATE "C" CHECK (is_day(retired_on)),
    "gauge_off_at_5_psi" double precision CHECK ("gauge_off_at_5_psi" BETWEEN -15 AND 15),
    "gauge_off_at_10_psi" double precision CHECK ("gauge_off_at_10_psi" BETWEEN -15 AND 15),
    "gauge_off_at_15_psi" double precision CHECK ("gauge_off_at_15_psi" BETWEEN -15 AND 15),
    "volume_quarts" double precision CHECK (volume_quarts BETWEEN 1 AND 60),
    CHECK (method = 'pressure' OR gauge IS NULL),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE item (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('preserve', 'staple')),
    "family" text COLLATE "C" NOT NULL CHECK (family IN ('stone-fruit', 'berries', 'apples-pears', 'tomatoes', 'greens-beans', 'roots', 'pickles', 'dry-goods', 'meat-stock')),
    "unit" text COLLATE "C" NOT NULL CHECK (unit IN ('jar', 'bag', 'lb', 'bin', 'each')),
    "usual_jar" text COLLATE "C" CHECK (usual_jar LIKE '%/%'),
    "servings_per_unit" double precision CHECK (servings_per_unit > 0),
    "shelf_life_key" text COLLATE "C",
    "best_quality_days" bigint NOT NULL DEFAULT 365 CHECK (best_quality_days BETWEEN 1 AND 3650),
    "keep_cold_days" bigint CHECK (keep_cold_days BETWEEN 1 AND 400),
    "chance_wanted" double precision NOT NULL DEFAULT 0.9 CHECK (chance_wanted BETWEEN 0.5 AND 0.99),
    "family_minimum_units" double precision CHECK (family_minimum_units >= 0),
    "retired_on" text COLLATE "C" CHECK (is_day(retired_on)),
    "freezer_quarts" double precision CHECK (freezer_quarts > 0),
    "emergency_units" bigint CHECK (emergency_units > 0),
    "counts_as" text COLLATE "C" CHECK (counts_as IN ('fruit', 'vegetable', 'protein', 'sweet', 'none')),
    "keeping" text COLLATE "C" NOT NULL DEFAULT 'canned' CHECK (keeping IN ('canned', 'frozen', 'dried', 'fermented', 'cellar', 'refrigerated', 'bought')),
    CHECK ((unit = 'jar') = (usual_jar IS NOT NULL)),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE recipe (
    "household_id" text COLLATE "C" NOT NULL,
    "id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "based_on" text COLLATE "C" NOT NULL,
    "process_food" text COLLATE "C",
    "process_style" text COLLATE "C",
    "process_pack" text COLLATE "C",
    "canner_id" text COLLATE "C",
    "jar_kind" text COLLATE "C",
    "yield_low" double precision NOT NULL CHECK (yield_low > 0),
    "yield_high" double precision NOT NULL,
    "hands_on_minutes" bigint NOT NULL CHECK (hands_on_minutes BETWEEN 0 AND 1440),
    "ready_after_days" bigint NOT NULL DEFAULT 0 CHECK (ready_after_days BETWEEN 0 AND 400),
    "crock_quarts" double precision CHECK (crock_quarts > 0),
    "crock_days" bigint CHECK (crock_days > 0),
    "season_from_month" bigint CHECK (season_from_month BETWEEN 1 AND 12),
    "season_until_month" bigint CHECK (season_until_month BETWEEN 1 AND 12),
    "retired_on" text COLLATE "C" CHECK (is_day(retired_on)),
    "changes_json" text COLLATE "C" NOT NULL DEFAULT '[]' CHECK (is_json(changes_json) AND json_typeof(changes_json::json) = 'array'),
    "process_refused" text COLLATE "C",
    CHECK (yield_high >= yield_low),
    CHECK ((canner_id IS NULL) OR (process_food IS NOT NULL AND process_style IS NOT NULL AND process_pack IS NOT NULL AND jar_kind IS NOT NULL)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id)
  )`,
  `CREATE TABLE batch_result (
    "household_id" text COLLATE "C" NOT NULL,
    "id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "made_on" text COLLATE "C" NOT NULL CHECK (is_day(made_on)),
    "batches" bigint NOT NULL CHECK (batches >= 0),
    "jars" double precision NOT NULL CHECK (jars >= 0),
    "minutes_taken" bigint CHECK (minutes_taken > 0),
    "processed_at" bigint NOT NULL,
    "note" text COLLATE "C" NOT NULL DEFAULT '',
    "recorded_at" bigint NOT NULL,
    "session_on" text COLLATE "C" CHECK (is_day(session_on)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE place (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('shelf', 'cellar', 'freezer', 'refrigerator')),
    "capacity_quarts" double precision CHECK (capacity_quarts >= 0),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE lot (
    "household_id" text COLLATE "C" NOT NULL,
    "id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "batch_code" text COLLATE "C" NOT NULL,
    "jar_kind" text COLLATE "C" CHECK (jar_kind LIKE '%/%'),
    "origin" text COLLATE "C" NOT NULL CHECK (origin IN ('put-up', 'bought', 'received')),
    "made_on" text COLLATE "C" NOT NULL CHECK (is_day(made_on)),
    "ready_from" text COLLATE "C" NOT NULL CHECK (is_day(ready_from)),
    "best_quality_until" text COLLATE "C" NOT NULL CHECK (is_day(best_quality_until)),
    "place_id" text COLLATE "C",
    "cost_cents" bigint CHECK (cost_cents >= 0),
    "set_aside_at" bigint,
    "set_aside_reason" text COLLATE "C",
    "recipe_id" text COLLATE "C",
    "recorded_at" bigint NOT NULL,
    CHECK (ready_from >= made_on),
    CHECK ((set_aside_at IS NULL) = (set_aside_reason IS NULL)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, place_id) REFERENCES place (household_id, id)
  )`,
  `CREATE TABLE batch_result_lot (
    "household_id" text COLLATE "C" NOT NULL,
    "result_id" text COLLATE "C" NOT NULL,
    "lot_id" text COLLATE "C" NOT NULL,
    PRIMARY KEY (household_id, lot_id),
    FOREIGN KEY (household_id, result_id) REFERENCES batch_result (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE person (
    "id" text COLLATE "C" NOT NULL PRIMARY KEY,
    "name" text COLLATE "C" NOT NULL CHECK (length(name) BETWEEN 1 AND 60),
    "passphrase_hash" text COLLATE "C" NOT NULL,
    "created_at" bigint NOT NULL,
    "factor_due_at" bigint,
    "name_key" text COLLATE "C" NOT NULL UNIQUE
  )`,
  `CREATE TABLE begin_permission (
    "person_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
    "allowed_at" bigint NOT NULL
  )`,
  `CREATE TABLE bought (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "week" text COLLATE "C" NOT NULL CHECK (week ~ '^[0-9]{4}-W[0-5][0-9]$'),
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('item', 'produce', 'supply', 'jars', 'lids')),
    "what" text COLLATE "C" NOT NULL,
    "pack_id" text COLLATE "C",
    "decision" text COLLATE "C" NOT NULL CHECK (decision IN ('bought', 'skipped')),
    "quantity" double precision NOT NULL CHECK (quantity >= 0),
    "cost_cents" bigint NOT NULL CHECK (cost_cents >= 0),
    "bought_on" text COLLATE "C" NOT NULL CHECK (is_day(bought_on)),
    "settles" bigint NOT NULL CHECK (settles IN (0, 1)),
    "entry_id" text COLLATE "C",
    "recorded_at" bigint NOT NULL,
    "undone_at" bigint,
    "price_before_cents" bigint CHECK (price_before_cents >= 0),
    "price_taught_cents" bigint CHECK (price_taught_cents > 0),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE calendar_entry (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "uid" text COLLATE "C" NOT NULL,
    "content_hash" text COLLATE "C" NOT NULL,
    "sequence" bigint NOT NULL DEFAULT 0 CHECK (sequence >= 0),
    "created_at" bigint NOT NULL,
    "changed_at" bigint NOT NULL,
    PRIMARY KEY (household_id, uid)
  )`,
  `CREATE TABLE calendar_feed (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "token" text COLLATE "C" NOT NULL CHECK (length(token) >= 32),
    "canning" bigint NOT NULL DEFAULT 1 CHECK (canning IN (0, 1)),
    "shopping" bigint NOT NULL DEFAULT 1 CHECK (shopping IN (0, 1)),
    "best_quality" bigint NOT NULL DEFAULT 1 CHECK (best_quality IN (0, 1)),
    "harvest" bigint NOT NULL DEFAULT 1 CHECK (harvest IN (0, 1)),
    "created_at" bigint NOT NULL
  )`,
  `CREATE TABLE canning_session (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "session_on" text COLLATE "C" NOT NULL CHECK (is_day(session_on)),
    "setting_json" text COLLATE "C" NOT NULL CHECK (is_json(setting_json)),
    "work_json" text COLLATE "C" NOT NULL CHECK (is_json(work_json)),
    "opened_at" bigint NOT NULL,
    PRIMARY KEY (household_id, session_on)
  )`,
  `CREATE TABLE clock_jump (
    "seq" bigint GENERATED BY DEFAULT AS IDENTITY PRIMARY KEY,
    "noticed_at" bigint NOT NULL,
    "ahead_until" bigint NOT NULL,
    CHECK (ahead_until > noticed_at)
  )`,
  `CREATE TABLE clock_reading (
    "id" bigint PRIMARY KEY CHECK (id = 1),
    "latest_at" bigint NOT NULL
  )`,
  `CREATE TABLE connected_thing (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "may" text COLLATE "C" NOT NULL CHECK (may IN ('read', 'read and take')),
    "token_hash" text COLLATE "C" NOT NULL,
    "made_by" text COLLATE "C",
    "made_at" bigint NOT NULL,
    "ends_on" text COLLATE "C" CHECK (is_day(ends_on)),
    "used_at" bigint,
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE declared_use (
    "household_id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "since_on" text COLLATE "C" NOT NULL CHECK (is_day(since_on)),
    "amount" double precision NOT NULL CHECK (amount >= 0),
    "per" text COLLATE "C" NOT NULL CHECK (per IN ('week', 'month', 'year', 'meal', 'school-week')),
    "counted_in" text COLLATE "C" NOT NULL CHECK (counted_in IN ('units', 'servings')),
    "people" double precision CHECK (people > 0),
    "meals_per_week" double precision CHECK (meals_per_week > 0),
    "restarts_filter" bigint NOT NULL DEFAULT 0 CHECK (restarts_filter IN (0, 1)),
    "recorded_at" bigint NOT NULL,
    PRIMARY KEY (household_id, item_id, since_on),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE empty_jar_event (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "entry_id" text COLLATE "C" NOT NULL,
    "jar_kind" text COLLATE "C" NOT NULL CHECK (jar_kind LIKE '%/%'),
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('emptied', 'filled', 'bought', 'lent', 'returned', 'broken', 'counted')),
    "jars" double precision NOT NULL,
    "occurred_on" text COLLATE "C" NOT NULL CHECK (is_day(occurred_on)),
    "recorded_at" bigint NOT NULL,
    PRIMARY KEY (household_id, seq)
  )`,
  `CREATE TABLE factor_requirement (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "required_at" bigint NOT NULL,
    "by_name" text COLLATE "C" NOT NULL
  )`,
  `CREATE TABLE source (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "crop" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('garden', 'pick-your-own', 'market')),
    "price_cents_per_lb" bigint NOT NULL DEFAULT 0 CHECK (price_cents_per_lb >= 0),
    "plants" bigint CHECK (plants >= 0),
    "lb_per_plant" double precision CHECK (lb_per_plant > 0),
    "use_by_days" bigint NOT NULL DEFAULT 3 CHECK (use_by_days BETWEEN 0 AND 365),
    "poor_year_chance" double precision NOT NULL DEFAULT 0 CHECK (poor_year_chance BETWEEN 0 AND 1),
    "poor_year_share" double precision NOT NULL DEFAULT 0.3 CHECK (poor_year_share BETWEEN 0 AND 1),
    "fall_back" text COLLATE "C" NOT NULL DEFAULT 'buy' CHECK (fall_back IN ('buy', 'substitute', 'do-without')),
    "retired_on" text COLLATE "C" CHECK (is_day(retired_on)),
    "price_measure" text COLLATE "C" CHECK (price_measure IN ('bushel', 'half-bushel', 'peck', 'lug', 'crate')),
    "price_measure_cents" bigint CHECK (price_measure_cents >= 0),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE garden_yield (
    "household_id" text COLLATE "C" NOT NULL,
    "source_id" text COLLATE "C" NOT NULL,
    "year" bigint NOT NULL CHECK (year BETWEEN 2000 AND 2200),
    "lb" double precision NOT NULL CHECK (lb >= 0),
    "plants" bigint CHECK (plants >= 0),
    PRIMARY KEY (household_id, source_id, year),
    FOREIGN KEY (household_id, source_id) REFERENCES source (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE glut_use (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "crop" text COLLATE "C" NOT NULL,
    "lb" double precision NOT NULL CHECK (lb > 0),
    "use_by" text COLLATE "C" NOT NULL CHECK (is_day(use_by)),
    "pins_json" text COLLATE "C" NOT NULL,
    "plan_before" text COLLATE "C",
    "plan_was_current" bigint NOT NULL CHECK (plan_was_current IN (0, 1)),
    "facts_version" bigint NOT NULL,
    "recorded_at" bigint NOT NULL,
    "undone_at" bigint,
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE ground (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "town" text COLLATE "C" CHECK (length(town) BETWEEN 1 AND 80),
    "station" text COLLATE "C" CHECK (length(station) BETWEEN 1 AND 20),
    "state" text COLLATE "C" CHECK (length(state) = 2),
    "last_frost" text COLLATE "C" CHECK (is_day('2001-' || last_frost)),
    "first_frost" text COLLATE "C" CHECK (is_day('2001-' || first_frost)),
    "strawberries_from" text COLLATE "C" CHECK (is_day('2001-' || strawberries_from))
  )`,
  `CREATE TABLE guess (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('source', 'supply', 'minutes')),
    "subject" text COLLATE "C" NOT NULL,
    "guessed_at" bigint NOT NULL,
    PRIMARY KEY (household_id, kind, subject)
  )`,
  `CREATE TABLE half_sign_in (
    "token_hash" text COLLATE "C" NOT NULL PRIMARY KEY,
    "person_id" text COLLATE "C" NOT NULL REFERENCES person (id) ON DELETE CASCADE,
    "expires_at" bigint NOT NULL
  )`,
  `CREATE TABLE hand_target (
    "household_id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "units" double precision NOT NULL CHECK (units >= 0),
    "set_on" text COLLATE "C" NOT NULL CHECK (is_day(set_on)),
    PRIMARY KEY (household_id, item_id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE harvest_window (
    "household_id" text COLLATE "C" NOT NULL,
    "source_id" text COLLATE "C" NOT NULL,
    "year" bigint NOT NULL CHECK (year BETWEEN 2000 AND 2200),
    "begins_on" text COLLATE "C" NOT NULL CHECK (is_day(begins_on)),
    "ends_on" text COLLATE "C" NOT NULL CHECK (is_day(ends_on)),
    "most_active_from" text COLLATE "C" CHECK (is_day(most_active_from)),
    "most_active_until" text COLLATE "C" CHECK (is_day(most_active_until)),
    "lb_per_week" double precision NOT NULL CHECK (lb_per_week >= 0),
    "first_picked_on" text COLLATE "C" CHECK (is_day(first_picked_on)),
    "dates_guessed" bigint NOT NULL DEFAULT 0 CHECK (dates_guessed IN (0, 1)),
    "usual_lb_per_week" double precision CHECK (usual_lb_per_week > 0),
    CHECK (begins_on < ends_on),
    CHECK (most_active_from IS NULL OR (most_active_from >= begins_on AND most_active_until <= ends_on AND most_active_from < most_active_until)),
    PRIMARY KEY (household_id, source_id, year),
    FOREIGN KEY (household_id, source_id) REFERENCES source (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE household_deletion (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "deleted_at" bigint NOT NULL,
    "by_name" text COLLATE "C" NOT NULL
  )`,
  `CREATE TABLE household_setup (
    "asker" text COLLATE "C" NOT NULL,
    "key" text COLLATE "C" NOT NULL CHECK (length(key) BETWEEN 8 AND 200),
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "made_at" bigint NOT NULL,
    PRIMARY KEY (asker, key)
  )`,
  `CREATE TABLE household_token (
    "token_hash" text COLLATE "C" NOT NULL PRIMARY KEY,
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "opens" text COLLATE "C" NOT NULL CHECK (opens IN ('invitation', 'calendar', 'interface', 'mail address'))
  )`,
  `CREATE TABLE idempotency (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "key" text COLLATE "C" NOT NULL CHECK (length(key) BETWEEN 8 AND 200),
    "request_hash" text COLLATE "C" NOT NULL,
    "answer_json" text COLLATE "C" NOT NULL CHECK (is_json(answer_json)),
    "recorded_at" bigint NOT NULL,
    PRIMARY KEY (household_id, key)
  )`,
  `CREATE TABLE import_draft (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('stock', 'past use')),
    "file_name" text COLLATE "C" NOT NULL,
    "content" text COLLATE "C" NOT NULL,
    "received_at" bigint NOT NULL,
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE invitation (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "token_hash" text COLLATE "C" NOT NULL,
    "role" text COLLATE "C" NOT NULL CHECK (role IN ('owner', 'cook', 'helper', 'reader')),
    "made_at" bigint NOT NULL,
    "expires_at" bigint NOT NULL,
    PRIMARY KEY (household_id, token_hash)
  )`,
  `CREATE TABLE item_group (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "total_units" double precision NOT NULL CHECK (total_units >= 0),
    "unit_jar" text COLLATE "C",
    "least_kinds" bigint NOT NULL DEFAULT 1 CHECK (least_kinds >= 1),
    "largest_share" double precision NOT NULL DEFAULT 1 CHECK (largest_share > 0 AND largest_share <= 1),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE item_group_member (
    "household_id" text COLLATE "C" NOT NULL,
    "group_id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    PRIMARY KEY (household_id, group_id, item_id),
    FOREIGN KEY (household_id, group_id) REFERENCES item_group (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE jar_conflict (
    "household_id" text COLLATE "C" NOT NULL,
    "id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "lot_id" text COLLATE "C",
    "kind" text COLLATE "C" NOT NULL,
    "units" double precision NOT NULL,
    "occurred_on" text COLLATE "C" NOT NULL CHECK (is_day(occurred_on)),
    "recorded_at" bigint NOT NULL,
    "settled_at" bigint,
    "settled_as" text COLLATE "C",
    CHECK ((settled_at IS NULL) = (settled_as IS NULL)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE jar_event (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL,
    "entry_id" text COLLATE "C" NOT NULL,
    "lot_id" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('put up', 'bought', 'received', 'taken', 'given away', 'discarded', 'seal failed', 'counted', 'moved', 'finished', 'reversed')),
    "units" double precision NOT NULL,
    "trains_use" bigint NOT NULL DEFAULT 0 CHECK (trains_use IN (0, 1)),
    "reason" text COLLATE "C",
    "occurred_on" text COLLATE "C" NOT NULL CHECK (is_day(occurred_on)),
    "recorded_at" bigint NOT NULL,
    "recorded_by" text COLLATE "C",
    "reverses_seq" bigint,
    "taken_by" text COLLATE "C",
    CHECK (kind NOT IN ('put up', 'bought', 'received') OR units > 0),
    CHECK (kind NOT IN ('taken', 'given away', 'discarded', 'seal failed') OR units < 0),
    CHECK (kind NOT IN ('moved', 'finished') OR units = 0),
    CHECK ((kind = 'reversed') = (reverses_seq IS NOT NULL)),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE,
    PRIMARY KEY (household_id, seq),
    UNIQUE (household_id, reverses_seq),
    FOREIGN KEY (household_id, reverses_seq) REFERENCES jar_event (household_id, seq)
  )`,
  `CREATE TABLE jar_holding (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "jar_kind" text COLLATE "C" NOT NULL CHECK (jar_kind LIKE '%/%'),
    "owned" bigint NOT NULL DEFAULT 0 CHECK (owned >= 0),
    "price_cents" bigint NOT NULL DEFAULT 0 CHECK (price_cents >= 0),
    "pack" bigint NOT NULL DEFAULT 12 CHECK (pack >= 1),
    "return_share" double precision NOT NULL DEFAULT 0.5 CHECK (return_share BETWEEN 0 AND 1),
    PRIMARY KEY (household_id, jar_kind)
  )`,
  `CREATE TABLE jar_wish (
    "household_id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "meal_servings" double precision CHECK (meal_servings > 0),
    "gift_size" text COLLATE "C",
    "gift_jars" bigint CHECK (gift_jars > 0),
    "lunch_size" text COLLATE "C",
    "lunch_jars" bigint CHECK (lunch_jars > 0),
    CHECK ((gift_size IS NULL) = (gift_jars IS NULL)),
    CHECK ((lunch_size IS NULL) = (lunch_jars IS NULL)),
    PRIMARY KEY (household_id, item_id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE job (
    "seq" bigint GENERATED BY DEFAULT AS IDENTITY PRIMARY KEY,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('notices', 'replan', 'backup', 'letter')),
    "subject" text COLLATE "C" NOT NULL,
    "for_on" text COLLATE "C" NOT NULL CHECK (is_day(for_on)),
    "due_at" bigint NOT NULL,
    "attempts" bigint NOT NULL DEFAULT 0 CHECK (attempts >= 0),
    "leased_until" bigint,
    "finished_at" bigint,
    "failure" text COLLATE "C",
    "household_id" text COLLATE "C",
    UNIQUE (kind, subject, for_on)
  )`,
  `CREATE TABLE kept (
    "household_id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "week" text COLLATE "C" NOT NULL CHECK (week ~ '^[0-9]{4}-W[0-5][0-9]$'),
    "decision" text COLLATE "C" NOT NULL CHECK (decision IN ('pinned', 'ruled-out', 'done')),
    "batches" bigint CHECK (batches >= 0),
    "decided_at" bigint NOT NULL,
    CHECK ((decision = 'ruled-out') = (batches IS NULL)),
    PRIMARY KEY (household_id, recipe_id, week),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE kitchen_time (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "sessions_per_week" bigint NOT NULL DEFAULT 1 CHECK (sessions_per_week BETWEEN 0 AND 4),
    "hours_per_session" double precision NOT NULL DEFAULT 5 CHECK (hours_per_session BETWEEN 0.5 AND 12),
    "set_up_minutes" bigint NOT NULL DEFAULT 45 CHECK (set_up_minutes BETWEEN 0 AND 240),
    "session_weekday" bigint NOT NULL DEFAULT 6 CHECK (session_weekday BETWEEN 1 AND 7),
    "stove_burners" bigint NOT NULL DEFAULT 4 CHECK (stove_burners BETWEEN 1 AND 20),
    "who" text COLLATE "C" NOT NULL DEFAULT ''
  )`,
  `CREATE TABLE label_grid (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "paper" text COLLATE "C" NOT NULL CHECK (paper IN ('A4', 'Letter')),
    "columns" bigint NOT NULL CHECK (columns BETWEEN 1 AND 12),
    "rows" bigint NOT NULL CHECK (rows BETWEEN 1 AND 40),
    "width_mm" double precision NOT NULL CHECK (width_mm BETWEEN 15 AND 220),
    "height_mm" double precision NOT NULL CHECK (height_mm BETWEEN 10 AND 300),
    "left_mm" double precision NOT NULL CHECK (left_mm BETWEEN 0 AND 100),
    "top_mm" double precision NOT NULL CHECK (top_mm BETWEEN 0 AND 100),
    "across_mm" double precision NOT NULL CHECK (across_mm BETWEEN 0 AND 100),
    "down_mm" double precision NOT NULL CHECK (down_mm BETWEEN 0 AND 100),
    "address" text COLLATE "C" NOT NULL DEFAULT ''
  )`,
  `CREATE TABLE letter (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "about" text COLLATE "C" NOT NULL,
    "recipient" text COLLATE "C" NOT NULL,
    "subject" text COLLATE "C" NOT NULL,
    "plain" text COLLATE "C" NOT NULL,
    "html" text COLLATE "C" NOT NULL,
    "notices_json" text COLLATE "C" NOT NULL CHECK (is_json(notices_json)),
    "written_at" bigint NOT NULL,
    "sent_at" bigint,
    "seq" bigint,
    PRIMARY KEY (household_id, id),
    UNIQUE (household_id, about)
  )`,
  `CREATE TABLE lid_box (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "mouth" text COLLATE "C" NOT NULL CHECK (mouth IN ('regular', 'wide')),
    "lids" bigint NOT NULL CHECK (lids >= 0),
    "bought_on" text COLLATE "C" NOT NULL CHECK (is_day(bought_on)),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE lid_price (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "mouth" text COLLATE "C" NOT NULL CHECK (mouth IN ('regular', 'wide')),
    "box" bigint NOT NULL DEFAULT 12 CHECK (box >= 1),
    "box_price_cents" bigint NOT NULL CHECK (box_price_cents >= 0),
    PRIMARY KEY (household_id, mouth)
  )`,
  `CREATE TABLE load_clock_event (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL,
    "session_on" text COLLATE "C" NOT NULL,
    "load_key" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('started', 'interrupted')),
    "why" text COLLATE "C" CHECK (why IN ('boil-stopped', 'pressure-dropped', 'power-cut')),
    "at" bigint NOT NULL,
    "steady_run" text COLLATE "C" CHECK (length(steady_run) BETWEEN 1 AND 80),
    "steady_ms" bigint CHECK (steady_ms >= 0 AND (steady_ms IS NULL) = (steady_run IS NULL)),
    CHECK ((kind = 'interrupted') = (why IS NOT NULL)),
    FOREIGN KEY (household_id, session_on) REFERENCES canning_session (household_id, session_on) ON DELETE CASCADE,
    PRIMARY KEY (household_id, seq)
  )`,
  `CREATE TABLE lot_move (
    "household_id" text COLLATE "C" NOT NULL,
    "entry_id" text COLLATE "C" NOT NULL,
    "lot_id" text COLLATE "C" NOT NULL,
    "from_place_id" text COLLATE "C",
    "from_name" text COLLATE "C",
    "to_place_id" text COLLATE "C" NOT NULL,
    "to_name" text COLLATE "C" NOT NULL,
    CHECK ((from_place_id IS NULL) = (from_name IS NULL)),
    PRIMARY KEY (household_id, entry_id),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE lot_standing_event (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL,
    "lot_id" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('set-aside', 'released')),
    "reason" text COLLATE "C" NOT NULL DEFAULT '',
    "at" bigint NOT NULL,
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE,
    PRIMARY KEY (household_id, seq)
  )`,
  `CREATE TABLE mail_confirmation (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "address" text COLLATE "C" NOT NULL CHECK (length(address) BETWEEN 3 AND 254),
    "token_hash" text COLLATE "C",
    "expires_at" bigint
  )`,
  `CREATE TABLE mail_wish (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "address" text COLLATE "C" NOT NULL CHECK (length(address) BETWEEN 3 AND 254),
    "weekly" bigint NOT NULL DEFAULT 1 CHECK (weekly IN (0, 1)),
    "weekday" bigint NOT NULL DEFAULT 5 CHECK (weekday BETWEEN 1 AND 7),
    "urgent" bigint NOT NULL DEFAULT 1 CHECK (urgent IN (0, 1)),
    "confirmed_at" bigint
  )`,
  `CREATE TABLE material (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "unit" text COLLATE "C" NOT NULL,
    "keeps_days_cold" bigint NOT NULL CHECK (keeps_days_cold >= 0),
    "keeps_months_frozen" bigint CHECK (keeps_months_frozen > 0),
    "quarts_per_unit" double precision NOT NULL DEFAULT 1 CHECK (quarts_per_unit > 0),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE material_event (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "subject" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('picked', 'bought', 'left-over', 'frozen', 'used', 'lost')),
    "quantity" double precision NOT NULL,
    "unit" text COLLATE "C" NOT NULL,
    "use_by" text COLLATE "C" CHECK (is_day(use_by)),
    "occurred_on" text COLLATE "C" NOT NULL CHECK (is_day(occurred_on)),
    "recorded_at" bigint NOT NULL,
    "result_id" text COLLATE "C",
    PRIMARY KEY (household_id, seq)
  )`,
  `CREATE TABLE membership (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "person_id" text COLLATE "C" NOT NULL,
    "role" text COLLATE "C" NOT NULL CHECK (role IN ('owner', 'cook', 'helper', 'reader')),
    "since_at" bigint NOT NULL,
    PRIMARY KEY (household_id, person_id)
  )`,
  `CREATE TABLE name_denial (
    "household_id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL CHECK (length(name) BETWEEN 1 AND 500),
    "other_food" text COLLATE "C" NOT NULL CHECK (length(other_food) BETWEEN 1 AND 500),
    "denied_by" text COLLATE "C",
    "denied_at" bigint NOT NULL,
    PRIMARY KEY (household_id, recipe_id, name),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE notice (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL,
    "subject" text COLLATE "C" NOT NULL,
    "reason" text COLLATE "C" NOT NULL,
    "due_on" text COLLATE "C" CHECK (is_day(due_on)),
    "state" text COLLATE "C" NOT NULL DEFAULT 'open' CHECK (state IN ('open', 'snoozed', 'done', 'gone')),
    "snoozed_until" text COLLATE "C" CHECK (is_day(snoozed_until)),
    "first_seen_at" bigint NOT NULL,
    "changed_at" bigint NOT NULL,
    "sent_at" bigint,
    "seq" bigint,
    "about_json" text COLLATE "C" NOT NULL DEFAULT '[]',
    CHECK ((state = 'snoozed') = (snoozed_until IS NOT NULL)),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE notice_lead (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "kind" text COLLATE "C" NOT NULL,
    "days" bigint CHECK (days BETWEEN 0 AND 365),
    PRIMARY KEY (household_id, kind)
  )`,
  `CREATE TABLE occasion (
    "household_id" text COLLATE "C" NOT NULL,
    "id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('occasion', 'gift', 'promised')),
    "on_date" text COLLATE "C" NOT NULL CHECK (is_day(on_date)),
    "units" double precision NOT NULL CHECK (units > 0),
    "note" text COLLATE "C" NOT NULL DEFAULT '',
    "yearly" bigint NOT NULL DEFAULT 1 CHECK (yearly IN (0, 1)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE ordinary_use (
    "household_id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('week', 'year')),
    "on_date" text COLLATE "C" NOT NULL CHECK (is_day(on_date)),
    PRIMARY KEY (household_id, item_id, kind, on_date),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE passphrase_reset (
    "person_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
    "token_hash" text COLLATE "C" NOT NULL UNIQUE,
    "expires_at" bigint NOT NULL,
    "second_code_hash" text COLLATE "C"
  )`,
  `CREATE TABLE plan (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "as_of" text COLLATE "C" NOT NULL CHECK (is_day(as_of)),
    "facts_version" bigint NOT NULL,
    "input_json" text COLLATE "C" NOT NULL CHECK (is_json(input_json)),
    "result_json" text COLLATE "C" NOT NULL CHECK (is_json(result_json)),
    "made_at" bigint NOT NULL,
    "seq" bigint,
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE printed_sheet (
    "household_id" text COLLATE "C" NOT NULL,
    "number" bigint NOT NULL CHECK (number >= 1),
    "session_on" text COLLATE "C" NOT NULL,
    "basis_json" text COLLATE "C" NOT NULL CHECK (is_json(basis_json)),
    "printed_at" bigint NOT NULL,
    PRIMARY KEY (household_id, number),
    FOREIGN KEY (household_id, session_on) REFERENCES canning_session (household_id, session_on) ON DELETE CASCADE
  )`,
  `CREATE TABLE processing_evidence (
    "household_id" text COLLATE "C" NOT NULL,
    "lot_id" text COLLATE "C" NOT NULL,
    "canner_id" text COLLATE "C" NOT NULL,
    "method" text COLLATE "C" NOT NULL,
    "gauge" text COLLATE "C",
    "schedule_row" text COLLATE "C" NOT NULL,
    "altitude_ft" double precision NOT NULL,
    "psi" double precision,
    "minutes_run" bigint NOT NULL CHECK (minutes_run > 0),
    "acid_ticked" bigint CHECK (acid_ticked IN (0, 1)),
    "done_by" text COLLATE "C" NOT NULL,
    PRIMARY KEY (household_id, lot_id),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id)
  )`,
  `CREATE TABLE recipe_material (
    "household_id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "material_id" text COLLATE "C" NOT NULL,
    "direction" text COLLATE "C" NOT NULL CHECK (direction IN ('gives', 'uses')),
    "quantity" double precision NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (household_id, recipe_id, material_id, direction),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, material_id) REFERENCES material (household_id, id)
  )`,
  `CREATE TABLE recipe_produce (
    "household_id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "crop" text COLLATE "C" NOT NULL,
    "lb" double precision NOT NULL CHECK (lb > 0),
    "may_be_frozen" bigint NOT NULL DEFAULT 0 CHECK (may_be_frozen IN (0, 1)),
    PRIMARY KEY (household_id, recipe_id, crop),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE recipe_stage (
    "household_id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "position" bigint NOT NULL CHECK (position >= 1),
    "name" text COLLATE "C" NOT NULL,
    "after_days" bigint NOT NULL CHECK (after_days >= 0),
    "hands_on_minutes" bigint NOT NULL CHECK (hands_on_minutes >= 0),
    PRIMARY KEY (household_id, recipe_id, position),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE supply (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "name" text COLLATE "C" NOT NULL,
    "unit" text COLLATE "C" NOT NULL,
    "pack_quantity" double precision NOT NULL CHECK (pack_quantity > 0),
    "pack_price_cents" bigint NOT NULL CHECK (pack_price_cents >= 0),
    "on_hand" double precision NOT NULL DEFAULT 0 CHECK (on_hand >= 0),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE recipe_supply (
    "household_id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "supply_id" text COLLATE "C" NOT NULL,
    "quantity" double precision NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (household_id, recipe_id, supply_id),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, supply_id) REFERENCES supply (household_id, id)
  )`,
  `CREATE TABLE recipe_way (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL,
    "recipe_id" text COLLATE "C" NOT NULL,
    "way" text COLLATE "C" NOT NULL CHECK (length(way) BETWEEN 1 AND 80),
    "chosen_by" text COLLATE "C",
    "chosen_at" bigint NOT NULL,
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE,
    PRIMARY KEY (household_id, seq)
  )`,
  `CREATE TABLE second_factor (
    "person_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
    "seed" text COLLATE "C" NOT NULL,
    "begun_at" bigint NOT NULL,
    "confirmed_at" bigint,
    "last_step" bigint NOT NULL DEFAULT 0
  )`,
  `CREATE TABLE recovery_code (
    "person_id" text COLLATE "C" NOT NULL REFERENCES second_factor (person_id) ON DELETE CASCADE,
    "code_hash" text COLLATE "C" NOT NULL,
    PRIMARY KEY (person_id, code_hash)
  )`,
  `CREATE TABLE school_holiday (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "from_on" text COLLATE "C" NOT NULL CHECK (is_day(from_on)),
    "until_on" text COLLATE "C" NOT NULL CHECK (is_day(until_on)),
    CHECK (from_on < until_on),
    PRIMARY KEY (household_id, from_on)
  )`,
  `CREATE TABLE seal_check (
    "household_id" text COLLATE "C" NOT NULL,
    "lot_id" text COLLATE "C" NOT NULL,
    "checked_at" bigint NOT NULL,
    "failed" double precision NOT NULL CHECK (failed >= 0),
    "choice" text COLLATE "C" CHECK (choice IN ('reprocess', 'freeze', 'refrigerate', 'discard')),
    CHECK ((failed > 0) = (choice IS NOT NULL)),
    PRIMARY KEY (household_id, lot_id),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE season_fund (
    "household_id" text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    "balance_cents" bigint NOT NULL DEFAULT 0 CHECK (balance_cents >= 0),
    "balance_on" text COLLATE "C" NOT NULL CHECK (is_day(balance_on)),
    "weekly_cents" bigint NOT NULL DEFAULT 0 CHECK (weekly_cents >= 0),
    "told_at" bigint
  )`,
  `CREATE TABLE season_lateness (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "year" bigint NOT NULL CHECK (year BETWEEN 2000 AND 2200),
    "crop" text COLLATE "C" NOT NULL,
    "days" bigint NOT NULL CHECK (days BETWEEN -42 AND 42),
    PRIMARY KEY (household_id, year, crop)
  )`,
  `CREATE TABLE season_multiplier (
    "household_id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "month" bigint NOT NULL CHECK (month BETWEEN 1 AND 12),
    "multiplier" double precision NOT NULL CHECK (multiplier BETWEEN 0 AND 20),
    PRIMARY KEY (household_id, item_id, month),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE security_event (
    "seq" bigint GENERATED BY DEFAULT AS IDENTITY PRIMARY KEY,
    "at" bigint NOT NULL,
    "kind" text COLLATE "C" NOT NULL,
    "person_id" text COLLATE "C" REFERENCES person (id) ON DELETE CASCADE,
    "household_id" text COLLATE "C" REFERENCES household (id) ON DELETE CASCADE,
    "address" text COLLATE "C" NOT NULL,
    "device" text COLLATE "C" NOT NULL
  )`,
  `CREATE TABLE session_pause (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "from_on" text COLLATE "C" NOT NULL CHECK (is_day(from_on)),
    "until_on" text COLLATE "C" NOT NULL CHECK (is_day(until_on)),
    "each_year" bigint NOT NULL CHECK (each_year IN (0, 1)),
    CHECK (from_on < until_on),
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE session_rule (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "weekday" bigint NOT NULL CHECK (weekday BETWEEN 1 AND 7),
    "which" text COLLATE "C" NOT NULL CHECK (which IN ('every', 'first', 'second', 'third', 'fourth', 'last')),
    "hours" double precision NOT NULL CHECK (hours BETWEEN 0.5 AND 12),
    "who" text COLLATE "C" NOT NULL DEFAULT '',
    PRIMARY KEY (household_id, id)
  )`,
  `CREATE TABLE session_tick (
    "household_id" text COLLATE "C" NOT NULL,
    "session_on" text COLLATE "C" NOT NULL,
    "load_key" text COLLATE "C" NOT NULL,
    "step" text COLLATE "C" NOT NULL,
    "ticked_at" bigint NOT NULL,
    PRIMARY KEY (household_id, session_on, load_key, step),
    FOREIGN KEY (household_id, session_on) REFERENCES canning_session (household_id, session_on) ON DELETE CASCADE
  )`,
  `CREATE TABLE shelf_count (
    "household_id" text COLLATE "C" NOT NULL,
    "id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "counted_on" text COLLATE "C" NOT NULL CHECK (is_day(counted_on)),
    "book_units" double precision NOT NULL,
    "counted_units" double precision NOT NULL CHECK (counted_units >= 0),
    "explained_as" text COLLATE "C" NOT NULL CHECK (explained_as IN ('taken-unrecorded', 'miscount', 'breakage', 'gift', 'found')),
    "recorded_at" bigint NOT NULL,
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE shop_pack (
    "household_id" text COLLATE "C" NOT NULL,
    "item_id" text COLLATE "C" NOT NULL,
    "id" text COLLATE "C" NOT NULL,
    "units" double precision NOT NULL CHECK (units > 0),
    "price_cents" bigint NOT NULL CHECK (price_cents >= 0),
    "buy_at_or_below_cents" bigint CHECK (buy_at_or_below_cents >= 0),
    "sale_from_month" bigint CHECK (sale_from_month BETWEEN 1 AND 12),
    "sale_until_month" bigint CHECK (sale_until_month BETWEEN 1 AND 12),
    "sale_price_cents" bigint CHECK (sale_price_cents >= 0),
    "is_planned" bigint NOT NULL DEFAULT 1 CHECK (is_planned IN (0, 1)),
    PRIMARY KEY (household_id, item_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  )`,
  `CREATE TABLE sign_in (
    "token_hash" text COLLATE "C" NOT NULL PRIMARY KEY,
    "person_id" text COLLATE "C" NOT NULL REFERENCES person (id) ON DELETE CASCADE,
    "began_at" bigint NOT NULL,
    "seen_at" bigint NOT NULL,
    "device" text COLLATE "C" NOT NULL DEFAULT ''
  )`,
  `CREATE TABLE sign_in_failure (
    "seq" bigint GENERATED BY DEFAULT AS IDENTITY PRIMARY KEY,
    "subject" text COLLATE "C" NOT NULL,
    "failed_at" bigint NOT NULL
  )`,
  `CREATE TABLE stage_event (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL,
    "batch_id" text COLLATE "C" NOT NULL CHECK (length(batch_id) BETWEEN 1 AND 64),
    "recipe_id" text COLLATE "C" NOT NULL,
    "batches" bigint NOT NULL CHECK (batches BETWEEN 1 AND 40),
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('begun', 'taken back', 'thrown away')),
    "position" bigint CHECK (position BETWEEN 1 AND 60),
    "way" text COLLATE "C",
    "begun_at" text COLLATE "C" CHECK (is_minute(begun_at)),
    "recorded_by" text COLLATE "C",
    "recorded_at" bigint NOT NULL,
    CHECK ((kind = 'thrown away') = (position IS NULL)),
    CHECK ((kind = 'begun') = (begun_at IS NOT NULL)),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE,
    PRIMARY KEY (household_id, seq)
  )`,
  `CREATE TABLE store_event (
    "seq" bigint NOT NULL,
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "entry_id" text COLLATE "C" NOT NULL,
    "store" text COLLATE "C" NOT NULL CHECK (store IN ('supply', 'crop')),
    "subject" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('bought', 'used', 'counted', 'reversed')),
    "quantity" double precision NOT NULL,
    "source_id" text COLLATE "C",
    "use_by" text COLLATE "C" CHECK (is_day(use_by)),
    "occurred_on" text COLLATE "C" NOT NULL CHECK (is_day(occurred_on)),
    "recorded_at" bigint NOT NULL,
    PRIMARY KEY (household_id, seq)
  )`,
  `CREATE TABLE upkeep_task (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "canner_id" text COLLATE "C",
    "device" text COLLATE "C",
    "name" text COLLATE "C" NOT NULL,
    "every_months" bigint CHECK (every_months > 0),
    "retired_on" text COLLATE "C" CHECK (is_day(retired_on)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id),
    CHECK ((canner_id IS NULL) <> (device IS NULL))
  )`,
  `CREATE TABLE upkeep_event (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "id" text COLLATE "C" NOT NULL,
    "kind" text COLLATE "C" NOT NULL CHECK (kind IN ('gauge', 'look-over', 'own')),
    "canner_id" text COLLATE "C",
    "task_id" text COLLATE "C",
    "done_on" text COLLATE "C" NOT NULL CHECK (is_day(done_on)),
    "note" text COLLATE "C",
    "gauge_off_at_5_psi" double precision,
    "gauge_off_at_10_psi" double precision,
    "gauge_off_at_15_psi" double precision,
    "recorded_by" text COLLATE "C",
    "recorded_at" bigint NOT NULL,
    "undone_at" bigint,
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id),
    FOREIGN KEY (household_id, task_id) REFERENCES upkeep_task (household_id, id),
    CHECK ((kind = 'own') = (task_id IS NOT NULL)),
    CHECK ((kind = 'own') = (canner_id IS NULL))
  )`,
  `CREATE TABLE week_time (
    "household_id" text COLLATE "C" NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    "week" text COLLATE "C" NOT NULL CHECK (week ~ '^[0-9]{4}-W[0-5][0-9]$'),
    "sessions" bigint NOT NULL CHECK (sessions BETWEEN 0 AND 4),
    "hours_per_session" double precision CHECK (hours_per_session BETWEEN 0.5 AND 12),
    "reason" text COLLATE "C",
    PRIMARY KEY (household_id, week)
  )`,
];

const indexes = [
  'CREATE INDEX empty_jar_event_by_entry ON empty_jar_event (household_id, entry_id)',
  'CREATE INDEX empty_jar_event_by_kind ON empty_jar_event (household_id, jar_kind)',
  'CREATE INDEX half_sign_in_by_end ON half_sign_in (expires_at)',
  `CREATE INDEX household_by_night ON household (time_zone, coalesce(noted_night, ''))`,
  'CREATE INDEX household_in_order ON household (is_demo, created_at, id)',
  'CREATE INDEX household_open ON household (id) WHERE is_open = 1',
  'CREATE INDEX household_token_of_household ON household_token (household_id, opens)',
  'CREATE INDEX idempotency_by_time ON idempotency (recorded_at)',
  'CREATE INDEX invitation_by_end ON invitation (expires_at)',
  'CREATE INDEX jar_event_by_entry ON jar_event (household_id, entry_id)',
  'CREATE INDEX jar_event_by_lot ON jar_event (household_id, lot_id, units)',
  'CREATE INDEX job_by_due ON job (due_at)',
  'CREATE INDEX job_by_end ON job (finished_at)',
  'CREATE INDEX job_failed ON job (kind, subject, seq) WHERE failure IS NOT NULL',
  'CREATE INDEX job_leased ON job (kind, leased_until) WHERE leased_until IS NOT NULL',
  'CREATE INDEX job_of_household ON job (household_id, seq)',
  'CREATE INDEX job_waiting ON job (kind, due_at, seq) WHERE finished_at IS NULL',
  'CREATE INDEX letter_by_time ON letter (written_at)',
  'CREATE INDEX load_clock_event_by_day ON load_clock_event (household_id, session_on)',
  'CREATE INDEX lot_standing_event_by_lot ON lot_standing_event (household_id, lot_id)',
  'CREATE INDEX material_event_by_result ON material_event (household_id, result_id)',
  'CREATE INDEX material_event_by_subject ON material_event (household_id, subject)',
  'CREATE INDEX membership_by_person ON membership (person_id)',
  'CREATE INDEX notice_by_change ON notice (changed_at)',
  `CREATE UNIQUE INDEX notice_one_open ON notice (household_id, kind, subject) WHERE state IN ('open', 'snoozed')`,
  'CREATE INDEX plan_by_day ON plan (as_of)',
  'CREATE INDEX plan_in_sequence ON plan (household_id, seq DESC, made_at DESC)',
  'CREATE INDEX recipe_way_by_recipe ON recipe_way (household_id, recipe_id)',
  'CREATE INDEX security_event_by_household ON security_event (household_id, at)',
  'CREATE INDEX security_event_by_person ON security_event (person_id, at)',
  'CREATE INDEX security_event_by_time ON security_event (at)',
  'CREATE INDEX security_event_of_nobody ON security_event (seq) WHERE person_id IS NULL AND household_id IS NULL',
  'CREATE INDEX sign_in_by_begin ON sign_in (began_at)',
  'CREATE INDEX sign_in_by_last ON sign_in (seen_at)',
  'CREATE INDEX sign_in_by_person ON sign_in (person_id, seen_at)',
  'CREATE INDEX sign_in_failure_by_subject ON sign_in_failure (subject, failed_at)',
  'CREATE INDEX sign_in_failure_by_time ON sign_in_failure (failed_at)',
  'CREATE INDEX stage_event_by_batch ON stage_event (household_id, recipe_id, batch_id)',
  'CREATE INDEX store_event_of_household ON store_event (household_id, store, subject, seq)',
];

/** A second wall: what is only ever added is neither changed nor deleted, but with its household or for what takes its place. */
const appendOnly = `CREATE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    IF TG_OP = 'DELETE' AND (current_setting('shelfward.gives_up', true) = OLD.household_id
      OR NOT EXISTS (SELECT 1 FROM household WHERE id = OLD.household_id)) THEN
      RETURN OLD;
    END IF;
    RAISE EXCEPTION '% is append-only: write % instead', TG_TABLE_NAME, TG_ARGV[0];
  END
$$`;

const appended = [
  ['jar_event', 'a reversing event'],
  ['empty_jar_event', 'a reversing event'],
  ['material_event', 'a reversing event'],
  ['store_event', 'a reversing event'],
  ['load_clock_event', 'another line'],
  ['lot_standing_event', 'another line'],
  ['stage_event', 'another line'],
] as const;

const walls = [
  `CREATE FUNCTION never_below_zero() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    IF coalesce(current_setting('shelfward.summed', true), '') = '' AND NEW.units + COALESCE((SELECT SUM(units)
      FROM jar_event WHERE household_id = NEW.household_id AND lot_id = NEW.lot_id), 0) < -1e-9 THEN
      RAISE EXCEPTION 'lot would fall below zero';
    END IF;
    RETURN NEW;
  END
$$`,
  'CREATE TRIGGER jar_event_never_below_zero BEFORE INSERT ON jar_event FOR EACH ROW EXECUTE FUNCTION never_below_zero()',
  `CREATE FUNCTION reverses_exactly() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    IF NEW.kind = 'reversed' AND NOT EXISTS (SELECT 1 FROM jar_event WHERE seq = NEW.reverses_seq
      AND household_id = NEW.household_id AND lot_id = NEW.lot_id AND units = -NEW.units AND kind <> 'reversed') THEN
      RAISE EXCEPTION 'a reversing event must undo one event of the same lot exactly';
    END IF;
    RETURN NEW;
  END
$$`,
  'CREATE TRIGGER jar_event_reverses_exactly BEFORE INSERT ON jar_event FOR EACH ROW EXECUTE FUNCTION reverses_exactly()',
  `CREATE FUNCTION plan_stays() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    RAISE EXCEPTION 'a plan is a snapshot: make a new one instead';
  END
$$`,
  'CREATE TRIGGER plan_no_update BEFORE UPDATE ON plan FOR EACH ROW EXECUTE FUNCTION plan_stays()',
  `CREATE FUNCTION forget_denial_of_item() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    DELETE FROM name_denial WHERE household_id = NEW.household_id AND name = OLD.name
      AND recipe_id IN (SELECT id FROM recipe WHERE household_id = NEW.household_id AND item_id = NEW.id);
    RETURN NEW;
  END
$$`,
  `CREATE TRIGGER name_denial_forgotten_with_item_name AFTER UPDATE OF name ON item FOR EACH ROW
    WHEN (OLD.name IS DISTINCT FROM NEW.name) EXECUTE FUNCTION forget_denial_of_item()`,
  `CREATE FUNCTION forget_denial_of_recipe() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    DELETE FROM name_denial WHERE household_id = NEW.household_id AND recipe_id = NEW.id
      AND (TG_ARGV[0] = 'process' OR name = OLD.name);
    RETURN NEW;
  END
$$`,
  `CREATE TRIGGER name_denial_forgotten_with_recipe_name AFTER UPDATE OF name ON recipe FOR EACH ROW
    WHEN (OLD.name IS DISTINCT FROM NEW.name) EXECUTE FUNCTION forget_denial_of_recipe('name')`,
  `CREATE TRIGGER name_denial_forgotten_with_process
    AFTER UPDATE OF based_on, process_food, process_style, process_pack, item_id ON recipe FOR EACH ROW
    WHEN (OLD.based_on IS DISTINCT FROM NEW.based_on OR OLD.process_food IS DISTINCT FROM NEW.process_food
      OR OLD.process_style IS DISTINCT FROM NEW.process_style OR OLD.process_pack IS DISTINCT FROM NEW.process_pack
      OR OLD.item_id IS DISTINCT FROM NEW.item_id)
    EXECUTE FUNCTION forget_denial_of_recipe('process')`,
];

export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of [isDay, isMinute, isJson, ...tables, ...indexes, appendOnly])
    await sql.raw(statement).execute(db);
  for (const [table, instead] of appended)
    for (const change of ['update', 'delete'])
      await sql
        .raw(
          `CREATE TRIGGER ${table}_no_${change} BEFORE ${change.toUpperCase()} ON ${table}
            FOR EACH ROW EXECUTE FUNCTION append_only('${instead}')`,
        )
        .execute(db);
  for (const statement of walls) await sql.raw(statement).execute(db);
}
