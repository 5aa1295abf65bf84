import { type Kysely, sql } from 'kysely';

// The household and its kitchen: who, where, with what.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE household (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
    people INTEGER NOT NULL DEFAULT 2 CHECK (people BETWEEN 1 AND 40),
    time_zone TEXT NOT NULL,
    locale TEXT NOT NULL DEFAULT 'en-US',
    units TEXT NOT NULL DEFAULT 'us' CHECK (units IN ('us', 'metric')),
    week_starts_on TEXT NOT NULL DEFAULT 'sunday' CHECK (week_starts_on IN ('monday', 'sunday')),
    region TEXT,
    altitude_ft REAL CHECK (altitude_ft BETWEEN -1500 AND 20000),
    storage_temperature_f REAL CHECK (storage_temperature_f BETWEEN -40 AND 140),
    crock_quarts REAL NOT NULL DEFAULT 0 CHECK (crock_quarts >= 0),
    freezer_quarts_per_day REAL CHECK (freezer_quarts_per_day >= 0),
    discard_ceiling_months INTEGER NOT NULL DEFAULT 18 CHECK (discard_ceiling_months BETWEEN 12 AND 60),
    is_demo INTEGER NOT NULL DEFAULT 0 CHECK (is_demo IN (0, 1)),
    facts_version INTEGER NOT NULL DEFAULT 1,
    created_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE place (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('shelf', 'cellar', 'freezer', 'refrigerator')),
    capacity_quarts REAL CHECK (capacity_quarts >= 0),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE canner (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    method TEXT NOT NULL CHECK (method IN ('boiling-water', 'steam', 'pressure')),
    gauge TEXT CHECK (gauge IN ('dial', 'weighted')),
    gauge_checked_on TEXT CHECK (gauge_checked_on IS date(gauge_checked_on)),
    quart_jars INTEGER NOT NULL CHECK (quart_jars BETWEEN 0 AND 40),
    pint_jars INTEGER NOT NULL CHECK (pint_jars BETWEEN 0 AND 60),
    half_pint_jars INTEGER NOT NULL CHECK (half_pint_jars BETWEEN 0 AND 100),
    retired_on TEXT CHECK (retired_on IS date(retired_on)),
    CHECK (method = 'pressure' OR gauge IS NULL),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE kitchen_time (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    sessions_per_week INTEGER NOT NULL DEFAULT 1 CHECK (sessions_per_week BETWEEN 0 AND 4),
    hours_per_session REAL NOT NULL DEFAULT 5 CHECK (hours_per_session BETWEEN 0.5 AND 12),
    set_up_minutes INTEGER NOT NULL DEFAULT 45 CHECK (set_up_minutes BETWEEN 0 AND 240),
    session_weekday INTEGER NOT NULL DEFAULT 6 CHECK (session_weekday BETWEEN 1 AND 7)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE week_time (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    week TEXT NOT NULL CHECK (week GLOB '[0-9][0-9][0-9][0-9]-W[0-5][0-9]'),
    sessions INTEGER NOT NULL CHECK (sessions BETWEEN 0 AND 4),
    hours_per_session REAL CHECK (hours_per_session BETWEEN 0.5 AND 12),
    reason TEXT,
    PRIMARY KEY (household_id, week)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE away (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    from_on TEXT NOT NULL CHECK (from_on IS date(from_on)),
    until_on TEXT NOT NULL CHECK (until_on IS date(until_on)),
    CHECK (from_on < until_on),
    PRIMARY KEY (household_id, from_on)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE school_holiday (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    from_on TEXT NOT NULL CHECK (from_on IS date(from_on)),
    until_on TEXT NOT NULL CHECK (until_on IS date(until_on)),
    CHECK (from_on < until_on),
    PRIMARY KEY (household_id, from_on)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE season_fund (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    balance_cents INTEGER NOT NULL DEFAULT 0 CHECK (balance_cents >= 0),
    balance_on TEXT NOT NULL CHECK (balance_on IS date(balance_on)),
    weekly_cents INTEGER NOT NULL DEFAULT 0 CHECK (weekly_cents >= 0)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE jar_holding (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    jar_kind TEXT NOT NULL CHECK (jar_kind LIKE '%/%'),
    owned INTEGER NOT NULL DEFAULT 0 CHECK (owned >= 0),
    price_cents INTEGER NOT NULL DEFAULT 0 CHECK (price_cents >= 0),
    pack INTEGER NOT NULL DEFAULT 12 CHECK (pack >= 1),
    return_share REAL NOT NULL DEFAULT 0.5 CHECK (return_share BETWEEN 0 AND 1),
    PRIMARY KEY (household_id, jar_kind)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE lid_price (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    mouth TEXT NOT NULL CHECK (mouth IN ('regular', 'wide')),
    box INTEGER NOT NULL DEFAULT 12 CHECK (box >= 1),
    box_price_cents INTEGER NOT NULL CHECK (box_price_cents >= 0),
    PRIMARY KEY (household_id, mouth)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE lid_box (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    mouth TEXT NOT NULL CHECK (mouth IN ('regular', 'wide')),
    lids INTEGER NOT NULL CHECK (lids >= 0),
    bought_on TEXT NOT NULL CHECK (bought_on IS date(bought_on)),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);
}
