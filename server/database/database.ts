import { existsSync, mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import SQLite from 'better-sqlite3';
import {
  type DatabaseConnection,
  Kysely,
  type MigrationProvider,
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
  type Transaction,
} from 'kysely';
import { ShelfwardError } from '../../shared/problems.ts';
import { backUpOpen, backupFolder } from './backup.ts';
import { migrateToLatest, missingSteps, stepsInFolder } from './migrate.ts';
import type { Tables } from './tables.ts';

export type Database = Kysely<Tables>;
/** Inside a transaction only this may be used: the database has one connection, and waiting for it from within would never end. */
export type Writing = Transaction<Tables>;

const busyTimeoutInMs = 5_000;

/** SQLite takes back changes of the schema like any other; Kysely assumes that it does not and would leave half a migration. */
class WholeStepsAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

/** A full disk ends the transaction by itself; taking it back once more would hide why. */
class OnceTakenBackDriver extends SqliteDriver {
  readonly #sqlite: SQLite.Database;

  constructor(sqlite: SQLite.Database) {
    super({ database: sqlite });
    this.#sqlite = sqlite;
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#sqlite.inTransaction) await super.rollbackTransaction(connection);
  }
}

class DurableDialect extends SqliteDialect {
  readonly #sqlite: SQLite.Database;

  constructor(sqlite: SQLite.Database) {
    super({ database: sqlite });
    this.#sqlite = sqlite;
  }

  override createAdapter(): SqliteAdapter {
    return new WholeStepsAdapter();
  }

  override createDriver(): SqliteDriver {
    return new OnceTakenBackDriver(this.#sqlite);
  }
}

/**
 * Opens (and, when it is new, makes) a household file, checks it for damage and brings its schema up to date; a file that
 * holds anything is backed up before its schema changes. `:memory:` gives a database that lives as long as the
 * connection. Close it with `db.destroy()`.
 */
export async function openDatabase(
  file: string,
  provider: MigrationProvider = stepsInFolder,
): Promise<Database> {
  const wasThere = file !== ':memory:' && existsSync(file);
  const sqlite = connect(file);
  const db = new Kysely<Tables>({ dialect: new DurableDialect(sqlite) });
  try {
    const [first] = await missingSteps(db, provider);
    if (wasThere && first !== undefined && holdsTables(sqlite))
      await backUpOpen(sqlite, backupFolder(file), `before-${first}`);
    await migrateToLatest(db, provider);
  } catch (cause) {
    await db.destroy();
    throw cause;
  }
  return db;
}

function connect(file: string): SQLite.Database {
  if (file !== ':memory:') mkdirSync(dirname(resolve(file)), { recursive: true });
  let sqlite: SQLite.Database | undefined;
  try {
    sqlite = new SQLite(file);
    sqlite.pragma(`busy_timeout = ${busyTimeoutInMs}`);
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('foreign_keys = ON');
    const health: unknown = sqlite.pragma('integrity_check(1)', { simple: true });
    if (health !== 'ok') throw new Error(String(health));
    return sqlite;
  } catch (cause) {
    sqlite?.close();
    throw new ShelfwardError(
      'database-unreadable',
      `openDatabase: expected a sound SQLite file at ${file}: ${cause instanceof Error ? cause.message : String(cause)}`,
      { cause },
    );
  }
}

const holdsTables = (sqlite: SQLite.Database): boolean =>
  sqlite.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'household'").get() !==
  undefined;
