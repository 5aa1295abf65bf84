import { type Kysely, sql } from 'kysely';

// Which place a batch left and which it came to, so that a move can be undone and read in the history. The names stand
// here as they were: a place may be renamed or removed later.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE lot_move (
    household_id TEXT NOT NULL,
    entry_id TEXT NOT NULL,
    lot_id TEXT NOT NULL,
    from_place_id TEXT,
    from_name TEXT,
    to_place_id TEXT NOT NULL,
    to_name TEXT NOT NULL,
    CHECK ((from_place_id IS NULL) = (from_name IS NULL)),
    PRIMARY KEY (household_id, entry_id),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
}
