import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../server/database/database.ts';
import { openDatabase, openInMemory } from './database.ts';

// A file and a database of the server hold the same, table by table: columns in the same order with what they may hold, keys,
// what is unique, and what points where. What a rule checks is tried by the ledger's own tests on both.

interface Table {
  readonly columns: readonly string[];
  readonly key: string;
  readonly unique: readonly string[];
  readonly foreign: readonly string[];
}

const typeOf = (declared: string): string =>
  ({
    TEXT: 'text',
    text: 'text',
    INTEGER: 'whole',
    bigint: 'whole',
    REAL: 'number',
    'double precision': 'number',
  })[declared] ?? declared;
/** `0`, `'usual'`: PostgreSQL says the type of a text behind it. */
const usualOf = (words: string | null): string => (words ?? '').replace(/::\w+( precision)?/g, '');
const conditionOf = (words: string | undefined): string =>
  (words ?? '')
    .replaceAll(/::text\[?\]?|[()[\]"]|\bARRAY\b/g, '')
    .replaceAll(/= ANY/g, 'IN')
    .replaceAll(/\s+/g, ' ')
    .trim();

async function ofFile(db: Database): Promise<Readonly<Record<string, Table>>> {
  const { rows: tables } = await sql<{ name: string }>`SELECT name FROM sqlite_master
    WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'kysely_%' ORDER BY name`.execute(db);
  const all: Record<string, Table> = {};
  for (const { name } of tables) {
    const { rows: columns } = await sql<{
      name: string;
      type: string;
      notnull: number;
      dflt_value: string | null;
      pk: number;
    }>`
      SELECT * FROM pragma_table_info(${name}) ORDER BY cid`.execute(db);
    const { rows: indexes } = await sql<{ columns: string; text: string | null }>`
      SELECT (SELECT group_concat(name) FROM (SELECT name FROM pragma_index_info(i.name) ORDER BY seqno)) AS columns,
        (SELECT sql FROM sqlite_master WHERE name = i.name) AS text
      FROM pragma_index_list(${name}) AS i WHERE i."unique" AND i.origin <> 'pk'`.execute(db);
    const { rows: foreign } = await sql<{
      id: number;
      table: string;
      from: string;
      to: string;
      on_delete: string;
    }>`
      SELECT id, "table", "from", "to", on_delete FROM pragma_foreign_key_list(${name}) ORDER BY id, seq`.execute(
      db,
    );
    const byId = groups(foreign);
    all[name] = {
      columns: columns.map(
        (column) =>
          `${column.name} ${typeOf(column.type)}${column.notnull || column.pk ? '' : '?'} ${usualOf(column.dflt_value)}`,
      ),
      key: columns
        .filter(({ pk }) => pk > 0)
        .sort((one, other) => one.pk - other.pk)
        .map((column) => column.name)
        .join(),
      unique: indexes
        .map(({ columns: names, text }) => `${names} ${conditionOf(text?.split(/ WHERE /i)[1])}`.trim())
        .sort(),
      foreign: [...byId.values()]
        .map(
          (rows) =>
            `${rows.map(({ from }) => from)} -> ${rows[0]?.table} ${rows.map(({ to }) => to)} ${rows[0]?.on_delete}`,
        )
        .sort(),
    };
  }
  return all;
}

function groups<Row extends { readonly id: number }>(rows: readonly Row[]): Map<number, Row[]> {
  const byId = new Map<number, Row[]>();
  for (const row of rows) byId.set(row.id, [...(byId.get(row.id) ?? []), row]);
  return byId;
}

async function ofServer(db: Database): Promise<Readonly<Record<string, Table>>> {
  const { rows: columns } = await sql<{
    table: string;
    name: string;
    type: string;
    nullable: string;
    usual: string | null;
  }>`
    SELECT table_name AS "table", column_name AS name, data_type AS type, is_nullable AS nullable, column_default AS usual
    FROM information_schema.columns WHERE table_schema = current_schema() AND table_name NOT LIKE 'kysely_%'
    ORDER BY table_name, ordinal_position`.execute(db);
  const { rows: keys } = await sql<{
    table: string;
    kind: string;
    columns: string;
    to: string | null;
    there: string | null;
    on_delete: string;
  }>`
    SELECT c.conrelid::regclass::text AS "table", c.contype AS kind,
      (SELECT string_agg(a.attname, ',' ORDER BY k.at) FROM unnest(c.conkey) WITH ORDINALITY AS k (number, at)
        JOIN pg_attribute AS a ON a.attrelid = c.conrelid AND a.attnum = k.number) AS columns,
      CASE WHEN c.contype = 'f' THEN c.confrelid::regclass::text END AS "to",
      (SELECT string_agg(a.attname, ',' ORDER BY k.at) FROM unnest(c.confkey) WITH ORDINALITY AS k (number, at)
        JOIN pg_attribute AS a ON a.attrelid = c.confrelid AND a.attnum = k.number) AS there,
      CASE c.confdeltype WHEN 'c' THEN 'CASCADE' ELSE 'NO ACTION' END AS on_delete
    FROM pg_constraint AS c WHERE c.connamespace = current_schema()::regnamespace AND c.contype IN ('p', 'f')`.execute(
    db,
  );
  const { rows: indexes } = await sql<{ table: string; columns: string; condition: string | null }>`
    SELECT i.indrelid::regclass::text AS "table",
      (SELECT string_agg(a.attname, ',' ORDER BY k.at) FROM unnest(i.indkey::smallint[]) WITH ORDINALITY AS k (number, at)
        JOIN pg_attribute AS a ON a.attrelid = i.indrelid AND a.attnum = k.number) AS columns,
      pg_get_expr(i.indpred, i.indrelid) AS condition
    FROM pg_index AS i JOIN pg_class AS c ON c.oid = i.indexrelid
    WHERE i.indisunique AND NOT i.indisprimary AND c.relnamespace = current_schema()::regnamespace`.execute(
    db,
  );
  const all: Record<string, Table> = {};
  for (const table of new Set(columns.map((column) => column.table))) {
    const own = <Row extends { readonly table: string }>(rows: readonly Row[]) =>
      rows.filter((row) => row.table === table);
    all[table] = {
      columns: own(columns).map(
        ({ name, type, nullable, usual }) =>
          `${name} ${typeOf(type)}${nullable === 'NO' ? '' : '?'} ${usualOf(usual)}`,
      ),
      key: own(keys).find(({ kind }) => kind === 'p')?.columns ?? '',
      unique: own(indexes)
        .map((index) => `${index.columns} ${conditionOf(index.condition ?? undefined)}`.trim())
        .sort(),
      foreign: own(keys)
        .filter(({ kind }) => kind === 'f')
        .map((key) => `${key.columns} -> ${key.to} ${key.there} ${key.on_delete}`)
        .sort(),
    };
  }
  return all;
}

let file: Database;
let server: Database;
beforeAll(async () => {
  file = await openInMemory();
  server = await openDatabase(':memory:');
});
afterAll(async () => {
  await file.destroy();
  await server.destroy();
});

describe('the schema of a database', () => {
  it('is that of a file, column by column, key by key', async () => {
    const there = await ofServer(server);
    const here = await ofFile(file);

    expect(Object.keys(here).length).toBeGreaterThan(80);
    expect(Object.keys(there).toSorted()).toEqual(Object.keys(here).toSorted());
    for (const table of Object.keys(here)) expect([table, there[table]]).toEqual([table, here[table]]);
  });

  it('has every further index of a file', async () => {
    const { rows: here } = await sql<{ name: string }>`
      SELECT name FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL ORDER BY name`.execute(file);
    const { rows: there } = await sql<{ name: string }>`
      SELECT indexname AS name FROM pg_indexes WHERE schemaname = current_schema()`.execute(server);

    const names = new Set(there.map(({ name }) => name));
    expect(here.map(({ name }) => name).filter((name) => !names.has(name))).toEqual([]);
  });

  it('sorts text as a file does', async () => {
    const { rows } = await sql<{ said: string }>`
      SELECT said FROM (VALUES ('a'), ('B'), ('é'), ('_'), ('Z')) AS word (said) ORDER BY said COLLATE "C"`.execute(
      server,
    );
    const { rows: unsorted } = await sql<{ name: string }>`
      SELECT table_name || '.' || column_name AS name FROM information_schema.columns
      WHERE table_schema = current_schema() AND data_type = 'text' AND collation_name IS DISTINCT FROM 'C'`.execute(
      server,
    );

    expect(rows.map(({ said }) => said)).toEqual(['B', 'Z', '_', 'a', 'é']);
    expect(unsorted).toEqual([]);
  });
});

describe('a day', () => {
  it.each([
    ['2026-08-17', true],
    ['2024-02-29', true],
    ['2000-02-29', true],
    ['2026-12-31', true],
    ['2026-02-29', false],
    ['1900-02-29', false],
    ['2026-04-31', false],
    ['2026-13-01', false],
    ['2026-00-10', false],
    ['2026-1-1', false],
    ['tomorrow', false],
    ['2026-08-17 ', false],
    ['2026-08-00', false],
    ['', false],
  ])('%s: %s, for both', async (said, fits) => {
    const { rows: there } = await sql<{ fits: boolean }>`SELECT is_day(${said}) AS fits`.execute(server);
    const { rows: here } = await sql<{ fits: number }>`SELECT ${said} IS date(${said}) AS fits`.execute(file);

    expect([there[0]?.fits, here[0]?.fits === 1]).toEqual([fits, fits]);
  });
});
