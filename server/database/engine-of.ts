import { PostgresAdapter } from 'kysely';
import type { Engine } from './engine.ts';
import type { Database } from './handle.ts';
import { postgresEngine } from './postgres-engine.ts';
import { sqliteEngine } from './sqlite-engine.ts';

/** The engine behind a connection or a transaction. */
export const engineOf = (db: Database): Engine =>
  db.getExecutor().adapter instanceof PostgresAdapter ? postgresEngine : sqliteEngine;
