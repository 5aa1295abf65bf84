import { type Kysely, sql } from 'kysely';

// What is newest is told by the order of writing, not by a clock that may have been wrong. Rows from before have no number
// and stand before all that have one. The latest reading of the clock is kept, so that it is noticed when it goes back.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE plan ADD COLUMN seq INTEGER`.execute(db);
  await sql`ALTER TABLE notice ADD COLUMN seq INTEGER`.execute(db);
  await sql`ALTER TABLE letter ADD COLUMN seq INTEGER`.execute(db);
  await sql`CREATE INDEX plan_in_sequence ON plan (household_id, seq DESC, made_at DESC)`.execute(db);
  await sql`DROP INDEX plan_newest`.execute(db);

  await sql`CREATE TABLE clock_reading (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    latest_at INTEGER NOT NULL
  ) STRICT`.execute(db);
  await sql`CREATE TABLE clock_jump (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    noticed_at INTEGER NOT NULL,
    ahead_until INTEGER NOT NULL,
    CHECK (ahead_until > noticed_at)
  ) STRICT`.execute(db);
}
