import { type Kysely, sql } from 'kysely';

// Where a household gardens, years that run early or late, which dates of a source were guessed, and what it usually gives
// where a year of it failed.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE ground (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    town TEXT CHECK (length(town) BETWEEN 1 AND 80),
    station TEXT CHECK (length(station) BETWEEN 1 AND 20),
    state TEXT CHECK (length(state) = 2),
    last_frost TEXT CHECK (last_frost IS substr(date('2001-' || last_frost), 6)),
    first_frost TEXT CHECK (first_frost IS substr(date('2001-' || first_frost), 6)),
    strawberries_from TEXT CHECK (strawberries_from IS substr(date('2001-' || strawberries_from), 6))
  ) STRICT`.execute(db);
  await sql`CREATE TABLE season_lateness (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    year INTEGER NOT NULL CHECK (year BETWEEN 2000 AND 2200),
    crop TEXT NOT NULL,
    days INTEGER NOT NULL CHECK (days BETWEEN -42 AND 42),
    PRIMARY KEY (household_id, year, crop)
  ) STRICT`.execute(db);
  await sql`ALTER TABLE harvest_window ADD COLUMN dates_guessed INTEGER NOT NULL DEFAULT 0 CHECK (dates_guessed IN (0, 1))`.execute(
    db,
  );
  await sql`ALTER TABLE harvest_window ADD COLUMN usual_lb_per_week REAL CHECK (usual_lb_per_week > 0)`.execute(
    db,
  );
}
