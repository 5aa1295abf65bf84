import { type Kysely, sql } from 'kysely';

// Figures the household did not say itself: guessed for it at the start, until it puts its own in their place.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE guess (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('source', 'supply', 'minutes')),
    subject TEXT NOT NULL,
    guessed_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, kind, subject)
  ) STRICT`.execute(db);
}
