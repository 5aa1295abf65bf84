import { type Kysely, sql } from 'kysely';

// What is kept and how much of it a year needs.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE item (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
    kind TEXT NOT NULL CHECK (kind IN ('preserve', 'staple')),
    keeping TEXT NOT NULL CHECK (keeping IN ('canned', 'frozen', 'dried', 'fermented', 'cellar', 'bought')),
    family TEXT NOT NULL CHECK (family IN ('stone-fruit', 'berries', 'apples-pears', 'tomatoes', 'greens-beans',
      'roots', 'pickles', 'dry-goods', 'meat-stock')),
    unit TEXT NOT NULL CHECK (unit IN ('jar', 'bag', 'lb', 'bin', 'each')),
    usual_jar TEXT CHECK (usual_jar LIKE '%/%'),
    servings_per_unit REAL CHECK (servings_per_unit > 0),
    shelf_life_key TEXT,
    best_quality_days INTEGER NOT NULL DEFAULT 365 CHECK (best_quality_days BETWEEN 1 AND 3650),
    keep_cold_days INTEGER CHECK (keep_cold_days BETWEEN 1 AND 400),
    chance_wanted REAL NOT NULL DEFAULT 0.9 CHECK (chance_wanted BETWEEN 0.5 AND 0.99),
    family_minimum_units REAL CHECK (family_minimum_units >= 0),
    retired_on TEXT CHECK (retired_on IS date(retired_on)),
    CHECK ((unit = 'jar') = (usual_jar IS NOT NULL)),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE item_group (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    total_units REAL NOT NULL CHECK (total_units >= 0),
    unit_jar TEXT,
    least_kinds INTEGER NOT NULL DEFAULT 1 CHECK (least_kinds >= 1),
    largest_share REAL NOT NULL DEFAULT 1 CHECK (largest_share > 0 AND largest_share <= 1),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE item_group_member (
    household_id TEXT NOT NULL,
    group_id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    PRIMARY KEY (household_id, group_id, item_id),
    FOREIGN KEY (household_id, group_id) REFERENCES item_group (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE declared_use (
    household_id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    since_on TEXT NOT NULL CHECK (since_on IS date(since_on)),
    amount REAL NOT NULL CHECK (amount >= 0),
    per TEXT NOT NULL CHECK (per IN ('week', 'month', 'year', 'meal', 'school-week')),
    counted_in TEXT NOT NULL CHECK (counted_in IN ('units', 'servings')),
    people REAL CHECK (people > 0),
    meals_per_week REAL CHECK (meals_per_week > 0),
    restarts_filter INTEGER NOT NULL DEFAULT 0 CHECK (restarts_filter IN (0, 1)),
    recorded_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, item_id, since_on),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE season_multiplier (
    household_id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    month INTEGER NOT NULL CHECK (month BETWEEN 1 AND 12),
    multiplier REAL NOT NULL CHECK (multiplier BETWEEN 0 AND 20),
    PRIMARY KEY (household_id, item_id, month),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE occasion (
    household_id TEXT NOT NULL,
    id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('occasion', 'gift', 'promised')),
    on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
    units REAL NOT NULL CHECK (units > 0),
    note TEXT NOT NULL DEFAULT '',
    yearly INTEGER NOT NULL DEFAULT 1 CHECK (yearly IN (0, 1)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE hand_target (
    household_id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    units REAL NOT NULL CHECK (units >= 0),
    set_on TEXT NOT NULL CHECK (set_on IS date(set_on)),
    PRIMARY KEY (household_id, item_id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE shop_pack (
    household_id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    id TEXT NOT NULL,
    units REAL NOT NULL CHECK (units > 0),
    price_cents INTEGER NOT NULL CHECK (price_cents >= 0),
    buy_at_or_below_cents INTEGER CHECK (buy_at_or_below_cents >= 0),
    sale_from_month INTEGER CHECK (sale_from_month BETWEEN 1 AND 12),
    sale_until_month INTEGER CHECK (sale_until_month BETWEEN 1 AND 12),
    sale_price_cents INTEGER CHECK (sale_price_cents >= 0),
    PRIMARY KEY (household_id, item_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
}
