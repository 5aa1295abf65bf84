import { type Kysely, sql } from 'kysely';

const appendOnly = (table: string) => [
  sql.raw(`CREATE TRIGGER ${table}_no_update BEFORE UPDATE ON ${table}
    BEGIN SELECT RAISE(ABORT, '${table} is append-only: write a reversing event instead'); END`),
  sql.raw(`CREATE TRIGGER ${table}_no_delete BEFORE DELETE ON ${table}
    WHEN EXISTS (SELECT 1 FROM household WHERE id = OLD.household_id)
    BEGIN SELECT RAISE(ABORT, '${table} is append-only: write a reversing event instead'); END`),
];

// The ledger: lots, and events that only ever get added. Stock is their sum.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE lot (
    household_id TEXT NOT NULL,
    id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    batch_code TEXT NOT NULL,
    jar_kind TEXT CHECK (jar_kind LIKE '%/%'),
    origin TEXT NOT NULL CHECK (origin IN ('put-up', 'bought', 'received')),
    made_on TEXT NOT NULL CHECK (made_on IS date(made_on)),
    ready_from TEXT NOT NULL CHECK (ready_from IS date(ready_from)),
    best_quality_until TEXT NOT NULL CHECK (best_quality_until IS date(best_quality_until)),
    place_id TEXT,
    cost_cents INTEGER CHECK (cost_cents >= 0),
    set_aside_at INTEGER,
    set_aside_reason TEXT,
    recipe_id TEXT,
    recorded_at INTEGER NOT NULL,
    CHECK (ready_from >= made_on),
    CHECK ((set_aside_at IS NULL) = (set_aside_reason IS NULL)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, place_id) REFERENCES place (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE processing_evidence (
    household_id TEXT NOT NULL,
    lot_id TEXT NOT NULL,
    canner_id TEXT NOT NULL,
    method TEXT NOT NULL,
    gauge TEXT,
    schedule_row TEXT NOT NULL,
    altitude_ft REAL NOT NULL,
    psi REAL,
    minutes_run INTEGER NOT NULL CHECK (minutes_run > 0),
    acid_ticked INTEGER CHECK (acid_ticked IN (0, 1)),
    done_by TEXT NOT NULL,
    PRIMARY KEY (household_id, lot_id),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE,
    FOREIGN KEY (household_id, canner_id) REFERENCES canner (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE jar_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL,
    entry_id TEXT NOT NULL,
    lot_id TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('put up', 'bought', 'received', 'taken', 'given away', 'discarded', 'seal failed',
      'counted', 'moved', 'finished', 'reversed')),
    units REAL NOT NULL,
    trains_use INTEGER NOT NULL DEFAULT 0 CHECK (trains_use IN (0, 1)),
    reason TEXT,
    occurred_on TEXT NOT NULL CHECK (occurred_on IS date(occurred_on)),
    recorded_at INTEGER NOT NULL,
    recorded_by TEXT,
    reverses_seq INTEGER UNIQUE REFERENCES jar_event (seq),
    CHECK (kind NOT IN ('put up', 'bought', 'received') OR units > 0),
    CHECK (kind NOT IN ('taken', 'given away', 'discarded', 'seal failed') OR units < 0),
    CHECK (kind NOT IN ('moved', 'finished') OR units = 0),
    CHECK ((kind = 'reversed') = (reverses_seq IS NOT NULL)),
    FOREIGN KEY (household_id, lot_id) REFERENCES lot (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
  await sql`CREATE INDEX jar_event_by_lot ON jar_event (household_id, lot_id, units)`.execute(db);
  await sql`CREATE INDEX jar_event_by_entry ON jar_event (household_id, entry_id)`.execute(db);
  await sql`CREATE TRIGGER jar_event_never_below_zero BEFORE INSERT ON jar_event
    WHEN NEW.units + COALESCE((SELECT SUM(units) FROM jar_event
      WHERE household_id = NEW.household_id AND lot_id = NEW.lot_id), 0) < -1e-9
    BEGIN SELECT RAISE(ABORT, 'lot would fall below zero'); END`.execute(db);
  await sql`CREATE TRIGGER jar_event_reverses_exactly BEFORE INSERT ON jar_event
    WHEN NEW.kind = 'reversed' AND NOT EXISTS (SELECT 1 FROM jar_event WHERE seq = NEW.reverses_seq
      AND household_id = NEW.household_id AND lot_id = NEW.lot_id AND units = -NEW.units AND kind <> 'reversed')
    BEGIN SELECT RAISE(ABORT, 'a reversing event must undo one event of the same lot exactly'); END`.execute(
    db,
  );

  await sql`CREATE TABLE jar_conflict (
    household_id TEXT NOT NULL,
    id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    lot_id TEXT,
    kind TEXT NOT NULL,
    units REAL NOT NULL,
    occurred_on TEXT NOT NULL CHECK (occurred_on IS date(occurred_on)),
    recorded_at INTEGER NOT NULL,
    settled_at INTEGER,
    settled_as TEXT,
    CHECK ((settled_at IS NULL) = (settled_as IS NULL)),
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE shelf_count (
    household_id TEXT NOT NULL,
    id TEXT NOT NULL,
    item_id TEXT NOT NULL,
    counted_on TEXT NOT NULL CHECK (counted_on IS date(counted_on)),
    book_units REAL NOT NULL,
    counted_units REAL NOT NULL CHECK (counted_units >= 0),
    explained_as TEXT NOT NULL CHECK (explained_as IN ('taken-unrecorded', 'miscount', 'breakage', 'gift', 'found')),
    recorded_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, id),
    FOREIGN KEY (household_id, item_id) REFERENCES item (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);

  await sql`CREATE TABLE empty_jar_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    entry_id TEXT NOT NULL,
    jar_kind TEXT NOT NULL CHECK (jar_kind LIKE '%/%'),
    kind TEXT NOT NULL CHECK (kind IN ('emptied', 'filled', 'bought', 'lent', 'returned', 'broken', 'counted')),
    jars REAL NOT NULL,
    occurred_on TEXT NOT NULL CHECK (occurred_on IS date(occurred_on)),
    recorded_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE material_event (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    subject TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('picked', 'bought', 'left-over', 'frozen', 'used', 'lost')),
    quantity REAL NOT NULL,
    unit TEXT NOT NULL,
    use_by TEXT CHECK (use_by IS date(use_by)),
    occurred_on TEXT NOT NULL CHECK (occurred_on IS date(occurred_on)),
    recorded_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  for (const table of ['jar_event', 'empty_jar_event', 'material_event'])
    for (const trigger of appendOnly(table)) await trigger.execute(db);
}
