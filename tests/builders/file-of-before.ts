import { sql } from 'kysely';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { stepsInFolder } from '../../server/database/migrate.ts';

/** A row as a file holds it. */
export type FileRow = Readonly<Record<string, unknown>>;

const tablesOf = async (db: Database): Promise<readonly string[]> => {
  const { rows } = await sql<{ name: string }>`SELECT name FROM sqlite_master
    WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'kysely_%' ORDER BY name`.execute(db);
  return rows.map(({ name }) => name);
};

/** Every row of every table, in an order that depends on nothing but what the rows hold. */
export async function everyRow(db: Database): Promise<Readonly<Record<string, readonly FileRow[]>>> {
  const all: Record<string, readonly FileRow[]> = {};
  for (const table of await tablesOf(db)) {
    const { rows } = await sql<FileRow>`SELECT * FROM ${sql.table(table)}`.execute(db);
    all[table] = rows.toSorted((one, other) => (JSON.stringify(one) < JSON.stringify(other) ? -1 : 1));
  }
  return all;
}

/** A file as the steps before this one left it, with these rows as far as it had their tables and columns. */
export async function fileOfBefore(
  step: string,
  rowsOf: (table: string) => readonly FileRow[],
  file: string,
): Promise<void> {
  const db = await openDatabase(file, {
    getMigrations: async () =>
      Object.fromEntries(Object.entries(await stepsInFolder.getMigrations()).filter(([name]) => name < step)),
  });
  await sql`PRAGMA foreign_keys = OFF`.execute(db);
  for (const table of await tablesOf(db)) {
    const { rows: columns } = await sql<{
      name: string;
    }>`SELECT name FROM pragma_table_info(${table})`.execute(db);
    for (const row of rowsOf(table).toSorted((one, other) => Number(one.seq ?? 0) - Number(other.seq ?? 0))) {
      const known = columns.map(({ name }) => name).filter((name) => name in row);
      await sql`INSERT INTO ${sql.table(table)} (${sql.join(known.map((name) => sql.ref(name)))})
        VALUES (${sql.join(known.map((name) => sql.val(row[name])))})`.execute(db);
    }
  }
  await db.destroy();
}
