import { type Kysely, sql } from 'kysely';

// Who may look at which household, and from where they are signed in. Tokens are kept as hashes only.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE person (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (length(name) BETWEEN 1 AND 60),
    passphrase_hash TEXT NOT NULL,
    created_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE membership (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
    role TEXT NOT NULL CHECK (role IN ('owner', 'cook', 'helper', 'reader')),
    since_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, person_id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE invitation (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    token_hash TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL CHECK (role IN ('owner', 'cook', 'helper', 'reader')),
    made_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, token_hash)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE sign_in (
    token_hash TEXT NOT NULL PRIMARY KEY,
    person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
    began_at INTEGER NOT NULL,
    seen_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE sign_in_failure (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    subject TEXT NOT NULL,
    failed_at INTEGER NOT NULL
  ) STRICT`.execute(db);
  await sql`CREATE INDEX sign_in_failure_by_subject ON sign_in_failure (subject, failed_at)`.execute(db);
}
