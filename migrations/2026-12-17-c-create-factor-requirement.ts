import { type Kysely, sql } from 'kysely';

// A household may ask a second factor of its members; who said so, and since when. Where the operator asks it of everybody,
// a person has a while from the first page on, kept with the person.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE factor_requirement (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    required_at INTEGER NOT NULL,
    by_name TEXT NOT NULL
  ) STRICT`.execute(db);
  await sql`ALTER TABLE person ADD COLUMN factor_due_at INTEGER`.execute(db);
}
