import { createRequire } from 'node:module';
import type BetterSqlite3 from 'better-sqlite3';
import { LRUCache } from 'lru-cache';

export type SQLiteDatabase = BetterSqlite3.Database;

/**
 * From Node 24.16 on, major 12 of the package ends the process when one of its statements is collected between two turns of
 * the event loop: it stands on `node::ObjectWrap`, whose end asks for an environment that is not there. Major 13 stands on
 * Node-API, does not, and does not run on Node 20, where npm leaves it out as an optional package.
 */
const firstOnNodeApi = 24;

const load = createRequire(import.meta.url);
const [major] = process.versions.node.split('.');

export const SQLite: typeof BetterSqlite3 =
  Number(major) >= firstOnNodeApi ? load('better-sqlite3-napi') : load('better-sqlite3');

/** What is read and planned anew each time: a pragma is partly carried out while it is read, and steps of the schema come once. */
const isKept = (text: string): boolean =>
  text.length <= longestKept && /^\s*(select|insert|update|delete|with|begin|commit)\b/i.test(text);
/** A text longer than this is a list of its own, and hardly comes again. */
const longestKept = 4000;
/** A file keeps at most so many, each some ten kilobytes; those asked longest ago go first. */
const mostKept = 300;

/**
 * The statements of an open file: one that is asked again is read and planned once, since that is a good part of what a short one costs. SQLite
 * itself plans a kept one anew when the schema changed. None is asked again before it is answered, as all rows are read at once.
 */
export class SQLiteStatements {
  readonly #sqlite: SQLiteDatabase;
  readonly #kept = new LRUCache<string, BetterSqlite3.Statement>({ max: mostKept });

  constructor(sqlite: SQLiteDatabase) {
    this.#sqlite = sqlite;
  }

  prepare(text: string): BetterSqlite3.Statement {
    const known = this.#kept.get(text);
    if (known !== undefined) return known;
    const statement = this.#sqlite.prepare(text);
    if (isKept(text)) this.#kept.set(text, statement);
    return statement;
  }

  close(): void {
    this.#kept.clear();
    this.#sqlite.close();
  }
}
