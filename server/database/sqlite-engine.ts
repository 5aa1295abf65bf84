import { sql } from 'kysely';
import type { Engine, SchemaColumn } from './engine.ts';
import { type ListedColumn, type Pointing, tablesInOrder } from './tables-in-order.ts';

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

  async tables(db) {
    const { rows: columns } = await sql<ListedColumn>`
      SELECT m.name AS "table", c.name, c.pk AS "key" FROM sqlite_master AS m JOIN pragma_table_info(m.name) AS c
      WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite_%' AND m.name NOT LIKE 'kysely_%' ORDER BY m.name, c.cid`.execute(
      db,
    );
    const { rows: pointing } = await sql<Pointing>`
      SELECT DISTINCT m.name AS "table", f."table" AS "to" FROM sqlite_master AS m
      JOIN pragma_foreign_key_list(m.name) AS f WHERE m.type = 'table'`.execute(db);
    return tablesInOrder(columns, pointing);
  },

  // A table has no last number before its first row.
  async lastNumbers(db) {
    const { rows } = await sql<{ name: string; last: number }>`
      SELECT m.name, coalesce(s.seq, 0) AS last FROM sqlite_master AS m LEFT JOIN sqlite_sequence AS s ON s.name = m.name
      WHERE m.type = 'table' AND m.sql LIKE '%AUTOINCREMENT%'`.execute(db);
    return new Map(rows.map(({ name, last }) => [name, last]));
  },

  async numberAfter(trx, table, last) {
    await sql`DELETE FROM sqlite_sequence WHERE name = ${table}`.execute(trx);
    await sql`INSERT INTO sqlite_sequence (name, seq) VALUES (${table}, ${last})`.execute(trx);
  },

  snapshot: (db, read) => db.transaction().setAccessMode('read only').execute(read),

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
