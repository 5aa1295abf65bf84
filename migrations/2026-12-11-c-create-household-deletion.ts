import { type Kysely, sql } from 'kysely';

// A household that an owner deleted stays for seven days, seen by nobody, and can come back. Who may begin a household for
// others, beside owners, is a person the operator named.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE household_deletion (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    deleted_at INTEGER NOT NULL,
    by_name TEXT NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE begin_permission (
    person_id TEXT NOT NULL PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
    allowed_at INTEGER NOT NULL
  ) STRICT`.execute(db);
}
