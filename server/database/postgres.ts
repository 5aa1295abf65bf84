import { setTimeout } from 'node:timers/promises';
import {
  HandleEmptyInListsPlugin,
  Kysely,
  type MigrationProvider,
  PostgresDialect,
  replaceWithNoncontingentExpression,
  sql,
} from 'kysely';
import pg from 'pg';
import { ShelfwardError } from '../../shared/problems.ts';
import { machineFault } from '../faults.ts';
import { holdsApart, RowLockAdapter } from './apart/adapters.ts';
import { ApartDialect } from './apart/apart-dialect.ts';
import { hasRowRules, isHeldApart, makeRowRules } from './apart/row-rules.ts';
import type { Database } from './handle.ts';
import { clientKeeping, KeptStatements } from './kept-statements.ts';
import { migrateToLatest, missingSteps, stepsForPostgres } from './migrate.ts';
import { shownPlace } from './place.ts';
import type { Tables } from './tables.ts';

/** The first one that the program was tried on. */
const firstMajor = 15;
/** Connections of one process. */
const mostConnections = 10;
/** How long a connection may take to come about. */
const connectWithinMs = 10_000;
/** What the server calls a connection of this program. */
const connectionName = 'shelfward';

/** Whole numbers and sums come as text, since they may be larger than a number of JavaScript is exact; none of ours are. */
const asNumbers: ReadonlySet<number> = new Set([pg.types.builtins.INT8, pg.types.builtins.NUMERIC]);
const types: pg.CustomTypesConfig = {
  getTypeParser: ((id: number, format?: 'text' | 'binary') =>
    asNumbers.has(id)
      ? Number
      : pg.types.getTypeParser(id, format as 'text')) as pg.CustomTypesConfig['getTypeParser'],
};

class OwnDialect extends PostgresDialect {
  override createAdapter(): RowLockAdapter {
    return new RowLockAdapter();
  }
}

/**
 * Opens a database and brings its schema up to date; an empty one is given the whole of it. Close it with `db.destroy()`.
 *
 * @throws ShelfwardError, in words for whoever started the program: it does not answer, is too old, holds something else, or was
 * written by a newer version of the program.
 */
export async function openPostgres(
  address: string,
  provider: MigrationProvider = stepsForPostgres,
): Promise<Database> {
  const db = await connectApart(address);
  try {
    await requireVersion(db, address);
    await requireOwn(db, address, Object.keys(await provider.getMigrations()));
    const isMissing = (await missingSteps(db, provider)).length > 0;
    if (isMissing && holdsApart(db))
      throw new ShelfwardError(
        'database-older',
        `${shownPlace(address)} is of an older version of the program, and this user may not bring it up to date. Do so as the owner of its tables: npm run -s shelfward -- migrate --database postgres://OWNER@…`,
      );
    if (isMissing) {
      await migrateToLatest(db, provider);
      // Tables that are new are held apart like the others.
      if (await hasRowRules(db)) await makeRowRules(db);
    }
    keptBy.get(db)?.begin();
    return db;
  } catch (cause) {
    await db.destroy();
    throw openingFault(address, cause);
  }
}

/**
 * Opens a database to be read, and changes nothing of it: it has to be of this very version of the program, and no other
 * program of this kind may be connected to it.
 *
 * @throws ShelfwardError, in words for whoever named it.
 */
export async function openPostgresToRead(address: string): Promise<Database> {
  const db = await connectApart(address);
  try {
    await requireVersion(db, address);
    await requireOwn(db, address, Object.keys(await stepsForPostgres.getMigrations()));
    if ((await missingSteps(db, stepsForPostgres)).length > 0)
      throw new ShelfwardError(
        'database-older',
        `${shownPlace(address)} is empty, or was written by an older version of the program. Name another database with --database, or bring this one up to date: npm run -s shelfward -- migrate --database ADDRESS`,
      );
    await requireAlone(db, address);
    return db;
  } catch (cause) {
    await db.destroy();
    throw openingFault(address, cause);
  }
}

/** So often, and so long apart, it is looked whether a connection that was there has ended. */
const looks = { most: 10, waitMs: 100 } as const;

/** What is asked of it in turn is asked by one connection; any further one is of another program. */
async function requireAlone(db: Database, address: string): Promise<void> {
  for (let look = 1; look <= looks.most; look += 1) {
    const { rows } = await sql<{ others: number }>`
      SELECT count(*) AS others FROM pg_stat_activity
      WHERE datname = current_database() AND application_name = ${connectionName} AND pid <> pg_backend_pid()`.execute(
      db,
    );
    if (rows[0]?.others === 0) return;
    await setTimeout(looks.waitMs);
  }
  throw new ShelfwardError(
    'served-already',
    `A server of this program is connected to ${shownPlace(address)}. Stop that one first, or name another database with --database.`,
  );
}

/** Says whose rows it may see, where the server holds households apart for this user. */
async function connectApart(address: string): Promise<Database> {
  const db = connect(address);
  try {
    if (!(await isHeldApart(db))) return db;
  } catch (cause) {
    await db.destroy();
    throw openingFault(address, cause);
  }
  await db.destroy();
  return connect(address, (pool) => new ApartDialect(pool));
}

const keptBy = new WeakMap<Database, KeptStatements>();

function connect(
  address: string,
  dialectOf: (pool: pg.Pool) => PostgresDialect = (pool) => new OwnDialect({ pool }),
): Database {
  const kept = new KeptStatements();
  const pool = new pg.Pool({
    Client: clientKeeping(kept),
    connectionString: address,
    max: mostConnections,
    connectionTimeoutMillis: connectWithinMs,
    application_name: connectionName,
    types,
  });
  // A connection that ends while nobody uses it is replaced by the next one.
  pool.on('error', () => {});
  // One that ends between two statements of a transaction is told of by the next of them, and ends nothing else.
  pool.on('connect', (client) => void client.on('error', () => {}));
  const db = new Kysely<Tables>({
    dialect: dialectOf(pool),
    // A list may be empty, which only SQLite can read.
    plugins: [new HandleEmptyInListsPlugin({ strategy: replaceWithNoncontingentExpression })],
  });
  keptBy.set(db, kept);
  return db;
}

async function requireVersion(db: Database, address: string): Promise<void> {
  const { rows } = await sql<{
    version: number;
  }>`SELECT current_setting('server_version_num')::int AS version`.execute(db);
  const major = Math.floor((rows[0]?.version ?? 0) / 10_000);
  if (major < firstMajor)
    throw new ShelfwardError(
      'database-too-old',
      `${shownPlace(address)} is served by PostgreSQL ${major}, and the program needs ${firstMajor} or later. Bring the server up to date, or name another database with --database.`,
    );
}

/** A schema that holds anything else is left alone, and so is one that a newer version has changed. */
async function requireOwn(db: Database, address: string, known: readonly string[]): Promise<void> {
  const { rows: tables } = await sql<{ name: string }>`
    SELECT table_name AS name FROM information_schema.tables WHERE table_schema = current_schema()`.execute(
    db,
  );
  if (tables.length === 0) return;
  if (!tables.some(({ name }) => name === 'kysely_migration'))
    throw new ShelfwardError(
      'database-foreign',
      `${shownPlace(address)} holds tables of another program. It was left as it is. Name an empty database with --database.`,
    );
  const { rows: seen } = await sql<{ name: string }>`SELECT name FROM kysely_migration ORDER BY name`.execute(
    db,
  );
  const newer = seen.find(({ name }) => !known.includes(name))?.name;
  if (newer !== undefined)
    throw new ShelfwardError(
      'database-newer',
      `${shownPlace(address)} was written by a newer version of the program (it has the step “${newer}”). It was left as it is. Start the newer version, or name another database with --database.`,
    );
}

function openingFault(address: string, cause: unknown): unknown {
  if (cause instanceof ShelfwardError) return cause;
  const said =
    cause instanceof Error ? cause.message || String('code' in cause ? cause.code : cause) : String(cause);
  switch (machineFault(cause)) {
    case 'not-allowed':
      return new ShelfwardError(
        'database-not-writable',
        `The server of ${shownPlace(address)} does not let this user in (${said}). Look at name and passphrase, or name another database with --database.`,
        { cause },
      );
    case null:
      return cause;
    default:
      return new ShelfwardError(
        'database-unreachable',
        `${shownPlace(address)} does not answer (${said}). Look whether PostgreSQL runs there, or name another database with --database.`,
        { cause },
      );
  }
}
