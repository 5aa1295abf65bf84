import { type Kysely, sql } from 'kysely';

// What was done of a batch before its canner load: which stage, by which printed way, and when; taken back or thrown away.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE stage_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL,
    batch_id TEXT NOT NULL CHECK (length(batch_id) BETWEEN 1 AND 64),
    recipe_id TEXT NOT NULL,
    batches INTEGER NOT NULL CHECK (batches BETWEEN 1 AND 40),
    kind TEXT NOT NULL CHECK (kind IN ('begun', 'taken back', 'thrown away')),
    position INTEGER CHECK (position BETWEEN 1 AND 60),
    way TEXT,
    begun_at TEXT CHECK (begun_at IS strftime('%Y-%m-%dT%H:%M', begun_at)),
    recorded_by TEXT,
    recorded_at INTEGER NOT NULL,
    CHECK ((kind = 'thrown away') = (position IS NULL)),
    CHECK ((kind = 'begun') = (begun_at IS NOT NULL)),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
  await sql`CREATE INDEX stage_event_by_batch ON stage_event (household_id, recipe_id, batch_id)`.execute(db);
  await sql
    .raw(`CREATE TRIGGER stage_event_no_update BEFORE UPDATE ON stage_event
    BEGIN SELECT RAISE(ABORT, 'stage_event is append-only: write another line instead'); END`)
    .execute(db);
  await sql
    .raw(`CREATE TRIGGER stage_event_no_delete BEFORE DELETE ON stage_event
    WHEN EXISTS (SELECT 1 FROM household WHERE id = OLD.household_id)
    BEGIN SELECT RAISE(ABORT, 'stage_event is append-only: write another line instead'); END`)
    .execute(db);
}
