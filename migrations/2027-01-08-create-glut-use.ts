import { type Kysely, sql } from 'kysely';

// A glut that was taken into the plan in one tap: the produce that came with it, the batches that were pinned for it, and the
// plan before it, so that one tap takes all of it back.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE glut_use (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    crop TEXT NOT NULL,
    lb REAL NOT NULL CHECK (lb > 0),
    use_by TEXT NOT NULL CHECK (use_by IS date(use_by)),
    pins_json TEXT NOT NULL,
    plan_before TEXT,
    plan_was_current INTEGER NOT NULL CHECK (plan_was_current IN (0, 1)),
    facts_version INTEGER NOT NULL,
    recorded_at INTEGER NOT NULL,
    undone_at INTEGER,
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);
}
