import { sql } from 'kysely';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { CarriedTable } from '../../../../server/columns/carried-table.ts';
import type { Cell } from '../../../../server/columns/column-kinds.ts';
import { carried, carriedTables } from '../../../../server/columns/household-columns.ts';
import { householdRow } from '../../../../server/columns/kitchen.ts';
import { onlyAddedTo } from '../../../../server/columns/mends.ts';
import { type FittedName, fits } from '../../../../server/queries/household/fitting.ts';
import { filled, medlarLane, type TwoHouseholds, twoHouseholds } from '../../../builders/two-households.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

// Every column a household takes along, with a value in the file that no form takes: no page breaks, Settings names it once and
// says where and how it is mended, and mending it makes it go. The columns are those of the declaration: a new one is walked too.

/** Notices are made anew from the rest at every look: nothing unfit stays there. */
const tables: readonly FittedName[] = ['household', ...carriedTables.filter((name) => name !== 'notice')];
const tableOf = (name: FittedName): CarriedTable => (name === 'household' ? householdRow : carried[name]);

/** Every page and file of the household, as the server lists them: a new one is walked by being served. */
let pages: readonly string[];

const unfitCandidates: readonly Cell[] = [
  'a\r\nb',
  -1e15,
  1e308,
  0.123456,
  '',
  '9999-12-31',
  'x'.repeat(300_000),
  'ZZZ',
];
const fitCandidates: readonly Cell[] = [
  1,
  0,
  2026,
  'a-word',
  'A word',
  '2026-08-10',
  '2026-W34',
  '2026-08-12T21:00',
  'half-pint/regular',
  'half-pint',
  'America/Chicago',
  'US',
  '[]',
  '{}',
  ...Object.values(carried as Readonly<Record<string, CarriedTable>>).flatMap(({ columns }) =>
    Object.values(columns).flatMap(({ expected }) =>
      [...expected.matchAll(/“([^”]+)”/g)].map(([, one]) => one ?? ''),
    ),
  ),
];

/** What the rules of a row ask for beyond its columns. */
const byHand: Partial<Record<FittedName, Readonly<Record<string, Cell>>>> = {
  seal_check: { failed: 0, choice: null },
  session_pause: { from_on: '2026-08-01', until_on: '2026-08-10' },
};

let both: TwoHouseholds;
let owner: Visitor;
let triggers: readonly { readonly name: string; readonly sql: string }[];
let snapshot: ReadonlyMap<string, readonly Readonly<Record<string, Cell>>[]>;
const own = (name: FittedName) => (name === 'household' ? 'id' : 'household_id');

/** Changed by hand, past the program and past the rules of the schema. */
async function inTheFile(work: () => Promise<unknown>): Promise<void> {
  await sql`PRAGMA foreign_keys = OFF`.execute(both.db);
  await sql`PRAGMA ignore_check_constraints = ON`.execute(both.db);
  for (const { name } of triggers) await sql`DROP TRIGGER ${sql.ref(name)}`.execute(both.db);
  await work();
  for (const trigger of triggers) await sql.raw(trigger.sql).execute(both.db);
  // What is changed by hand while the program does not run is seen at its next start.
  await sql`UPDATE household SET facts_version = facts_version + 1 WHERE id = ${medlarLane}`.execute(both.db);
  await sql`PRAGMA ignore_check_constraints = OFF`.execute(both.db);
  await sql`PRAGMA foreign_keys = ON`.execute(both.db);
}

const rowsOf = async (name: FittedName) =>
  (
    await sql<
      Record<string, Cell>
    >`SELECT rowid AS "#", * FROM ${sql.table(name)} WHERE ${sql.ref(own(name))} = ${medlarLane}`.execute(
      both.db,
    )
  ).rows;

async function put(name: FittedName, row: Readonly<Record<string, Cell>>): Promise<void> {
  const named = Object.entries(row).filter(([column]) => column !== '#');
  await sql`INSERT INTO ${sql.table(name)} (rowid, ${sql.join(named.map(([column]) => sql.ref(column)))})
    VALUES (${row['#'] ?? null}, ${sql.join(named.map(([, value]) => sql`${value}`))})`.execute(both.db);
}

/** A row of a table of which the household has none, as its columns take it. */
async function invented(name: FittedName): Promise<Record<string, Cell>> {
  const { columns, pointsTo, rules } = tableOf(name);
  const row: Record<string, Cell> = { household_id: medlarLane };
  for (const [column, kind] of Object.entries(columns)) {
    const points = pointsTo[column];
    const target = points === undefined ? undefined : (await rowsOf(points as FittedName))[0];
    const value =
      target?.id ??
      (kind.mayBeEmpty
        ? null
        : [...fitCandidates, kind.bound?.from ?? ''].find((one) => kind.schema.safeParse(one).success));
    if (value === undefined) throw new Error(`expected a value that fits ${name}.${column}; add one`);
    row[column] = value;
  }
  Object.assign(row, byHand[name]);
  expect(rules.flatMap((rule) => rule(row) ?? []).map((told) => `${name}: ${told}`)).toEqual([]);
  return row;
}

/** As it was before anything was unfit. */
async function asItWas(): Promise<void> {
  await inTheFile(async () => {
    for (const name of tables) {
      const kept = snapshot.get(name) ?? [];
      if (JSON.stringify(await rowsOf(name)) === JSON.stringify(kept)) continue;
      if (name === 'household') {
        const [row] = kept;
        const set = Object.entries(row ?? {}).filter(
          ([column]) => !['#', 'id', 'facts_version'].includes(column),
        );
        await sql`UPDATE household SET ${sql.join(set.map(([column, value]) => sql`${sql.ref(column)} = ${value}`))} WHERE id = ${medlarLane}`.execute(
          both.db,
        );
        continue;
      }
      await sql`DELETE FROM ${sql.table(name)} WHERE household_id = ${medlarLane}`.execute(both.db);
      for (const row of kept) await put(name, row);
    }
  });
}

beforeAll(async () => {
  both = await twoHouseholds();
  pages = both.app.servedRoutes.flatMap(({ method, url, needs }) =>
    method === 'GET' && needs === 'read' ? [filled(url, (kind) => both.medlar[kind] ?? '1')] : [],
  );
  owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
  triggers = (
    await sql<{ name: string; sql: string }>`
      SELECT name, sql FROM sqlite_master WHERE type = 'trigger'`.execute(both.db)
  ).rows;
  await inTheFile(async () => {
    for (const name of tables) if ((await rowsOf(name)).length === 0) await put(name, await invented(name));
  });
  const taken = new Map<string, Record<string, Cell>[]>();
  for (const name of tables) taken.set(name, await rowsOf(name));
  snapshot = taken;
});
beforeEach(asItWas);
afterAll(() => both.close());

const partOf = (html: string): string => /<section[^>]*id="unfit"[\s\S]*?<\/section>/.exec(html)?.[0] ?? '';

it('only what the schema lets nobody change is mended in the saved file alone', () => {
  const unchangeable = triggers.flatMap(({ name }) => /^(.*)_no_update$/.exec(name)?.[1] ?? []);

  expect([...onlyAddedTo].toSorted()).toEqual(
    unchangeable.filter((name) => Object.hasOwn(carried, name)).toSorted(),
  );
});

describe.each(tables.map((table) => ({ table })))('an unfit value stored under $table', ({ table }) => {
  it.each(Object.keys(tableOf(table).columns).map((column) => ({ column })))(
    'breaks no page, is named once and can be mended: $column',
    async ({ column }) => {
      const [row] = snapshot.get(table) ?? [];
      let stored = false;
      await inTheFile(async () => {
        for (const value of unfitCandidates) {
          if (stored || fits(table, column, value)) continue;
          stored =
            await sql`UPDATE ${sql.table(table)} SET ${sql.ref(column)} = ${value} WHERE rowid = ${row?.['#'] ?? 0}`
              .execute(both.db)
              .then(
                () => true,
                () => false,
              );
        }
      });
      expect(stored).toBe(true);

      const broken: string[] = [];
      for (const page of pages) {
        const { status } = await owner.open(page);
        if (status >= 500) broken.push(`${page} ${status}`);
      }
      const kitchen = await owner.open('/kitchen');
      const part = partOf(kitchen.body);
      expect(broken).toEqual([]);
      expect(kitchen.status).toBe(200);
      expect(part.match(/<li\b/g) ?? []).toHaveLength(1);
      expect(wordsOf(part)).toContain(`under “${column.replaceAll('_', ' ')}”`);
      expect(part).toMatch(/<a href="\/[^"]*"/);

      // Pressed where there is a button; else the page says that the saved file is the way.
      if (part.includes('action="/kitchen/unfit-values"')) {
        const sent = await owner.submit(kitchen, { form: '/kitchen/unfit-values' });
        expect([sent.status, wordsOf(partOf(sent.body))]).toEqual([303, '']);
        expect(partOf((await owner.open('/kitchen')).body)).toBe('');
      } else expect(part).toContain('href="/files"');
    },
  );
});
