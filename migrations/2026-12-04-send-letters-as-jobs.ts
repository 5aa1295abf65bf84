import { type Kysely, sql } from 'kysely';

// Sending a letter is a job like the others: when it is tried, how often, and what went wrong stand in the table of jobs,
// one for each letter. What a letter says and when it went stays with the letter.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE job_of_all_kinds (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL CHECK (kind IN ('notices', 'replan', 'backup', 'letter')),
    subject TEXT NOT NULL,
    for_on TEXT NOT NULL CHECK (for_on IS date(for_on)),
    due_at INTEGER NOT NULL,
    attempts INTEGER NOT NULL DEFAULT 0 CHECK (attempts >= 0),
    leased_until INTEGER,
    finished_at INTEGER,
    failure TEXT,
    UNIQUE (kind, subject, for_on)
  ) STRICT`.execute(db);
  await sql`INSERT INTO job_of_all_kinds SELECT * FROM job ORDER BY seq`.execute(db);
  await sql`INSERT INTO job_of_all_kinds (kind, subject, for_on, due_at, attempts, leased_until, finished_at, failure)
    SELECT 'letter', household_id || ' ' || id, date(written_at / 1000, 'unixepoch'), COALESCE(try_at, written_at),
      CASE WHEN sent_at IS NULL AND try_at IS NULL THEN 7 ELSE attempts END, NULL, sent_at, failure
    FROM letter ORDER BY written_at`.execute(db);
  await sql`DROP TABLE job`.execute(db);
  await sql`ALTER TABLE job_of_all_kinds RENAME TO job`.execute(db);

  await sql`CREATE TABLE letter_alone (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    about TEXT NOT NULL,
    recipient TEXT NOT NULL,
    subject TEXT NOT NULL,
    plain TEXT NOT NULL,
    html TEXT NOT NULL,
    notices_json TEXT NOT NULL CHECK (json_valid(notices_json)),
    written_at INTEGER NOT NULL,
    sent_at INTEGER,
    PRIMARY KEY (household_id, id),
    UNIQUE (household_id, about)
  ) STRICT`.execute(db);
  await sql`INSERT INTO letter_alone
    SELECT household_id, id, about, recipient, subject, plain, html, notices_json, written_at, sent_at FROM letter`.execute(
    db,
  );
  await sql`DROP TABLE letter`.execute(db);
  await sql`ALTER TABLE letter_alone RENAME TO letter`.execute(db);
}
