import { type Kysely, sql } from 'kysely';

// Which of several printed ways a household takes with a recipe, by whom and since when; the newest line holds.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE recipe_way (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    way TEXT NOT NULL CHECK (length(way) BETWEEN 1 AND 80),
    chosen_by TEXT,
    chosen_at INTEGER NOT NULL,
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
  await sql`CREATE INDEX recipe_way_by_recipe ON recipe_way (household_id, recipe_id)`.execute(db);
}
