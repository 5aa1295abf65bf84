import { type Kysely, sql } from 'kysely';

// What the household wants of the jars of an item: whether one is a meal, and sizes of their own for gifts and lunches.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE jar_wish (
    household_id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    meal_servings REAL CHECK (meal_servings > 0),
    gift_size TEXT,
    gift_jars INTEGER CHECK (gift_jars > 0),
    lunch_size TEXT,
    lunch_jars INTEGER CHECK (lunch_jars > 0),
    CHECK ((gift_size IS NULL) = (gift_jars IS NULL)),
    CHECK ((lunch_size IS NULL) = (lunch_jars IS NULL)),
    PRIMARY KEY (household_id, item_id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
}
