import { type Kysely, sql } from 'kysely';

// What a person sees of the own sign-ins, a second factor, a way back after a forgotten passphrase, and what happened to
// accounts. Secrets that are only compared are kept as hashes; the seed of a second factor has to be kept as it is.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE sign_in ADD COLUMN device TEXT NOT NULL DEFAULT ''`.execute(db);
  await sql`CREATE INDEX sign_in_by_person ON sign_in (person_id, seen_at)`.execute(db);

  await sql`CREATE TABLE half_sign_in (
    token_hash TEXT NOT NULL PRIMARY KEY,
    person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
    expires_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE second_factor (
    person_id TEXT NOT NULL PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
    seed TEXT NOT NULL,
    begun_at INTEGER NOT NULL,
    confirmed_at INTEGER,
    last_step INTEGER NOT NULL DEFAULT 0
  ) STRICT`.execute(db);

  await sql`CREATE TABLE recovery_code (
    person_id TEXT NOT NULL REFERENCES second_factor (person_id) ON DELETE CASCADE,
    code_hash TEXT NOT NULL,
    PRIMARY KEY (person_id, code_hash)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE passphrase_reset (
    person_id TEXT NOT NULL PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
    token_hash TEXT NOT NULL UNIQUE,
    expires_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE security_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    at INTEGER NOT NULL,
    kind TEXT NOT NULL,
    person_id TEXT REFERENCES person (id) ON DELETE CASCADE,
    household_id TEXT REFERENCES household (id) ON DELETE CASCADE,
    address TEXT NOT NULL,
    device TEXT NOT NULL
  ) STRICT`.execute(db);
  await sql`CREATE INDEX security_event_by_person ON security_event (person_id, at)`.execute(db);
  await sql`CREATE INDEX security_event_by_household ON security_event (household_id, at)`.execute(db);
}
