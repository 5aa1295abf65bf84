import { createHash } from 'node:crypto';
import { existsSync, linkSync, rmSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { CompiledQuery, sql } from 'kysely';
import { found, type Outcome, refused, ShelfwardError } from '../../shared/problems.ts';
import { type Database, openDatabase, openToRead, type Writing } from './database.ts';
import type { SchemaTable } from './engine.ts';
import { engineOf } from './engine-of.ts';
import { makeFolder } from './folder.ts';
import { insertStatement, rowsOfStatement } from './insert-statement.ts';
import { isAddress, shownPlace } from './place.ts';
import { lockForBoth } from './serving-lock.ts';
import { toDisk } from './to-disk.ts';

// Everything one database holds, moved into another that is empty: from a file into PostgreSQL, and back. Rows go by the key of
// their table, a page at a time; what arrived is read again and held against what was read, before anything of it stands.

type Cell = string | number | null;
type Row = Readonly<Record<string, Cell>>;

/** What a table held, on both sides. */
export interface MovedTable {
  readonly name: string;
  readonly rows: number;
  /** SHA-256 over its rows in the order of its key, each written in one way whatever the engine. */
  readonly digest: string;
}

export interface Wish {
  /** A file, or the address of a PostgreSQL database. */
  readonly from: string;
  readonly to: string;
  /** Called as rows arrive; what it throws breaks the move off. */
  readonly arrived?: (table: string, rows: number) => void;
}

/**
 * Moves every row. The source is only read, as it stands at one moment; the target has everything, or nothing at all.
 *
 * @throws ShelfwardError where either cannot be opened, in words for whoever named it.
 */
export async function move(wish: Wish): Promise<Outcome<readonly MovedTable[]>> {
  const { from, to } = wish;
  if (!isAddress(to) && existsSync(to))
    return refuse(
      'file-there',
      `There is a file at ${to} already. A move begins a new one: name it with --to.`,
    );
  const lock = await named('--from', async () => (existsSync(from) ? lockForBoth(from) : null));
  if (lock?.ok === false)
    return refuse(
      'served-already',
      `A server of this machine serves ${from} or works for it, and what it writes meanwhile would stay behind. Stop it, then move.`,
    );
  try {
    const source = await named('--from', () => openToRead(from));
    try {
      return await engineOf(source).snapshot(source, (read) =>
        isAddress(to) ? intoDatabase(read, wish) : intoFile(read, wish),
      );
    } finally {
      await source.destroy();
    }
  } finally {
    if (lock?.ok) lock.value.release();
  }
}

const refuse = (code: string, message: string): Outcome<never> => refused({ code, path: ['to'], message });

/** What cannot be opened is told by the option that named it. */
async function named<T>(option: string, open: () => Promise<T>): Promise<T> {
  try {
    return await open();
  } catch (cause) {
    if (!(cause instanceof ShelfwardError)) throw cause;
    throw new ShelfwardError(cause.code, cause.message.replaceAll('with --database', `with ${option}`), {
      cause: cause.cause,
    });
  }
}

/** In one transaction, as if nobody else were there: who fills the same database meanwhile is noticed. */
async function intoDatabase(read: Writing, wish: Wish): Promise<Outcome<readonly MovedTable[]>> {
  const target = await named('--to', () => openDatabase(wish.to));
  try {
    return await engineOf(target).alone(target, async (trx) => {
      const held = await somethingIn(trx);
      return held === null
        ? found(await everyTable(read, trx, wish))
        : refuse(
            'target-not-empty',
            `${shownPlace(wish.to)} holds something already, under “${held}”. A move begins in an empty database: make a new one, and name it with --to.`,
          );
    });
  } finally {
    await target.destroy();
  }
}

const endings = ['', '-wal', '-shm', '-journal'];

/** Beside its place, where it is put when it is whole. */
async function intoFile(read: Writing, wish: Wish): Promise<Outcome<readonly MovedTable[]>> {
  const { to } = wish;
  const beginning = `${to}.moving-${process.pid}`;
  const clear = () => {
    for (const end of endings) rmSync(`${beginning}${end}`, { force: true });
  };
  clear();
  try {
    await named('--to', async () => makeFolder(dirname(resolve(to))));
    const target = await named('--to', () => openDatabase(beginning));
    let tables: readonly MovedTable[];
    try {
      tables = await target.transaction().execute((trx) => everyTable(read, trx, wish));
      await sql`PRAGMA journal_mode = DELETE`.execute(target);
    } finally {
      await target.destroy();
    }
    toDisk(beginning);
    // A second name, so that a file somebody made meanwhile is not replaced.
    linkSync(beginning, to);
    toDisk(dirname(resolve(to)));
    return found(tables);
  } finally {
    clear();
  }
}

/** The first table that holds a row; null where none does. */
async function somethingIn(db: Database): Promise<string | null> {
  for (const { name } of await engineOf(db).tables(db)) {
    const { rows } = await sql`SELECT 1 FROM ${sql.table(name)} LIMIT 1`.execute(db);
    if (rows.length > 0) return name;
  }
  return null;
}

async function everyTable(read: Writing, write: Writing, { arrived }: Wish): Promise<readonly MovedTable[]> {
  const tables = await sameTables(read, write);
  const moved: MovedTable[] = [];
  // What the source holds was summed when it was written.
  await engineOf(write).withoutSumming(write, async () => {
    for (const table of tables) {
      const digest = new Digest(table);
      for await (const page of pagesOf(read, table)) {
        await put(write, table, page);
        digest.add(page);
        arrived?.(table.name, page.length);
      }
      moved.push(digest.told());
    }
  });
  for (const [at, table] of tables.entries()) {
    const digest = new Digest(table);
    for await (const page of pagesOf(write, table)) digest.add(page);
    const [there, here] = [digest.told(), moved[at]];
    if (there.rows !== here?.rows || there.digest !== here.digest)
      throw new ShelfwardError(
        'moved-otherwise',
        `${table.name} arrived otherwise than it left. Nothing was moved.`,
      );
  }
  await numberOn(read, write, tables);
  return moved;
}

/** Both have the steps of this version, so they have the same tables; if not, nothing is moved. */
async function sameTables(read: Writing, write: Writing): Promise<readonly SchemaTable[]> {
  const here = await engineOf(read).tables(read);
  const there = await engineOf(write).tables(write);
  const columnsOf = (tables: readonly SchemaTable[]): string =>
    tables
      .map(({ name, columns }) => `${name} (${columns.toSorted().join(', ')})`)
      .toSorted()
      .join('\n');
  if (columnsOf(here) !== columnsOf(there))
    throw new ShelfwardError(
      'tables-differ',
      'The tables of both are not the same, as if one had been changed by other means. Nothing was moved.',
    );
  return there;
}

/** So many characters of rows are in memory at once, about. */
const pageLength = 4_000_000;
const rowsOfPage = { first: 50, most: 2_000 } as const;

/** The rows of a table by its key. How many a page has follows from how long the last ones were. */
async function* pagesOf(db: Writing, { name, columns, key }: SchemaTable): AsyncGenerator<readonly Row[]> {
  const listed = sql.join(columns.map((column) => sql.ref(column)));
  const order = sql.join(key.map((column) => sql.ref(column)));
  let size: number = rowsOfPage.first;
  let last: Row | undefined;
  for (;;) {
    const after =
      last === undefined
        ? sql``
        : sql`WHERE (${order}) > (${sql.join(key.map((column) => last?.[column] ?? null))})`;
    const { rows } = await sql<Row>`
      SELECT ${listed} FROM ${sql.table(name)} ${after} ORDER BY ${order} LIMIT ${size}`.execute(db);
    if (rows.length > 0) yield rows;
    if (rows.length < size) return;
    last = rows.at(-1);
    const length = rows.reduce((sum, row) => sum + lengthOf(row), 0) / rows.length;
    size = Math.max(1, Math.min(rowsOfPage.most, Math.floor(pageLength / length)));
  }
}

const lengthOf = (row: Row): number =>
  Object.values(row).reduce<number>((sum, cell) => sum + (typeof cell === 'string' ? cell.length : 8), 0);

async function put(trx: Writing, { name, columns }: SchemaTable, rows: readonly Row[]): Promise<void> {
  const atOnce = rowsOfStatement(columns.length);
  for (let from = 0; from < rows.length; from += atOnce) {
    const part = rows.slice(from, from + atOnce);
    const values = part.flatMap((row) => columns.map((column) => row[column] ?? null));
    await trx.executeQuery(CompiledQuery.raw(insertStatement(trx, name, columns, part.length), values));
  }
}

/** Counts rows and sums them up as they come, in the order of their key. */
class Digest {
  readonly #hash = createHash('sha256');
  readonly #columns: readonly string[];
  readonly #name: string;
  #rows = 0;

  constructor({ name, columns }: SchemaTable) {
    this.#name = name;
    this.#columns = columns.toSorted();
  }

  add(rows: readonly Row[]): void {
    for (const row of rows)
      this.#hash.update(`${JSON.stringify(this.#columns.map((column) => canonical(row[column] ?? null)))}\n`);
    this.#rows += rows.length;
  }

  told(): MovedTable {
    return { name: this.#name, rows: this.#rows, digest: this.#hash.copy().digest('hex') };
  }
}

/** A number is one, however its column keeps it; JSON has no word for one without an end. */
const canonical = (cell: Cell): Cell | readonly string[] =>
  typeof cell === 'number' && !Number.isFinite(cell) ? [String(cell)] : cell;

/** What numbers its own rows goes on after the last number it gave. */
async function numberOn(read: Writing, write: Writing, tables: readonly SchemaTable[]): Promise<void> {
  const given = await engineOf(read).lastNumbers(read);
  for (const name of (await engineOf(write).lastNumbers(write)).keys()) {
    const key = tables.find((table) => table.name === name)?.key[0] ?? 'seq';
    const { rows } = await sql<{ highest: number | null }>`
      SELECT max(${sql.ref(key)}) AS highest FROM ${sql.table(name)}`.execute(write);
    await engineOf(write).numberAfter(write, name, Math.max(given.get(name) ?? 0, rows[0]?.highest ?? 0));
  }
}
