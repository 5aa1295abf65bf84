import { type Kysely, sql } from 'kysely';

// What a source gave in a year, as the household weighed it, and from how many plants.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE garden_yield (
    household_id TEXT NOT NULL,
    source_id TEXT NOT NULL,
    year INTEGER NOT NULL CHECK (year BETWEEN 2000 AND 2200),
    lb REAL NOT NULL CHECK (lb >= 0),
    plants INTEGER CHECK (plants >= 0),
    PRIMARY KEY (household_id, source_id, year),
    FOREIGN KEY (household_id, source_id) REFERENCES source (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
}
