import { type Kysely, sql } from 'kysely';

// "No, nothing special": a household's answer that a full week was no occasion (by its Monday), or that an item is eaten all year alike (by
// the day it was said).
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE ordinary_use (
    household_id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('week', 'year')),
    on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
    PRIMARY KEY (household_id, item_id, kind, on_date),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
}
