import { type Kysely, type MigrationLockOptions, PostgresAdapter, sql } from 'kysely';
import type { Database } from '../handle.ts';

/** One that migrates holds a row, not a lock of a kind that only PostgreSQL itself knows. */
export class RowLockAdapter extends PostgresAdapter {
  override async acquireMigrationLock(
    db: Kysely<unknown>,
    { lockTable }: MigrationLockOptions,
  ): Promise<void> {
    await sql`SELECT id FROM ${sql.table(lockTable)} FOR UPDATE`.execute(db);
  }
}

/** The same where the server holds households apart by itself. */
export class ApartAdapter extends RowLockAdapter {}

/** Whether the server holds households apart by itself for whoever this connection is of. */
export const holdsApart = (db: Database): boolean => db.getExecutor().adapter instanceof ApartAdapter;
