import { type Kysely, sql } from 'kysely';

// Work done at night, once for each subject and day; a lease lets one runner at a time take it.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE job (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL CHECK (kind IN ('notices', 'replan', 'backup')),
    subject TEXT NOT NULL,
    for_on TEXT NOT NULL CHECK (for_on IS date(for_on)),
    due_at INTEGER NOT NULL,
    attempts INTEGER NOT NULL DEFAULT 0 CHECK (attempts >= 0),
    leased_until INTEGER,
    finished_at INTEGER,
    failure TEXT,
    UNIQUE (kind, subject, for_on)
  ) STRICT`.execute(db);
}
