import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CarriedTable } from '../../../server/columns/carried-table.ts';
import { carried, carriedTables, numbered } from '../../../server/columns/household-columns.ts';
import { householdRow } from '../../../server/columns/kitchen.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';

let db: Database;
beforeAll(async () => {
  db = await openDatabase(':memory:');
});
afterAll(() => db.destroy());

interface SchemaColumn {
  readonly name: string;
  readonly type: string;
  readonly notnull: number;
  readonly dflt_value: string | null;
  readonly pk: number;
}

const columnsOf = async (table: string): Promise<readonly SchemaColumn[]> =>
  (await sql<SchemaColumn>`SELECT * FROM pragma_table_info(${table})`.execute(db)).rows;

const tables: readonly (readonly [string, CarriedTable])[] = [
  ...carriedTables.map((name) => [name, carried[name]] as const),
  ['household', householdRow],
];
const ofTheFile = new Set(['household_id']);
const ofTheHousehold = new Set(['id', 'facts_version', 'is_demo', 'is_open', 'noted_night']);

describe('the declared columns of a household file', () => {
  it.each(tables)('are those of the schema: %s', async (name, table) => {
    const own = (await columnsOf(name)).filter(
      (column) => !(name === 'household' ? ofTheHousehold : ofTheFile).has(column.name),
    );

    expect(Object.keys(table.columns)).toEqual(expect.arrayContaining(own.map((column) => column.name)));
    expect(Object.keys(table.columns)).toHaveLength(own.length);
    for (const column of own) {
      const kind = table.columns[column.name];
      const mayBeNull = column.notnull === 0 && column.pk === 0;
      expect([column.name, kind?.mayBeEmpty]).toEqual([column.name, mayBeNull]);
      expect([column.name, kind?.mayBeMissing]).toEqual([
        column.name,
        mayBeNull || column.dflt_value !== null,
      ]);
      expect([column.name, kind?.schema.safeParse(null).success]).toEqual([column.name, mayBeNull]);
      // Nothing of another type than the column's fits: a STRICT table would refuse it.
      const other = column.type === 'TEXT' ? [7, 0.5] : ['7', 'text'];
      for (const value of [...other, true, [], {}, undefined])
        expect([column.name, kind?.schema.safeParse(value).success]).toEqual([column.name, false]);
      if (column.type !== 'TEXT')
        for (const value of [1e308, -1e308, Number.NaN, Number.POSITIVE_INFINITY])
          expect([column.name, kind?.schema.safeParse(value).success]).toEqual([column.name, false]);
      if (column.type === 'TEXT')
        for (const value of ['x'.repeat(300_000), 'a\nb', 'a\u0000b', 'a\u202eb', 'a\ud800b'])
          expect([column.name, kind?.schema.safeParse(value).success]).toEqual([column.name, false]);
      if (column.type === 'INTEGER')
        expect([column.name, kind?.schema.safeParse(1.5).success]).toEqual([column.name, false]);
    }
  });

  it.each(carriedTables)(
    'stand once by the key of the schema and point where it points: %s',
    async (name) => {
      const table: CarriedTable = carried[name];
      const keys = (await columnsOf(name))
        .filter(({ pk }) => pk > 0)
        .sort((one, other) => one.pk - other.pk)
        .map((column) => column.name)
        .filter((column) => column !== 'household_id');
      const { rows: foreign } = await sql<{ from: string; table: string }>`
      SELECT "from", "table" FROM pragma_foreign_key_list(${name})`.execute(db);
      const pointing = foreign.filter((one) => one.from !== 'household_id' && one.from !== 'reverses_seq');

      expect(table.key).toEqual(keys);
      expect(table.pointsTo).toEqual(Object.fromEntries(pointing.map((one) => [one.from, one.table])));
      expect(numbered.has(name)).toBe(keys[0] === 'seq');
      for (const parent of Object.values(table.pointsTo))
        expect(carriedTables.indexOf(parent as never)).toBeLessThan(carriedTables.indexOf(name));
    },
  );
});
