import { mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import SQLite from 'better-sqlite3';
import { Kysely, SqliteDialect, type Transaction } from 'kysely';
import { ShelfwardError } from '../../shared/problems.ts';
import { migrateToLatest } from './migrate.ts';
import type { Tables } from './tables.ts';

export type Database = Kysely<Tables>;
/** Inside a transaction only this may be used: the database has one connection, and waiting for it from within would never end. */
export type Writing = Transaction<Tables>;

const busyTimeoutInMs = 5_000;

/**
 * Opens (and, when it is new, makes) a household file, brings its schema up to date and checks it for damage.
 * `:memory:` gives a database that lives as long as the connection. Close it with `db.destroy()`.
 */
export async function openDatabase(file: string): Promise<Database> {
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: connect(file) }) });
  try {
    await migrateToLatest(db);
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
    const health: unknown = sqlite.pragma('quick_check(1)', { simple: true });
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
