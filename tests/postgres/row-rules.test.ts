import { Readable } from 'node:stream';
import { setTimeout } from 'node:timers/promises';
import { sql } from 'kysely';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { holdsApart } from '../../server/database/apart/adapters.ts';
import { roles } from '../../server/database/apart/roles.ts';
import { makeRowRules } from '../../server/database/apart/row-rules.ts';
import { ofAccounts, ofHousehold, ofNobody, seeing } from '../../server/database/apart/whose-rows.ts';
import type { SchemaTable } from '../../server/database/engine.ts';
import { engineOf } from '../../server/database/engine-of.ts';
import { householdText, restoreHousehold } from '../../server/files/household-file.ts';
import { forgetHousehold } from '../../server/records/household/household-deletion.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { asDate } from '../../shared/week.ts';
import { pagesOfDemo } from '../browser/pages-of-demo.ts';
import { worked } from '../builders/outcomes.ts';
import { fillEveryTable } from '../builders/row-in-every-table.ts';
import {
  medlarLane,
  noon,
  quinceYard,
  type TwoHouseholds,
  twoHouseholds,
} from '../builders/two-households.ts';
import { typedCommand } from '../builders/typed-command.ts';
import { formOf } from '../builders/visitor.ts';
import { type Database, openDatabase, ownDatabase } from './database.ts';

// The server itself holds two households apart that both have a row in every table: a statement that forgets its `where` reads and
// writes rows of its own household alone, and without one none.

let own: Awaited<ReturnType<typeof ownDatabase>>;
let both: TwoHouseholds;
let owner: Database;
let db: Database;
let tables: readonly SchemaTable[];

const others = { [medlarLane]: quinceYard, [quinceYard]: medlarLane } as const;
const households = [medlarLane, quinceYard] as const;
const keyOf = ({ name }: SchemaTable): string => (name === 'household' ? 'id' : 'household_id');

beforeAll(async () => {
  own = await ownDatabase();
  both = await twoHouseholds(1, own.address);
  owner = both.db;
  await fillEveryTable(owner, medlarLane, 'medlar', { ids: both.medlar, person: 'medlar-owner' });
  await fillEveryTable(owner, quinceYard, 'quince', { ids: both.quince, person: 'quince-owner' });
  db = await openDatabase(own.apart);
  tables = (await engineOf(owner).tables(owner)).filter(
    (table) => table.name === 'household' || table.columns.includes('household_id'),
  );
});
afterAll(async () => {
  await db.destroy();
  await both.close();
  await own.drop();
});

/** Does it, and takes it back. */
async function tried<T>(household: string, work: (trx: Database) => Promise<T>): Promise<T> {
  let answer: T | undefined;
  await ofHousehold(db, household, () =>
    db.transaction().execute(async (trx) => {
      answer = await work(trx);
      throw new Error('taken back');
    }),
  ).catch((cause: Error) => {
    if (cause.message !== 'taken back') throw cause;
  });
  return answer as T;
}

const rowsOf = async (asking: Database, table: SchemaTable): Promise<readonly string[]> =>
  (
    await sql<{
      household: string;
    }>`SELECT ${sql.ref(keyOf(table))} AS household FROM ${sql.table(table.name)}`.execute(asking)
  ).rows.map(({ household }) => household);

describe('a statement without its where', () => {
  it('is asked of every table of households, each with rows of both', async () => {
    expect(holdsApart(db)).toBe(true);
    expect(holdsApart(owner)).toBe(false);
    expect(tables.length).toBeGreaterThan(60);
    for (const table of tables)
      expect([table.name, new Set(await rowsOf(owner, table))]).toEqual([
        table.name,
        expect.toSatisfy((seen: Set<string>) => households.every((household) => seen.has(household))),
      ]);
  });

  it.each(households)('reads only rows of %s', async (household) => {
    for (const table of tables) {
      const seen = await ofHousehold(db, household, () => rowsOf(db, table));
      expect([table.name, [...new Set(seen)]]).toEqual([table.name, [household]]);
    }
  });

  it('reads nothing where no household is said, and nothing at all where nobody says whose rows', async () => {
    for (const table of tables) {
      expect([table.name, await ofHousehold(db, '', () => rowsOf(db, table))]).toEqual([table.name, []]);
      await expect(seeing({ whose: 'nobody' }, () => rowsOf(db, table))).rejects.toThrow('nobody said so');
    }
    const client = new pg.Client({ connectionString: own.apart });
    await client.connect();
    for (const { name } of tables)
      await expect(client.query(`SELECT * FROM "${name}"`)).rejects.toThrow(
        `permission denied for table ${name}`,
      );
    await client.query(`SET ROLE ${roles.household}`);
    for (const { name } of tables)
      expect([name, (await client.query(`SELECT * FROM "${name}"`)).rows]).toEqual([name, []]);
    await client.end();
  });

  it('changes and deletes no row of another, or is refused', async () => {
    for (const table of tables)
      for (const statement of [
        sql`DELETE FROM ${sql.table(table.name)}`,
        sql`UPDATE ${sql.table(table.name)} SET ${sql.ref(keyOf(table))} = ${sql.ref(keyOf(table))}`,
      ]) {
        const before = await rowsOf(owner, table);
        const changed = await tried(medlarLane, async (trx) =>
          Number((await statement.execute(trx)).numAffectedRows),
        ).catch((cause: Error) => cause.message);
        const ownRows = before.filter((household) => household === medlarLane).length;
        expect([table.name, changed]).toEqual([
          table.name,
          typeof changed === 'number'
            ? ownRows
            : expect.stringMatching(/permission denied|append-only|a plan is a snapshot|foreign key/),
        ]);
        expect(await rowsOf(owner, table)).toEqual(before);
      }
  });

  it('writes no row for another', async () => {
    for (const table of tables) {
      // What else the schema would say of such a row is not asked here.
      await sql`ALTER TABLE ${sql.table(table.name)} DISABLE TRIGGER USER`.execute(owner);
      const { rows } = await sql<Record<string, unknown>>`
        SELECT * FROM ${sql.table(table.name)} WHERE ${sql.ref(keyOf(table))} = ${quinceYard} LIMIT 1`.execute(
        owner,
      );
      const [row = {}] = rows;
      const columns = sql.join(Object.keys(row).map((name) => sql.ref(name)));
      const values = sql.join(Object.values(row));
      const written = tried(medlarLane, (trx) =>
        sql`INSERT INTO ${sql.table(table.name)} (${columns}) VALUES (${values})`.execute(trx),
      );
      await expect(written, table.name).rejects.toThrow('violates row-level security policy');
      await expect(
        tried(medlarLane, (trx) =>
          sql`UPDATE ${sql.table(table.name)} SET ${sql.ref(keyOf(table))} = ${quinceYard}`.execute(trx),
        ),
        table.name,
      ).rejects.toThrow(/violates row-level security policy|permission denied/);
      await sql`ALTER TABLE ${sql.table(table.name)} ENABLE TRIGGER USER`.execute(owner);
    }
  });
});

test('a connection of the pool carries nothing over: a thousand turns of two households, of accounts and of nobody', async () => {
  let foreign = 0;
  const one = (at: number) => {
    const household = households[at % 2] ?? medlarLane;
    return ofHousehold(db, household, async () => {
      const { rows } = await sql<{ id: string }>`SELECT id FROM household`.execute(db);
      if (rows.length !== 1 || rows[0]?.id !== household) foreign += 1;
      await db.transaction().execute(async (trx) => {
        const { rows: lots } = await sql<{ household_id: string }>`SELECT household_id FROM lot`.execute(trx);
        if (lots.length === 0 || lots.some((lot) => lot.household_id === others[household])) foreign += 1;
      });
      // What fails half-way leaves nothing either.
      if (at % 10 === 0) await expect(sql`SELECT 1 / 0`.execute(db)).rejects.toThrow('division by zero');
    });
  };
  for (let at = 0; at < 1000; at += 20) {
    await Promise.all(Array.from({ length: 20 }, (_, next) => one(at + next)));
    await expect(ofAccounts(db, () => sql`SELECT * FROM lot`.execute(db))).rejects.toThrow(
      'permission denied',
    );
    expect((await ofHousehold(db, '', () => sql`SELECT * FROM lot`.execute(db))).rows).toEqual([]);
  }

  expect(foreign).toBe(0);
});

async function* halvesOf(text: string): AsyncGenerator<Uint8Array> {
  const bytes = Buffer.from(text);
  yield bytes.subarray(0, bytes.length / 2);
  await setTimeout(50);
  yield bytes.subarray(bytes.length / 2);
}

const inHalves = (text: string): ReadableStream =>
  Readable.toWeb(Readable.from(halvesOf(text))) as ReadableStream;

describe('a server whose database holds households apart', () => {
  const cookieOf = (who: string) => ({ cookie: `sign-in=${both.tokenOf.get(who)}` });
  let app: Awaited<ReturnType<typeof buildApp>>;
  let at: string;
  beforeAll(async () => {
    // Both are there, and their people come in with a passphrase alone.
    for (const table of ['household_deletion', 'factor_requirement'] as const)
      await owner.deleteFrom(table).execute();
    let ticks = 10_000_000;
    app = await buildApp({
      db,
      reference: loadReferenceTables(),
      now: () => {
        ticks += 1;
        return noon + ticks;
      },
      requestsPerMinute: 100_000,
    });
    at = await ofNobody(db, () => app.listen({ host: '127.0.0.1', port: 0 }));
  });
  afterAll(() => app.close());

  it('answers every page of both, each with its own', async () => {
    const prefixes = { 'medlar-owner': ['medlar', 'quince'], 'quince-owner': ['quince', 'medlar'] } as const;
    const texts: Record<string, string> = {};
    for (const [who, [ownPrefix, other]] of Object.entries(prefixes)) {
      for (const { path } of pagesOfDemo) {
        if (/[?:]|demo|peach/.test(path)) continue;
        const answer = await fetch(`${at}${path}`, { headers: cookieOf(who) });
        const body = await answer.text();
        expect([who, path, answer.status]).toEqual([who, path, expect.toSatisfy((status) => status < 500)]);
        expect([who, path, new RegExp(`${other}-|${other} home`).test(body)]).toEqual([who, path, false]);
        texts[who] = (texts[who] ?? '') + body;
      }
      expect(texts[who]).toContain(`${ownPrefix} home`);
    }
  });

  it('goes on seeing them when a body has been read: a take, and a list sent as a file', async () => {
    const headers = cookieOf('quince-owner');
    const pageOf = async (path: string) => (await fetch(`${at}${path}`, { headers })).text();
    const shelf = await pageOf('/shelf');
    const action = /action="(\/shelf\/[^"/]+\/takes)"/.exec(shelf)?.[1] ?? '';
    const csrfCookie = (await fetch(`${at}/shelf`, { headers })).headers
      .getSetCookie()
      .map((one) => one.split(';')[0]);
    const cookies = { cookie: [headers.cookie, ...csrfCookie].join('; ') };
    const fresh = async (path: string, form: string) =>
      formOf(await (await fetch(`${at}${path}`, { headers: cookies })).text(), form).values;

    // In two halves, as over a slow line: the second comes when the request has long been begun.
    const fields = new URLSearchParams({
      ...(await fresh('/shelf', action)),
      outcome: 'took-one',
    } as Record<string, string>).toString();
    const taken = await fetch(`${at}${action}`, {
      method: 'POST',
      redirect: 'manual',
      headers: { ...cookies, origin: at, 'content-type': 'application/x-www-form-urlencoded' },
      body: inHalves(fields),
      duplex: 'half',
    } as RequestInit);
    expect([action, taken.status]).toEqual([action, 303]);

    const list = new FormData();
    for (const [name, value] of Object.entries(await fresh('/files', '/files/lists')))
      list.set(name, String(value));
    list.set('kind', 'stock');
    list.set('file', new Blob(['item,units\nalder plum jam,3\n'], { type: 'text/csv' }), 'stock.csv');
    const sent = await fetch(`${at}/files/lists`, {
      method: 'POST',
      redirect: 'manual',
      headers: { ...cookies, origin: at },
      body: list,
    });
    expect(sent.status).toBe(303);
    const draft = await fetch(new URL(sent.headers.get('location') ?? '', at), { headers: cookies });
    expect(draft.status).toBe(200);
  });
});

describe('what is only ever added', () => {
  it('is neither changed nor deleted, though the rules of the schema that say so are taken away', async () => {
    const standing = [
      'jar_event',
      'empty_jar_event',
      'material_event',
      'store_event',
      'load_clock_event',
      'lot_standing_event',
      'stage_event',
    ];
    for (const name of standing) {
      await sql`ALTER TABLE ${sql.table(name)} DISABLE TRIGGER USER`.execute(owner);
      for (const statement of [
        sql`DELETE FROM ${sql.table(name)}`,
        sql`UPDATE ${sql.table(name)} SET seq = seq + 1`,
      ])
        await expect(
          tried(medlarLane, (trx) => statement.execute(trx)),
          name,
        ).rejects.toThrow(`permission denied for table ${name}`);
      await sql`ALTER TABLE ${sql.table(name)} ENABLE TRIGGER USER`.execute(owner);
    }
  });

  it('goes with its household, and comes back with what takes its place', async () => {
    const saved = await ofHousehold(db, medlarLane, () => householdText(db, medlarLane));
    const writing = { db, householdId: medlarLane, at: noon + 5_000_000, today: asDate('2026-08-17') };
    await ofHousehold(db, medlarLane, async () =>
      worked(
        await restoreHousehold({ ...writing, key: 'in its place again' }, saved, {
          reference: loadReferenceTables(),
        }),
      ),
    );
    expect(await rowsOf(owner, tables.find(({ name }) => name === 'jar_event') as SchemaTable)).toContain(
      medlarLane,
    );

    const quince = await householdText(owner, quinceYard);
    await db.transaction().execute(async (trx) => {
      await sql`DELETE FROM job WHERE household_id = ${medlarLane}`.execute(trx);
      await forgetHousehold(trx, medlarLane);
    });

    for (const table of tables)
      expect([table.name, (await rowsOf(owner, table)).includes(medlarLane)]).toEqual([table.name, false]);
    expect(await householdText(owner, quinceYard)).toBe(quince);
  });
});

test('a table that is added later is held apart as soon as the rules are made again', async () => {
  await sql`CREATE TABLE later (household_id text NOT NULL REFERENCES household (id), id text NOT NULL, PRIMARY KEY (household_id, id))`.execute(
    owner,
  );
  await sql`INSERT INTO later VALUES (${quinceYard}, 'one')`.execute(owner);
  await expect(ofHousehold(db, quinceYard, () => sql`SELECT * FROM later`.execute(db))).rejects.toThrow(
    'permission denied',
  );

  await makeRowRules(owner);

  expect((await ofHousehold(db, quinceYard, () => sql`SELECT * FROM later`.execute(db))).rows).toHaveLength(
    1,
  );
  expect((await ofHousehold(db, medlarLane, () => sql`SELECT * FROM later`.execute(db))).rows).toEqual([]);
});

describe('the command that makes them', () => {
  const shelfward = typedCommand(':memory:');
  const as = (login: string, database: string): string =>
    own.address.replace('//shelfward@', `//${login}@`).replace(/\/test_\w+\?/, `/${database}?`);

  it('is run by an owner who is no superuser, for a user who may do nothing else', async () => {
    const server = await openDatabase(own.address);
    for (const statement of [
      'CREATE ROLE keeper LOGIN CREATEROLE',
      'CREATE ROLE kept_web LOGIN',
      `GRANT ${Object.values(roles).join(', ')}, kept_web TO keeper WITH ADMIN OPTION`,
      'CREATE DATABASE kept OWNER keeper',
    ])
      await sql.raw(statement).execute(server);
    await server.destroy();
    const place = as('keeper', 'kept');

    const done = await shelfward('row-rules', 'kept_web', '--database', place);

    expect([done.exit, done.complaint]).toEqual([0, '']);
    expect(done.printed).toMatch(/^The server holds households apart by itself in \d\d tables of postgres:/);
    const web = await openDatabase(as('kept_web', 'kept'));
    expect(holdsApart(web)).toBe(true);
    expect((await ofHousehold(web, medlarLane, () => sql`SELECT * FROM item`.execute(web))).rows).toEqual([]);
    await expect(sql`CREATE TABLE of_mine (id text)`.execute(web)).rejects.toThrow('permission denied');
    await web.destroy();
    for (const [login, said] of [
      ['nobody_known', 'The server knows nobody called “nobody_known”'],
      ['keeper', '“keeper” owns the tables'],
      ['shelfward', '“shelfward” owns the tables or is a superuser'],
    ] as const) {
      const refused = await shelfward('row-rules', login, '--database', place);
      expect([login, refused.exit, refused.complaint]).toEqual([login, 1, expect.stringContaining(said)]);
    }
    expect((await shelfward('row-rules', 'kept_web', '--database', 'a-file.sqlite')).complaint).toContain(
      'is a file, and rules about rows are for a PostgreSQL database',
    );
  });
});
