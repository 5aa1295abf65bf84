import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import pg from 'pg';
import { inject } from 'vitest';
import { carriedTables } from '../../server/columns/household-columns.ts';
import { type Database, openDatabase as open } from '../../server/database/database.ts';
import { engineOf } from '../../server/database/engine-of.ts';

export * from '../../server/database/database.ts';

// What the tests of this project get where the program opens a database in memory: one of its own on the server, with every table
// and no row.

/** Makes a database of its own and answers its address, and how it goes away. */
export async function ownDatabase(): Promise<{
  /** As the owner of its tables. */
  readonly address: string;
  /** As somebody whom the server holds apart by itself. */
  readonly apart: string;
  drop(): Promise<void>;
}> {
  const server = inject('postgres');
  if (server === null) throw new Error('ownDatabase: there is no PostgreSQL on this machine');
  const name = `test_${randomUUID().replaceAll('-', '')}`;
  const say = async (statement: string): Promise<void> => {
    const client = new pg.Client({ connectionString: server.any });
    await client.connect();
    try {
      await client.query(statement);
    } finally {
      await client.end();
    }
  };
  await say(`CREATE DATABASE ${name} TEMPLATE template STRATEGY wal_log`);
  const address = server.template.replace('/template?', `/${name}?`);
  return {
    address,
    apart: address.replace('//shelfward@', '//shelfward_web@'),
    drop: () => say(`DROP DATABASE ${name} WITH (FORCE)`),
  };
}

/** A database in memory as the program opens it. */
export const openInMemory = (): Promise<Database> => open(':memory:');

/** `ROW_RULES=1`: all tests are run as somebody whom the server holds apart by itself. */
const isApart = process.env.ROW_RULES === '1';

/** Empty ones, which the next test takes: to make one anew takes longer than to empty one. */
const empty: Awaited<ReturnType<typeof ownDatabase>>[] = [];

export async function openDatabase(...[file, steps]: Parameters<typeof open>): Promise<Database> {
  if (file !== ':memory:' || steps !== undefined) return open(file, steps);
  const own = empty.pop() ?? (await ownDatabase());
  const db = await open(isApart ? own.apart : own.address);
  const end = db.destroy.bind(db);
  let isEnded = false;
  db.destroy = async () => {
    // Who has closed it and closes it again has given it back already: it may be the next test's by now.
    if (isEnded) return;
    isEnded = true;
    // To begin a count anew is for the owner.
    const owner = isApart ? await open(own.address) : db;
    const isEmpty = await cleared(owner);
    if (owner !== db) await owner.destroy();
    await end();
    if (isEmpty) empty.push(own);
    else await own.drop();
  };
  return db;
}

/** Takes every row away and begins every count anew; false where that cannot be done, since a test changed the schema. */
async function cleared(db: Database): Promise<boolean> {
  try {
    for (const { id } of await db.selectFrom('household').select('id').execute())
      await db.transaction().execute((trx) => engineOf(trx).forgetHousehold(trx, id, carriedTables));
    for (const table of [
      'person',
      'sign_in_failure',
      'clock_reading',
      'clock_jump',
      'job',
      'security_event',
    ] as const)
      await db.deleteFrom(table).execute();
    await sql`SELECT setval(pg_get_serial_sequence(name, 'seq'), 1, false)
      FROM (VALUES ('sign_in_failure'), ('clock_jump'), ('job'), ('security_event')) AS numbered (name)`.execute(
      db,
    );
    return true;
  } catch {
    return false;
  }
}
