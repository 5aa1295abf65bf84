import { type Kysely, sql } from 'kysely';

const appendOnly = (table: string) => [
  sql.raw(`CREATE TRIGGER ${table}_no_update BEFORE UPDATE ON ${table}
    BEGIN SELECT RAISE(ABORT, '${table} is append-only: write another line instead'); END`),
  sql.raw(`CREATE TRIGGER ${table}_no_delete BEFORE DELETE ON ${table}
    WHEN EXISTS (SELECT 1 FROM household WHERE id = OLD.household_id)
    BEGIN SELECT RAISE(ABORT, '${table} is append-only: write another line instead'); END`),
];

// Canning days: what is worked on, what was ticked, when each load's clock ran, which sheets were printed, what came out.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE canning_session (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    session_on TEXT NOT NULL CHECK (session_on IS date(session_on)),
    setting_json TEXT NOT NULL CHECK (json_valid(setting_json)),
    work_json TEXT NOT NULL CHECK (json_valid(work_json)),
    opened_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, session_on)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE session_tick (
    household_id TEXT NOT NULL,
    session_on TEXT NOT NULL,
    load_key TEXT NOT NULL,
    step TEXT NOT NULL,
    ticked_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, session_on, load_key, step),
    FOREIGN KEY (household_id, session_on) REFERENCES canning_session (household_id, session_on) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE load_clock_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL,
    session_on TEXT NOT NULL,
    load_key TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('started', 'interrupted')),
    why TEXT CHECK (why IN ('boil-stopped', 'pressure-dropped', 'power-cut')),
    at INTEGER NOT NULL,
    CHECK ((kind = 'interrupted') = (why IS NOT NULL)),
    FOREIGN KEY (household_id, session_on) REFERENCES canning_session (household_id, session_on) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE printed_sheet (
    household_id TEXT NOT NULL,
    number INTEGER NOT NULL CHECK (number >= 1),
    session_on TEXT NOT NULL,
    basis_json TEXT NOT NULL CHECK (json_valid(basis_json)),
    printed_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, number),
    FOREIGN KEY (household_id, session_on) REFERENCES canning_session (household_id, session_on) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE batch_result (
    household_id TEXT NOT NULL,
    id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    made_on TEXT NOT NULL CHECK (made_on IS date(made_on)),
    batches INTEGER NOT NULL CHECK (batches >= 0),
    jars REAL NOT NULL CHECK (jars >= 0),
    minutes_taken INTEGER CHECK (minutes_taken > 0),
    processed_at INTEGER NOT NULL,
    note TEXT NOT NULL DEFAULT '',
    recorded_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE batch_result_lot (
    household_id TEXT NOT NULL,
    result_id TEXT NOT NULL,
    lot_id TEXT NOT NULL,
    PRIMARY KEY (household_id, lot_id),
    FOREIGN KEY (household_id, result_id) REFERENCES batch_result (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE seal_check (
    household_id TEXT NOT NULL,
    lot_id TEXT NOT NULL,
    checked_at INTEGER NOT NULL,
    failed REAL NOT NULL CHECK (failed >= 0),
    choice TEXT CHECK (choice IN ('reprocess', 'freeze', 'refrigerate', 'discard')),
    CHECK ((failed > 0) = (choice IS NOT NULL)),
    PRIMARY KEY (household_id, lot_id),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE lot_standing_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL,
    lot_id TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('set-aside', 'released')),
    reason TEXT NOT NULL DEFAULT '',
    at INTEGER NOT NULL,
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  for (const table of ['load_clock_event', 'lot_standing_event'])
    for (const trigger of appendOnly(table)) await trigger.execute(db);
}
