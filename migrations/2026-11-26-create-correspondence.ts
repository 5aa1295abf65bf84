import { type Kysely, sql } from 'kysely';

// What leaves the program for other places: the calendar, labels, letters; and lists on their way in.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE calendar_feed (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    token TEXT NOT NULL UNIQUE CHECK (length(token) >= 32),
    canning INTEGER NOT NULL DEFAULT 1 CHECK (canning IN (0, 1)),
    shopping INTEGER NOT NULL DEFAULT 1 CHECK (shopping IN (0, 1)),
    best_quality INTEGER NOT NULL DEFAULT 1 CHECK (best_quality IN (0, 1)),
    harvest INTEGER NOT NULL DEFAULT 1 CHECK (harvest IN (0, 1)),
    created_at INTEGER NOT NULL
  ) STRICT`.execute(db);

  await sql`CREATE TABLE calendar_entry (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    uid TEXT NOT NULL,
    content_hash TEXT NOT NULL,
    sequence INTEGER NOT NULL DEFAULT 0 CHECK (sequence >= 0),
    created_at INTEGER NOT NULL,
    changed_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, uid)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE label_grid (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    paper TEXT NOT NULL CHECK (paper IN ('A4', 'Letter')),
    columns INTEGER NOT NULL CHECK (columns BETWEEN 1 AND 12),
    rows INTEGER NOT NULL CHECK (rows BETWEEN 1 AND 40),
    width_mm REAL NOT NULL CHECK (width_mm BETWEEN 15 AND 220),
    height_mm REAL NOT NULL CHECK (height_mm BETWEEN 10 AND 300),
    left_mm REAL NOT NULL CHECK (left_mm BETWEEN 0 AND 100),
    top_mm REAL NOT NULL CHECK (top_mm BETWEEN 0 AND 100),
    across_mm REAL NOT NULL CHECK (across_mm BETWEEN 0 AND 100),
    down_mm REAL NOT NULL CHECK (down_mm BETWEEN 0 AND 100),
    address TEXT NOT NULL DEFAULT ''
  ) STRICT`.execute(db);

  await sql`CREATE TABLE import_draft (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('stock', 'past use')),
    file_name TEXT NOT NULL,
    content TEXT NOT NULL,
    received_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, id)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE notice_lead (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    kind TEXT NOT NULL,
    days INTEGER CHECK (days BETWEEN 0 AND 365),
    PRIMARY KEY (household_id, kind)
  ) STRICT`.execute(db);

  await sql`CREATE TABLE mail_wish (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    address TEXT NOT NULL CHECK (length(address) BETWEEN 3 AND 254),
    weekly INTEGER NOT NULL DEFAULT 1 CHECK (weekly IN (0, 1)),
    weekday INTEGER NOT NULL DEFAULT 5 CHECK (weekday BETWEEN 1 AND 7),
    urgent INTEGER NOT NULL DEFAULT 1 CHECK (urgent IN (0, 1))
  ) STRICT`.execute(db);

  await sql`CREATE TABLE letter (
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    about TEXT NOT NULL,
    recipient TEXT NOT NULL,
    subject TEXT NOT NULL,
    plain TEXT NOT NULL,
    html TEXT NOT NULL,
    notices_json TEXT NOT NULL CHECK (json_valid(notices_json)),
    written_at INTEGER NOT NULL,
    attempts INTEGER NOT NULL DEFAULT 0 CHECK (attempts >= 0),
    try_at INTEGER,
    failure TEXT,
    sent_at INTEGER,
    CHECK (sent_at IS NULL OR try_at IS NULL),
    PRIMARY KEY (household_id, id),
    UNIQUE (household_id, about)
  ) STRICT`.execute(db);
}
