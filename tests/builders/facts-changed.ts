import type { Database } from '../../server/database/database.ts';

/**
 * Steps the version of the facts, as every record does: what a test wrote into a table by itself is seen by pages from now on,
 * and plans made before it are out of date.
 */
export const factsChanged = (db: Database): Promise<unknown> =>
  db
    .updateTable('household')
    .set((row) => ({ facts_version: row('facts_version', '+', 1) }))
    .execute();
