import { type Kysely, sql } from 'kysely';

// Plans as snapshots, what a person decided about them, what needs attention, and repeat-safe writes.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE plan (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    as_of TEXT NOT NULL CHECK (as_of IS date(as_of)),
    facts_version INTEGER NOT NULL,
    input_json TEXT NOT NULL CHECK (json_valid(input_json)),
    result_json TEXT NOT NULL CHECK (json_valid(result_json)),
    made_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);
  await sql`CREATE INDEX plan_newest ON plan (household_id, made_at DESC)`.execute(db);
  await sql`CREATE TRIGGER plan_no_update BEFORE UPDATE ON plan
    BEGIN SELECT RAISE(ABORT, 'a plan is a snapshot: make a new one instead'); END`.execute(db);

  await sql`CREATE TABLE kept (
    household_id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    week TEXT NOT NULL CHECK (week GLOB '[0-9][0-9][0-9][0-9]-W[0-5][0-9]'),
    decision TEXT NOT NULL CHECK (decision IN ('pinned', 'ruled-out', 'done')),
    batches INTEGER CHECK (batches >= 0),
    decided_at INTEGER NOT NULL,
    CHECK ((decision = 'ruled-out') = (batches IS NULL)),
    PRIMARY KEY (household_id, recipe_id, week),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE notice (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    kind TEXT NOT NULL,
    subject TEXT NOT NULL,
    reason TEXT NOT NULL,
    due_on TEXT CHECK (due_on IS date(due_on)),
    state TEXT NOT NULL DEFAULT 'open' CHECK (state IN ('open', 'snoozed', 'done', 'gone')),
    snoozed_until TEXT CHECK (snoozed_until IS date(snoozed_until)),
    first_seen_at INTEGER NOT NULL,
    changed_at INTEGER NOT NULL,
    sent_at INTEGER,
    CHECK ((state = 'snoozed') = (snoozed_until IS NOT NULL)),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);
  await sql`CREATE UNIQUE INDEX notice_one_open ON notice (household_id, kind, subject)
    WHERE state IN ('open', 'snoozed')`.execute(db);

  await sql`CREATE TABLE idempotency (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    key TEXT NOT NULL CHECK (length(key) BETWEEN 8 AND 200),
    request_hash TEXT NOT NULL,
    answer_json TEXT NOT NULL CHECK (json_valid(answer_json)),
    recorded_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, key)
  ) STRICT`.execute(db);
}
