import { existsSync, renameSync, rmSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import {
  CompiledQuery,
  type DatabaseConnection,
  Kysely,
  type MigrationProvider,
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
  sql,
  type TransactionSettings,
} from 'kysely';
import { ShelfwardError } from '../../shared/problems.ts';
import { machineFault } from '../faults.ts';
import { backUpOpen, backupFolder } from './backup.ts';
import { engineOf } from './engine-of.ts';
import { makeFolder } from './folder.ts';
import type { Database } from './handle.ts';
import { migrateToLatest, missingSteps, stepsInFolder } from './migrate.ts';
import { openingFault, quoted, requireNoLoss, wayBack } from './opening.ts';
import { isAddress } from './place.ts';
import { newestBackup } from './rotation.ts';
import { SQLite, type SQLiteDatabase, SQLiteStatements } from './sqlite.ts';
import type { Tables } from './tables.ts';
import { toDisk } from './to-disk.ts';

export type { Database, Writing } from './handle.ts';

const busyTimeoutInMs = 5_000;

/** SQLite takes back changes of the schema like any other; Kysely assumes that it does not and would leave half a migration. */
class WholeStepsAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

/**
 * Whoever writes has the file from the first look on, so that what it saw is still so when it writes: of two processes that both
 * looked first, one would be refused. A full disk ends the transaction by itself; taking it back once more would hide why.
 */
class OwnDriver extends SqliteDriver {
  readonly #sqlite: SQLiteDatabase;

  constructor(sqlite: SQLiteDatabase) {
    super({ database: new SQLiteStatements(sqlite) });
    this.#sqlite = sqlite;
  }

  override async beginTransaction(
    connection: DatabaseConnection,
    settings?: TransactionSettings,
  ): Promise<void> {
    const begin = settings?.accessMode === 'read only' ? 'begin' : 'begin immediate';
    await connection.executeQuery(CompiledQuery.raw(begin));
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#sqlite.inTransaction) await super.rollbackTransaction(connection);
  }
}

class DurableDialect extends SqliteDialect {
  readonly #sqlite: SQLiteDatabase;

  constructor(sqlite: SQLiteDatabase) {
    super({ database: sqlite });
    this.#sqlite = sqlite;
  }

  override createAdapter(): SqliteAdapter {
    return new WholeStepsAdapter();
  }

  override createDriver(): SqliteDriver {
    return new OwnDriver(this.#sqlite);
  }
}

/**
 * Opens a PostgreSQL database by its address, `postgres://…`, or a household file. A file is checked for damage and brings its schema up to date; a file that holds anything is backed up
 * before its schema changes. A new one is made beside its place and put there when it is whole, so that what stands there
 * is never half a file. `:memory:` gives a database that lives as long as the connection. Close it with `db.destroy()`.
 *
 * @throws ShelfwardError, in words for whoever started the program: the file is empty, missing beside backups, damaged, not to
 * be written, or of a newer version of the program.
 */
export async function openDatabase(file: string, steps?: MigrationProvider): Promise<Database> {
  // Whoever keeps a file never loads what speaks to a server.
  if (isAddress(file)) return (await import('./postgres.ts')).openPostgres(file, steps);
  const provider = steps ?? stepsInFolder;
  if (file !== ':memory:') {
    makeFolder(dirname(resolve(file)));
    requireNoLoss(file);
    if (existsSync(file)) inspect(file, Object.keys(await provider.getMigrations()));
    else await beginFile(file, provider);
  }
  const sqlite = connect(file === ':memory:' && provider === stepsInFolder ? await emptyImage() : file);
  const db = new Kysely<Tables>({ dialect: new DurableDialect(sqlite) });
  try {
    const [first] = await missingSteps(db, provider);
    if (file !== ':memory:' && first !== undefined && holdsTables(sqlite))
      await backUpOpen(sqlite, backupFolder(file), `before-${first}`);
    if (first !== undefined) await migrateToLatest(db, provider);
  } catch (cause) {
    await db.destroy();
    throw machineFault(cause) === null ? cause : openingFault(file, cause);
  }
  return db;
}

/**
 * Opens what is there to be read, and changes nothing of it: it has to be of this very version of the program.
 *
 * @throws ShelfwardError, in words for whoever named it.
 */
export async function openToRead(place: string): Promise<Database> {
  if (isAddress(place)) return (await import('./postgres.ts')).openPostgresToRead(place);
  if (!existsSync(place))
    throw new ShelfwardError(
      'database-missing',
      `There is no file at ${place}. Name another file with --database.`,
    );
  requireNoLoss(place);
  inspect(place, Object.keys(await stepsInFolder.getMigrations()));
  const sqlite = connectToRead(place);
  const db = new Kysely<Tables>({ dialect: new DurableDialect(sqlite) });
  try {
    if ((await missingSteps(db)).length === 0) return db;
    throw new ShelfwardError(
      'database-older',
      `${place} was written by an older version of the program. Bring it up to date first: npm run -s shelfward -- shelf --database ${quoted(place)}`,
    );
  } catch (cause) {
    await db.destroy();
    throw openingFault(place, cause);
  }
}

function connectToRead(file: string): SQLiteDatabase {
  let sqlite: SQLiteDatabase | undefined;
  try {
    sqlite = new SQLite(file, { readonly: true, fileMustExist: true, timeout: busyTimeoutInMs });
    requireSound(sqlite);
    return sqlite;
  } catch (cause) {
    sqlite?.close();
    throw openingFault(file, cause);
  }
}

function requireSound(sqlite: SQLiteDatabase): void {
  const health: unknown = sqlite.pragma('integrity_check(1)', { simple: true });
  if (health !== 'ok') throw new Error(String(health));
}

let emptied: Promise<Buffer> | null = null;

/** A database with every table and no row, migrated once in a process: each one in memory begins as its copy. */
function emptyImage(): Promise<Buffer> {
  emptied ??= (async () => {
    const sqlite = connect(':memory:');
    const db = new Kysely<Tables>({ dialect: new DurableDialect(sqlite) });
    try {
      await migrateToLatest(db);
      // What the steps made and took away again leaves no room behind.
      sqlite.exec('VACUUM');
      return sqlite.serialize();
    } finally {
      await db.destroy();
    }
  })();
  return emptied;
}

/** A new file with every table and no row, whole before it has its name. */
async function beginFile(file: string, provider: MigrationProvider): Promise<void> {
  const beginning = `${file}.beginning-${process.pid}`;
  const clear = () => {
    for (const end of ['', '-wal', '-shm', '-journal']) rmSync(`${beginning}${end}`, { force: true });
  };
  clear();
  try {
    const sqlite = connect(beginning);
    const db = new Kysely<Tables>({ dialect: new DurableDialect(sqlite) });
    try {
      await migrateToLatest(db, provider);
      sqlite.exec('VACUUM');
      sqlite.pragma('journal_mode = DELETE');
    } finally {
      await db.destroy();
    }
    toDisk(beginning);
    // Another process that began at the same moment was first: its file stands.
    if (!existsSync(file)) renameSync(beginning, file);
    toDisk(dirname(resolve(file)));
  } catch (cause) {
    throw openingFault(file, cause);
  } finally {
    clear();
  }
}

/** What a power cut cannot take back: the log is synced at each commit, and what is committed is in it. */
const durable = { journal_mode: 'wal', synchronous: 2, foreign_keys: 1 } as const;

function connect(file: string | Buffer): SQLiteDatabase {
  let sqlite: SQLiteDatabase | undefined;
  try {
    sqlite = new SQLite(file);
    sqlite.pragma(`busy_timeout = ${busyTimeoutInMs}`);
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('foreign_keys = ON');
    if (typeof file === 'string' && file !== ':memory:') requireDurable(sqlite);
    requireSound(sqlite);
    return sqlite;
  } catch (cause) {
    sqlite?.close();
    throw openingFault(typeof file === 'string' ? file : ':memory:', cause);
  }
}

/** A file system that cannot share memory gives no log, whatever was asked for: then nothing is acknowledged. */
function requireDurable(sqlite: SQLiteDatabase): void {
  for (const [setting, wanted] of Object.entries(durable)) {
    const given: unknown = sqlite.pragma(setting, { simple: true });
    if (given !== wanted)
      throw new ShelfwardError(
        'database-not-durable',
        `${sqlite.name} must be kept with ${setting} ${wanted}, and the file system gives ${String(given)}. Move the file to a disk of this machine.`,
      );
  }
}

/** Looks at a file without changing a byte of it; one that cannot be looked at in this way is told of when it is opened. */
function inspect(file: string, knownSteps: readonly string[]): void {
  let sqlite: SQLiteDatabase | undefined;
  try {
    sqlite = new SQLite(file, { readonly: true, fileMustExist: true, timeout: busyTimeoutInMs });
    requireOwn(file, sqlite);
    requireKnownSteps(file, sqlite, knownSteps);
  } catch (cause) {
    if (cause instanceof ShelfwardError) throw cause;
  } finally {
    sqlite?.close();
  }
}

/** A file without our tables is a new one only when it holds nothing at all and nothing of it was backed up. */
function requireOwn(file: string, sqlite: SQLiteDatabase): void {
  if (holdsTables(sqlite)) return;
  if (sqlite.prepare("SELECT 1 FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'").get() !== undefined)
    throw new ShelfwardError(
      'database-foreign',
      `${file} is a file of another program. It was left as it is. Name another file with --database.`,
    );
  if (newestBackup(file) !== null)
    throw new ShelfwardError('database-empty', `${file} holds no household. ${wayBack(file)}`);
}

/** A file that a newer version has changed is left alone. */
function requireKnownSteps(file: string, sqlite: SQLiteDatabase, known: readonly string[]): void {
  if (sqlite.prepare("SELECT 1 FROM sqlite_master WHERE name = 'kysely_migration'").get() === undefined)
    return;
  const seen = sqlite.prepare('SELECT name FROM kysely_migration ORDER BY name').all() as { name: string }[];
  const newer = seen.find(({ name }) => !known.includes(name))?.name;
  if (newer === undefined) return;
  throw new ShelfwardError(
    'database-newer',
    `${file} was written by a newer version of the program (it has the step “${newer}”). It was left as it is. Start the newer version, or name another file with --database.`,
  );
}

const holdsTables = (sqlite: SQLiteDatabase): boolean =>
  sqlite.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'household'").get() !==
  undefined;

const files = new WeakMap<Database, Promise<string | null>>();

/** The file behind a connection; null for one that lives in memory or with a server. A connection has one as long as it lives. */
export function fileOf(db: Database): Promise<string | null> {
  const known = files.get(db) ?? askedFile(db);
  files.set(db, known);
  return known;
}

async function askedFile(db: Database): Promise<string | null> {
  if (engineOf(db).name !== 'SQLite') return null;
  const { rows } = await sql<{
    file: string;
  }>`SELECT file FROM pragma_database_list WHERE name = 'main'`.execute(db);
  return rows[0]?.file || null;
}
