import { type Kysely, type KyselyPlugin, type MigrationProvider, RawNode, sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { engineOf } from '../../server/database/engine-of.ts';
import { stepsForPostgres } from '../../server/database/migrate.ts';
import { openPostgres } from '../../server/database/postgres.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { householdText, restoreHousehold } from '../../server/files/household-file.ts';
import { openNightly } from '../../server/jobs/nightly.ts';
import { newestPlan } from '../../server/queries/year/plans.ts';
import { forgetHousehold } from '../../server/records/household/household-deletion.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import { pagesOfDemo } from '../browser/pages-of-demo.ts';
import { worked } from '../builders/outcomes.ts';
import { keepPlanOf } from '../builders/planned-week.ts';
import { Visitor } from '../builders/visitor.ts';
import { type Database, openInMemory, ownDatabase } from './database.ts';
import { type Processes, processesOn, raced, races } from './races.ts';

// The same schema with every table of households in four parts by the household, as a database that is spread over machines
// has it: each key and each reference holds its household, so each part can stand by itself (server/database/SPREAD.md).

const parts = 4;
const reference = loadReferenceTables();
const at = Date.UTC(2026, 7, 12, 16);

/** Tables whose rows are found by a person or a secret, by time or in turn, stay whole. */
const staysWhole = new Set(['household_token', 'household_setup', 'job', 'security_event']);

/** What a table is parted by; null for one that stays whole. */
function partedBy(statement: string): { readonly table: string; readonly by: string } | null {
  const [, table = ''] = /^CREATE TABLE (\w+) \(/.exec(statement) ?? [];
  if (table === 'household') return { table, by: 'id' };
  return table !== '' && statement.includes('"household_id"') && !staysWhole.has(table)
    ? { table, by: 'household_id' }
    : null;
}

/** Writes each such table with its parts. */
const inParts: KyselyPlugin = {
  transformQuery: ({ node }) => {
    if (!RawNode.is(node)) return node;
    const [statement = ''] = node.sqlFragments;
    const parted = partedBy(statement);
    if (parted === null) return node;
    const each = Array.from(
      { length: parts },
      (_, at) =>
        `CREATE TABLE ${parted.table}_part_${at} PARTITION OF ${parted.table} FOR VALUES WITH (MODULUS ${parts}, REMAINDER ${at})`,
    );
    return RawNode.createWithSql([`${statement} PARTITION BY HASH ("${parted.by}")`, ...each].join(';\n'));
  },
  transformResult: async ({ result }) => result,
};

const stepsInParts: MigrationProvider = {
  getMigrations: async () =>
    Object.fromEntries(
      Object.entries(await stepsForPostgres.getMigrations()).map(([name, step]) => [
        name,
        { up: (db: Kysely<unknown>) => step.up(db.withPlugin(inParts)) },
      ]),
    ),
};

let address: string;
let drop: () => Promise<void>;
let db: Database;
beforeAll(async () => {
  const own = await ownDatabase();
  ({ address, drop } = own);
  const plain = await openPostgres(own.address);
  await sql`DROP SCHEMA public CASCADE`.execute(plain);
  await sql`CREATE SCHEMA public`.execute(plain);
  await plain.destroy();
  db = await openPostgres(own.address, stepsInParts);
});
afterAll(async () => {
  await db.destroy();
  await drop();
});

const partOf = async (household: string): Promise<number> => {
  const { rows } = await sql<{ part: string }>`
    SELECT tableoid::regclass::text AS part FROM household WHERE id = ${household}`.execute(db);
  return Number(rows[0]?.part.split('_').at(-1));
};

describe('the schema in parts', () => {
  it('has every table of households in them, but those that are found otherwise', async () => {
    const { rows } = await sql<{ name: string }>`
      SELECT relname AS name FROM pg_class WHERE relkind = 'p' AND relnamespace = current_schema()::regnamespace`.execute(
      db,
    );
    const tables = await engineOf(db).tables(db);
    const ofHouseholds = tables.filter(
      ({ name, columns }) => name === 'household' || columns.includes('household_id'),
    );

    expect(rows.length).toBeGreaterThan(60);
    expect(
      ofHouseholds.map(({ name }) => name).filter((name) => !rows.some((parted) => parted.name === name)),
    ).toEqual([...staysWhole].toSorted((one, other) => order(one) - order(other)));
    function order(name: string): number {
      return ofHouseholds.findIndex((table) => table.name === name);
    }
  });

  it('lives a household as a whole one does: its rows, its pages, a take and its undoing, a plan', async () => {
    const whole = await openInMemory();
    const household = await makeDemoHousehold(whole, asDate('2026-08-12'));
    await makeDemoHousehold(db, asDate('2026-08-12'));
    expect(await householdText(db, household)).toBe(await householdText(whole, household));
    await whole.destroy();

    let ticks = 0;
    const app = await buildApp({
      db,
      reference,
      now: () => {
        ticks += 1;
        return at + ticks;
      },
    });
    const visitor = new Visitor(app);
    for (const { path } of pagesOfDemo)
      expect([path, (await visitor.open(path)).status < 500]).toEqual([path, true]);
    const shelf = await visitor.open('/shelf');
    const form = /action="(\/shelf\/[^"/]+\/takes)"/.exec(shelf.body)?.[1] ?? '';
    expect((await visitor.submit(shelf, { form, fill: { outcome: 'took-one' } })).status).toBe(303);
    expect((await visitor.submitOn('/shelf', { form: '/shelf/reversals' })).status).toBe(303);
    await keepPlanOf(db, household, { '2026-W35': [] });
    expect((await newestPlan(db, household))?.plan.weeks[0]?.week).toBe('2026-W35');
    await app.close();
  });

  it('takes households in from their files, each into one part, and lets one go without the others', async () => {
    const [first] = await db.selectFrom('household').select('id').execute();
    const saved = await householdText(db, first?.id as HouseholdId);
    const others = Array.from({ length: 4 }, (_, at) => `spread-${at}` as HouseholdId);
    for (const householdId of others) {
      await db
        .insertInto('household')
        .values({ id: householdId, name: 'Spread', time_zone: 'UTC', region: 'PA', created_at: 0 })
        .execute();
      const writing = { db, householdId, key: `brought ${householdId}`, at, today: asDate('2026-08-12') };
      worked(await restoreHousehold(writing, saved, { reference }));
      expect(await householdText(db, householdId)).toBe(saved);
    }
    expect(new Set(await Promise.all(others.map(partOf))).size).toBeGreaterThan(1);
    for (const householdId of others) {
      const { rows } = await sql<{ part: string }>`
        SELECT DISTINCT tableoid::regclass::text AS part FROM jar_event WHERE household_id = ${householdId}`.execute(
        db,
      );
      expect(rows).toEqual([{ part: `jar_event_part_${await partOfRows(householdId)}` }]);
    }

    const [gone = first?.id as HouseholdId, kept = gone] = others;
    await db.transaction().execute((trx) => forgetHousehold(trx, gone));

    expect(await householdText(db, kept)).toBe(saved);
    const { rows: left } = await sql`SELECT 1 FROM jar_event WHERE household_id = ${gone}`.execute(db);
    expect(left).toEqual([]);
  });
});

describe('the queue in parts by its bucket, each key of which names it', () => {
  let processes: Processes;
  beforeAll(async () => {
    for (const statement of [
      'CREATE TABLE job_in_parts (LIKE job INCLUDING DEFAULTS INCLUDING IDENTITY INCLUDING CONSTRAINTS) PARTITION BY HASH (bucket)',
      ...Array.from(
        { length: parts },
        (_, part) =>
          `CREATE TABLE job_part_${part} PARTITION OF job_in_parts FOR VALUES WITH (MODULUS ${parts}, REMAINDER ${part})`,
      ),
      'DROP TABLE job',
      'ALTER TABLE job_in_parts RENAME TO job',
      'ALTER TABLE job ADD PRIMARY KEY (bucket, seq)',
      'CREATE UNIQUE INDEX job_noted_once ON job (bucket, kind, subject, for_on)',
      'CREATE UNIQUE INDEX job_one_solve ON job (bucket, solves_for) WHERE solves_for IS NOT NULL',
    ])
      await sql.raw(statement).execute(db);
    processes = await processesOn(address);
  });
  afterAll(() => processes.close());

  it('has each night noted once and done once, however many look', async () => {
    const households = Array.from({ length: 40 }, (_, one) => `sleeper-${one}`);
    for (const id of households)
      await db
        .insertInto('household')
        .values({ id, name: 'Sleeper', time_zone: 'UTC', region: 'PA', created_at: 0 })
        .execute();
    const done: string[] = [];
    const doing = (kind: string) => async (subject: string) => void done.push(`${kind} ${subject}`);
    const nights = processes.all.map((each) =>
      openNightly({
        db: each,
        now: () => at,
        work: { notices: doing('notices'), replan: doing('replan'), backup: doing('backup') },
      }),
    );
    for (let look = 0; look < 2; look += 1) await Promise.all(nights.map((night) => night.run()));
    await Promise.all(nights.map((night) => night.close()));

    const { rows: used } = await sql<{
      part: string;
    }>`SELECT DISTINCT tableoid::regclass::text AS part FROM job`.execute(db);
    expect(used).toHaveLength(parts);
    expect(done.filter((one) => one.includes('sleeper')).toSorted()).toEqual(
      ['notices', 'replan'].flatMap((kind) => households.map((id) => `${kind} ${id}`)).toSorted(),
    );
  });

  it('comes out as if one had waited, where several look for what is due', async () => {
    const race = races['plans of two households are due and four runners look'];
    expect(race && (await raced(race, processes, 12))).toEqual({});
  });
});

/** Every table is parted in the same way, so that what belongs together stands together. */
const partOfRows = async (household: string): Promise<number> => {
  const { rows } = await sql<{ part: string }>`
    SELECT DISTINCT tableoid::regclass::text AS part FROM lot WHERE household_id = ${household}`.execute(db);
  expect(rows).toHaveLength(1);
  expect(Number(rows[0]?.part.split('_').at(-1))).toBe(await partOf(household));
  return Number(rows[0]?.part.split('_').at(-1));
};
