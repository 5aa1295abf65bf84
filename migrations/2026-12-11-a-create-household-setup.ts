import { type Kysely, sql } from 'kysely';

// Which form set a household up, and who sent it: the same form of the same person makes one household. `asker` is the
// person's id, or empty for whoever sits at this machine without an account.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE household_setup (
    asker TEXT NOT NULL,
    key TEXT NOT NULL CHECK (length(key) BETWEEN 8 AND 200),
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    made_at INTEGER NOT NULL,
    PRIMARY KEY (asker, key)
  ) STRICT`.execute(db);
}
