import { type Kysely, sql } from 'kysely';

// How things are made, what they are made from, and when that can be had.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE recipe (
    household_id TEXT NOT NULL,
    id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    name TEXT NOT NULL,
    based_on TEXT NOT NULL,
    process_food TEXT,
    process_style TEXT,
    process_pack TEXT,
    canner_id TEXT,
    jar_kind TEXT,
    yield_low REAL NOT NULL CHECK (yield_low > 0),
    yield_high REAL NOT NULL,
    hands_on_minutes INTEGER NOT NULL CHECK (hands_on_minutes BETWEEN 0 AND 1440),
    ready_after_days INTEGER NOT NULL DEFAULT 0 CHECK (ready_after_days BETWEEN 0 AND 400),
    crock_quarts REAL CHECK (crock_quarts > 0),
    crock_days INTEGER CHECK (crock_days > 0),
    season_from_month INTEGER CHECK (season_from_month BETWEEN 1 AND 12),
    season_until_month INTEGER CHECK (season_until_month BETWEEN 1 AND 12),
    retired_on TEXT CHECK (retired_on IS date(retired_on)),
    CHECK (yield_high >= yield_low),
    CHECK ((canner_id IS NULL) OR (process_food IS NOT NULL AND process_style IS NOT NULL AND process_pack IS NOT NULL AND jar_kind IS NOT NULL)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE recipe_produce (
    household_id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    crop TEXT NOT NULL,
    lb REAL NOT NULL CHECK (lb > 0),
    may_be_frozen INTEGER NOT NULL DEFAULT 0 CHECK (may_be_frozen IN (0, 1)),
    PRIMARY KEY (household_id, recipe_id, crop),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE supply (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    unit TEXT NOT NULL,
    pack_quantity REAL NOT NULL CHECK (pack_quantity > 0),
    pack_price_cents INTEGER NOT NULL CHECK (pack_price_cents >= 0),
    on_hand REAL NOT NULL DEFAULT 0 CHECK (on_hand >= 0),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE recipe_supply (
    household_id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    supply_id TEXT NOT NULL,
    quantity REAL NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (household_id, recipe_id, supply_id),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, supply_id) REFERENCES supply (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE recipe_stage (
    household_id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    position INTEGER NOT NULL CHECK (position >= 1),
    name TEXT NOT NULL,
    after_days INTEGER NOT NULL CHECK (after_days >= 0),
    hands_on_minutes INTEGER NOT NULL CHECK (hands_on_minutes >= 0),
    PRIMARY KEY (household_id, recipe_id, position),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE material (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    unit TEXT NOT NULL,
    keeps_days_cold INTEGER NOT NULL CHECK (keeps_days_cold >= 0),
    keeps_months_frozen INTEGER CHECK (keeps_months_frozen > 0),
    quarts_per_unit REAL NOT NULL DEFAULT 1 CHECK (quarts_per_unit > 0),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE recipe_material (
    household_id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    material_id TEXT NOT NULL,
    direction TEXT NOT NULL CHECK (direction IN ('gives', 'uses')),
    quantity REAL NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (household_id, recipe_id, material_id, direction),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, material_id) REFERENCES material (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE source (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    crop TEXT NOT NULL,
    name TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('garden', 'pick-your-own', 'market')),
    price_cents_per_lb INTEGER NOT NULL DEFAULT 0 CHECK (price_cents_per_lb >= 0),
    plants INTEGER CHECK (plants >= 0),
    lb_per_plant REAL CHECK (lb_per_plant > 0),
    use_by_days INTEGER NOT NULL DEFAULT 3 CHECK (use_by_days BETWEEN 0 AND 365),
    poor_year_chance REAL NOT NULL DEFAULT 0 CHECK (poor_year_chance BETWEEN 0 AND 1),
    poor_year_share REAL NOT NULL DEFAULT 0.3 CHECK (poor_year_share BETWEEN 0 AND 1),
    fall_back TEXT NOT NULL DEFAULT 'buy' CHECK (fall_back IN ('buy', 'substitute', 'do-without')),
    retired_on TEXT CHECK (retired_on IS date(retired_on)),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE harvest_window (
    household_id TEXT NOT NULL,
    source_id TEXT NOT NULL,
    year INTEGER NOT NULL CHECK (year BETWEEN 2000 AND 2200),
    begins_on TEXT NOT NULL CHECK (begins_on IS date(begins_on)),
    ends_on TEXT NOT NULL CHECK (ends_on IS date(ends_on)),
    most_active_from TEXT CHECK (most_active_from IS date(most_active_from)),
    most_active_until TEXT CHECK (most_active_until IS date(most_active_until)),
    lb_per_week REAL NOT NULL CHECK (lb_per_week >= 0),
    first_picked_on TEXT CHECK (first_picked_on IS date(first_picked_on)),
    CHECK (begins_on < ends_on),
    CHECK (most_active_from IS NULL OR (most_active_from >= begins_on AND most_active_until <= ends_on AND most_active_from < most_active_until)),
    PRIMARY KEY (household_id, source_id, year),
    FOREIGN KEY (household_id, source_id) REFERENCES source (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
}
