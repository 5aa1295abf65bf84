import { createRequire } from 'node:module';
import type BetterSqlite3 from 'better-sqlite3';

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
