import { type Kysely, sql } from 'kysely';

// What a household connects: a display on the fridge, the automations of a home server. Each opens the interface with an access
// token of its own, of which the hash alone is kept. It goes with whoever made it, and with the household.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE connected_thing (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    may TEXT NOT NULL CHECK (may IN ('read', 'read and take')),
    token_hash TEXT NOT NULL UNIQUE,
    made_by TEXT REFERENCES person (id) ON DELETE CASCADE,
    made_at INTEGER NOT NULL,
    ends_on TEXT CHECK (ends_on IS date(ends_on)),
    used_at INTEGER,
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);
}
