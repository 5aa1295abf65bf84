import { type Kysely, sql } from 'kysely';

// What was done to canners and other devices, and when. A task is the household's own: of a canner, or of a device it names. Those
// of a guide (the yearly check of a dial gauge, the look over a pressure canner) have no row: they follow from the canner.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE upkeep_task (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    canner_id TEXT,
    device TEXT,
    name TEXT NOT NULL,
    every_months INTEGER CHECK (every_months > 0),
    retired_on TEXT CHECK (retired_on IS date(retired_on)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id),
    CHECK ((canner_id IS NULL) <> (device IS NULL))
  ) STRICT`.execute(db);
  await sql`CREATE TABLE upkeep_event (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('gauge', 'look-over', 'own')),
    canner_id TEXT,
    task_id TEXT,
    done_on TEXT NOT NULL CHECK (done_on IS date(done_on)),
    note TEXT,
    gauge_off_at_5_psi REAL,
    gauge_off_at_10_psi REAL,
    gauge_off_at_15_psi REAL,
    recorded_by TEXT,
    recorded_at INTEGER NOT NULL,
    undone_at INTEGER,
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id),
    FOREIGN KEY (household_id, task_id) REFERENCES upkeep_task (household_id, id),
    CHECK ((kind = 'own') = (task_id IS NOT NULL)),
    CHECK ((kind = 'own') = (canner_id IS NULL))
  ) STRICT`.execute(db);
}
