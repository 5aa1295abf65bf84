import { sql } from 'kysely';
import type { Engine, SchemaColumn } from './engine.ts';

/** One file behind one connection: a transaction has it alone, so that each of them is a snapshot. */
export const sqliteEngine: Engine = {
  name: 'SQLite',

  mark: () => '?',

  async columns(db, table) {
    const { rows } = await sql<SchemaColumn>`
      SELECT name, pk AS "key", dflt_value AS usual FROM pragma_table_info(${table}) ORDER BY cid`.execute(
      db,
    );
    return rows;
  },

  snapshot: (db, read) => db.transaction().execute(read),

  alone: (db, work) => db.transaction().execute(work),

  // A statement that writes has the file alone, from its first look on.
  claim: (choice) => choice,

  // Rows that are only added are given up when their household has gone; so it steps aside.
  async giveUpRows(trx, householdId) {
    await sql`PRAGMA defer_foreign_keys = ON`.execute(trx);
    const aside = `${householdId}-aside`;
    await sql`UPDATE household SET id = ${aside} WHERE id = ${householdId}`.execute(trx);
    return aside;
  },

  async forgetHousehold(trx, householdId) {
    await sql`DELETE FROM household WHERE id = ${householdId}`.execute(trx);
  },

  // The rule is put back within the same transaction, or with it undone.
  async withoutSumming(trx, write) {
    const { rows } = await sql<{ name: string; sql: string }>`
      SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND name = 'jar_event_never_below_zero'`.execute(
      trx,
    );
    for (const { name } of rows) await sql`DROP TRIGGER ${sql.ref(name)}`.execute(trx);
    await write();
    for (const rule of rows) await sql.raw(rule.sql).execute(trx);
  },

  async secureDeletes(db) {
    await sql`PRAGMA secure_delete = ON`.execute(db);
  },

  // Its free pages and its log included.
  async leaveNoTrace(db) {
    await sql`VACUUM`.execute(db);
    await sql`PRAGMA wal_checkpoint(TRUNCATE)`.execute(db);
  },
};
