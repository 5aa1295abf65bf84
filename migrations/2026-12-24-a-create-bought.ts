import { type Kysely, sql } from 'kysely';

const appendOnly = (table: string) => [
  sql.raw(`CREATE TRIGGER ${table}_no_update BEFORE UPDATE ON ${table}
    BEGIN SELECT RAISE(ABORT, '${table} is append-only: write a reversing event instead'); END`),
  sql.raw(`CREATE TRIGGER ${table}_no_delete BEFORE DELETE ON ${table}
    WHEN EXISTS (SELECT 1 FROM household WHERE id = OLD.household_id)
    BEGIN SELECT RAISE(ABORT, '${table} is append-only: write a reversing event instead'); END`),
];

// Lines of the shopping list that were bought or skipped, what came of supplies and crops and went into batches, and when the
// fund was told, so that what is bought later the same day is taken from it.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE bought (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    week TEXT NOT NULL CHECK (week GLOB '[0-9][0-9][0-9][0-9]-W[0-5][0-9]'),
    kind TEXT NOT NULL CHECK (kind IN ('item', 'produce', 'supply', 'jars', 'lids')),
    what TEXT NOT NULL,
    pack_id TEXT,
    decision TEXT NOT NULL CHECK (decision IN ('bought', 'skipped')),
    quantity REAL NOT NULL CHECK (quantity >= 0),
    cost_cents INTEGER NOT NULL CHECK (cost_cents >= 0),
    bought_on TEXT NOT NULL CHECK (bought_on IS date(bought_on)),
    settles INTEGER NOT NULL CHECK (settles IN (0, 1)),
    entry_id TEXT,
    recorded_at INTEGER NOT NULL,
    undone_at INTEGER,
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE store_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    entry_id TEXT NOT NULL,
    store TEXT NOT NULL CHECK (store IN ('supply', 'crop')),
    subject TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('bought', 'used', 'counted', 'reversed')),
    quantity REAL NOT NULL,
    source_id TEXT,
    use_by TEXT CHECK (use_by IS date(use_by)),
    occurred_on TEXT NOT NULL CHECK (occurred_on IS date(occurred_on)),
    recorded_at INTEGER NOT NULL
  ) STRICT`.execute(db);
  await sql`CREATE INDEX store_event_of_household ON store_event (household_id, store, subject, seq)`.execute(
    db,
  );
  for (const trigger of appendOnly('store_event')) await trigger.execute(db);

  await sql`ALTER TABLE season_fund ADD COLUMN told_at INTEGER`.execute(db);
}
