import { createHash } from 'node:crypto';
import { type Kysely, PostgresAdapter, sql } from 'kysely';

// Jobs wait in lanes, and in each of them the household that was served longest ago is next. A job is one runner's while its
// lease stands; no household has two solves at once. Every claim is of one bucket, a sixty-fourth of all households.
export async function up(db: Kysely<unknown>): Promise<void> {
  const isPostgres = db.getExecutor().adapter instanceof PostgresAdapter;
  for (const statement of isPostgres ? forServer : forFile) await sql.raw(statement).execute(db);
  const { rows } = await sql<{ id: string }>`SELECT DISTINCT household_id AS id FROM job
    WHERE household_id IS NOT NULL`.execute(db);
  for (const { id } of rows)
    await sql`UPDATE job SET bucket = ${bucketOf(id)} WHERE household_id = ${id}`.execute(db);
  for (const statement of [
    "UPDATE job SET lane = 1 WHERE kind IN ('letter', 'backup')",
    // What was given up has no turn; what runs elsewhere may be taken when its lease is over.
    "UPDATE job SET turn_at = CASE WHEN attempts > CASE kind WHEN 'letter' THEN 6 ELSE 3 END THEN NULL WHEN leased_until > due_at THEN leased_until ELSE due_at END WHERE finished_at IS NULL",
    'CREATE INDEX job_turn ON job (lane, turn_at, seq) WHERE finished_at IS NULL',
    'CREATE INDEX job_turn_of_bucket ON job (bucket, lane, turn_at, seq) WHERE finished_at IS NULL',
    'CREATE UNIQUE INDEX job_one_solve ON job (bucket, solves_for) WHERE solves_for IS NOT NULL',
    'CREATE INDEX job_served ON job (household_id, served_at)',
    'CREATE INDEX job_waiting_of_household ON job (household_id, seq) WHERE finished_at IS NULL',
  ])
    await sql.raw(statement).execute(db);
}

const bucketOf = (household: string): number =>
  (createHash('sha256').update(household).digest()[0] as number) % 64;

/** A rule of a file's table can only be changed with the table. */
const forFile = [
  `CREATE TABLE job_in_lanes (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL CHECK (kind IN ('notices', 'replan', 'backup', 'letter', 'plan', 'question')),
    subject TEXT NOT NULL,
    for_on TEXT NOT NULL CHECK (for_on IS date(for_on)),
    due_at INTEGER NOT NULL,
    attempts INTEGER NOT NULL DEFAULT 0 CHECK (attempts >= 0),
    leased_until INTEGER,
    finished_at INTEGER,
    failure TEXT,
    household_id TEXT,
    lane INTEGER NOT NULL DEFAULT 2 CHECK (lane IN (0, 1, 2)),
    bucket INTEGER NOT NULL DEFAULT 0 CHECK (bucket BETWEEN 0 AND 63),
    turn_at INTEGER DEFAULT 0,
    leased_by TEXT,
    served_at INTEGER,
    lapses INTEGER NOT NULL DEFAULT 0 CHECK (lapses >= 0),
    solves_for TEXT,
    UNIQUE (kind, subject, for_on)
  ) STRICT`,
  `INSERT INTO job_in_lanes (seq, kind, subject, for_on, due_at, attempts, leased_until, finished_at, failure, household_id)
    SELECT seq, kind, subject, for_on, due_at, attempts, leased_until, finished_at, failure, household_id FROM job ORDER BY seq`,
  'DROP TABLE job',
  'ALTER TABLE job_in_lanes RENAME TO job',
  'CREATE INDEX job_of_household ON job (household_id, seq)',
  'CREATE INDEX job_failed ON job (kind, subject, seq) WHERE failure IS NOT NULL',
  'CREATE INDEX job_by_due ON job (due_at)',
  'CREATE INDEX job_by_end ON job (finished_at)',
];

const forServer = [
  'ALTER TABLE job DROP CONSTRAINT job_kind_check',
  "ALTER TABLE job ADD CONSTRAINT job_kind_check CHECK (kind IN ('notices', 'replan', 'backup', 'letter', 'plan', 'question'))",
  'ALTER TABLE job ADD COLUMN lane bigint NOT NULL DEFAULT 2 CHECK (lane IN (0, 1, 2))',
  'ALTER TABLE job ADD COLUMN bucket bigint NOT NULL DEFAULT 0 CHECK (bucket BETWEEN 0 AND 63)',
  'ALTER TABLE job ADD COLUMN turn_at bigint DEFAULT 0',
  'ALTER TABLE job ADD COLUMN leased_by text COLLATE "C"',
  'ALTER TABLE job ADD COLUMN served_at bigint',
  'ALTER TABLE job ADD COLUMN lapses bigint NOT NULL DEFAULT 0 CHECK (lapses >= 0)',
  'ALTER TABLE job ADD COLUMN solves_for text COLLATE "C"',
  'DROP INDEX job_waiting',
  'DROP INDEX job_leased',
];
