import { randomInt } from 'node:crypto';
import { setTimeout } from 'node:timers/promises';
import { sql } from 'kysely';
import { machineFault } from '../faults.ts';
import { roles } from './apart/roles.ts';
import type { Engine, SchemaColumn } from './engine.ts';
import { type ListedColumn, type Pointing, tablesInOrder } from './tables-in-order.ts';

/** So often somebody else may be in the way. */
const mostTries = 60;

/** A database behind a pool of connections. */
export const postgresEngine: Engine = {
  name: 'PostgreSQL',

  mark: (number) => `$${number}`,

  async columns(db, table) {
    const { rows } = await sql<SchemaColumn>`
      SELECT c.column_name AS name, coalesce(array_position(k.columns, c.column_name::text), 0) AS "key",
        c.column_default AS usual
      FROM information_schema.columns AS c
      LEFT JOIN (
        SELECT u.table_name, array_agg(u.column_name::text ORDER BY u.ordinal_position) AS columns
        FROM information_schema.table_constraints AS t
        JOIN information_schema.key_column_usage AS u USING (constraint_schema, constraint_name)
        WHERE t.constraint_type = 'PRIMARY KEY' AND t.table_schema = current_schema()
        GROUP BY u.table_name
      ) AS k ON k.table_name = c.table_name
      WHERE c.table_schema = current_schema() AND c.table_name = ${table}
      ORDER BY c.ordinal_position`.execute(db);
    return rows;
  },

  async tables(db) {
    const { rows: columns } = await sql<ListedColumn>`
      SELECT c.relname AS "table", a.attname AS name, coalesce(array_position(k.conkey, a.attnum), 0) AS "key"
      FROM pg_class AS c JOIN pg_attribute AS a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
      LEFT JOIN pg_constraint AS k ON k.conrelid = c.oid AND k.contype = 'p'
      WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition
        AND c.relname NOT LIKE 'kysely\\_%'
      ORDER BY c.relname, a.attnum`.execute(db);
    const { rows: pointing } = await sql<Pointing>`
      SELECT DISTINCT c.relname AS "table", there.relname AS "to" FROM pg_constraint AS k
      JOIN pg_class AS c ON c.oid = k.conrelid JOIN pg_class AS there ON there.oid = k.confrelid
      WHERE k.contype = 'f' AND c.relnamespace = current_schema()::regnamespace
        AND NOT c.relispartition AND NOT there.relispartition`.execute(db);
    return tablesInOrder(columns, pointing);
  },

  async lastNumbers(db) {
    const { rows: numbering } = await sql<{ table: string; sequence: string }>`
      SELECT c.relname AS "table", pg_get_serial_sequence(quote_ident(c.relname), a.attname) AS sequence
      FROM pg_class AS c JOIN pg_attribute AS a ON a.attrelid = c.oid AND a.attidentity <> ''
      WHERE c.relnamespace = current_schema()::regnamespace`.execute(db);
    const lasts = new Map<string, number>();
    for (const { table, sequence } of numbering) {
      const { rows } = await sql<{ last: number }>`
        SELECT CASE WHEN is_called THEN last_value ELSE last_value - 1 END AS last FROM ${sql.table(sequence)}`.execute(
        db,
      );
      lasts.set(table, rows[0]?.last ?? 0);
    }
    return lasts;
  },

  async numberAfter(trx, table, last) {
    await sql`SELECT setval(pg_get_serial_sequence(quote_ident(${table}), 'seq'), ${last + 1}, false)`.execute(
      trx,
    );
  },

  snapshot: (db, read) =>
    db.transaction().setIsolationLevel('repeatable read').setAccessMode('read only').execute(read),

  async alone(db, work) {
    for (let tries = 1; ; tries += 1)
      try {
        return await db.transaction().setIsolationLevel('serializable').execute(work);
      } catch (cause) {
        if (machineFault(cause) !== 'busy' || tries >= mostTries) throw cause;
        // Who was in the way goes first, each after another while.
        await setTimeout(randomInt(20 * Math.min(tries, 10)));
      }
  },

  claim: (choice) => choice.forUpdate().skipLocked(),

  // The rules of such tables look at this setting, which ends with the transaction.
  async giveUpRows(trx, householdId) {
    await sql`SELECT set_config('shelfward.gives_up', ${householdId}, true)`.execute(trx);
    // Who sees one household alone may take none of such rows away; that is for who sees them all, until the transaction ends.
    await sql`SELECT set_config('role', ${roles.everybody}, true) WHERE current_user = ${roles.household}`.execute(
      trx,
    );
    return householdId;
  },

  // What points at a row by a rule that takes nothing along goes before it: such a rule is looked at row by row.
  async forgetHousehold(trx, householdId, tables) {
    await postgresEngine.giveUpRows(trx, householdId);
    for (const table of [...tables].reverse())
      await sql`DELETE FROM ${sql.table(table)} WHERE household_id = ${householdId}`.execute(trx);
    await sql`DELETE FROM household WHERE id = ${householdId}`.execute(trx);
  },

  async withoutSumming(trx, write) {
    await sql`SELECT set_config('shelfward.summed', 'before', true)`.execute(trx);
    await write();
    await sql`SELECT set_config('shelfward.summed', '', true)`.execute(trx);
  },

  // What stands in old versions of rows goes with the next vacuum; the disk is the operator's.
  secureDeletes: async () => {},

  async leaveNoTrace(db) {
    await sql`VACUUM second_factor`.execute(db);
  },
};
