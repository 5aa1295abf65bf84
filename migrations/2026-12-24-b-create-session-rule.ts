import { type Kysely, sql } from 'kysely';

// On which days sessions are held, and when none are though somebody is at home. A household without rules keeps its usual day.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE session_rule (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    weekday INTEGER NOT NULL CHECK (weekday BETWEEN 1 AND 7),
    which TEXT NOT NULL CHECK (which IN ('every', 'first', 'second', 'third', 'fourth', 'last')),
    hours REAL NOT NULL CHECK (hours BETWEEN 0.5 AND 12),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE session_pause (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    from_on TEXT NOT NULL CHECK (from_on IS date(from_on)),
    until_on TEXT NOT NULL CHECK (until_on IS date(until_on)),
    each_year INTEGER NOT NULL CHECK (each_year IN (0, 1)),
    CHECK (from_on < until_on),
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);
}
