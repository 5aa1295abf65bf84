import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { backUpFile } from '../../server/database/backup.ts';
import { engineOf } from '../../server/database/engine-of.ts';
import { type MovedTable, move } from '../../server/database/move.ts';
import { lockForServing } from '../../server/database/serving-lock.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { householdText, restoreHousehold } from '../../server/files/household-file.ts';
import { newestPlan } from '../../server/queries/year/plans.ts';
import { nextSeq } from '../../server/records/next-seq.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import { memberPassphrase } from '../builders/furnished-household.ts';
import { refusalOf, worked } from '../builders/outcomes.ts';
import { keepPlanOf } from '../builders/planned-week.ts';
import { fillEveryTable } from '../builders/row-in-every-table.ts';
import { medlarLane, noon, quinceYard, twoHouseholds } from '../builders/two-households.ts';
import { typedCommand } from '../builders/typed-command.ts';
import { Visitor } from '../builders/visitor.ts';
import { programsOfPostgres } from './cluster.ts';
import { type Database, openDatabase, ownDatabase } from './database.ts';

// From a file into a database of the server, and back into a file: nothing is lost on the way, a move that breaks leaves nothing
// behind, and what numbers its own rows goes on.

const folder = mkdtempSync(join(tmpdir(), 'move-'));
const from = join(folder, 'from.sqlite');
const seeds = [11, 12];
const ends: (() => Promise<void>)[] = [];

const ownAddress = async (): Promise<string> => {
  const own = await ownDatabase();
  ends.push(own.drop);
  return own.address;
};

/** One without a table. */
async function emptyAddress(): Promise<string> {
  const address = await ownAddress();
  const client = new pg.Client({ connectionString: address });
  await client.connect();
  await client.query('DROP SCHEMA public CASCADE');
  await client.query('CREATE SCHEMA public');
  await client.end();
  return address;
}

async function on<T>(place: string, work: (db: Database) => Promise<T>): Promise<T> {
  const db = await openDatabase(place);
  try {
    return await work(db);
  } finally {
    await db.destroy();
  }
}

const textsOf = (place: string): Promise<Readonly<Record<string, string>>> =>
  on(place, async (db) => {
    const texts: Record<string, string> = {};
    for (const { id } of await db.selectFrom('household').select('id').orderBy('id').execute())
      texts[id] = await householdText(db, id as HouseholdId);
    return texts;
  });

const digests = (tables: readonly MovedTable[]) =>
  Object.fromEntries(tables.map(({ name, rows, digest }) => [name, `${rows} ${digest}`]));

const rowsIn = (place: string): Promise<number> =>
  on(place, async (db) => {
    let rows = 0;
    for (const { name } of await engineOf(db).tables(db)) {
      const counted = await sql<{ n: number }>`SELECT count(*) AS n FROM ${sql.table(name)}`.execute(db);
      rows += counted.rows[0]?.n ?? 0;
    }
    return rows;
  });

let demo: string;

/** Two furnished households with a row in every table, the demo household, and households with invented years of their own. */
beforeAll(async () => {
  const both = await twoHouseholds(1, from);
  const { db } = both;
  const person = 'medlar-owner';
  await fillEveryTable(db, medlarLane, 'medlar', { ids: both.medlar, person });
  await fillEveryTable(db, quinceYard, 'quince', { ids: both.quince, person: 'quince-owner' });
  // Medlar Lane is there, and its people come in with a passphrase alone.
  for (const table of ['household_deletion', 'factor_requirement'] as const)
    await db.deleteFrom(table).where('household_id', '=', medlarLane).execute();
  // A jar is taken and put back, so that one event points to another of its table.
  const own = {
    household_id: medlarLane,
    lot_id: both.medlar.lot ?? '',
    occurred_on: '2026-08-17',
    recorded_at: 1,
  };
  for (const event of [
    { entry_id: 'one', kind: 'taken' as const, units: -1 },
    { entry_id: 'back', kind: 'reversed' as const, units: 1 },
  ])
    await db
      .insertInto('jar_event')
      .values((row) => ({
        ...own,
        ...event,
        seq: nextSeq('jar_event', medlarLane),
        reverses_seq:
          event.kind === 'reversed'
            ? row
                .selectFrom('jar_event')
                .select((of) => of.fn.max('seq').as('seq'))
                .where('household_id', '=', medlarLane)
            : null,
      }))
      .execute();
  demo = await makeDemoHousehold(db, asDate('2026-08-12'));
  for (const seed of seeds) {
    const memory = await openDatabase(join(folder, `seed-${seed}.sqlite`));
    const saved = await householdText(
      memory,
      await makeDemoHousehold(memory, asDate('2026-08-12'), { seed }),
    );
    await memory.destroy();
    const householdId = `invented-${seed}` as HouseholdId;
    await db
      .insertInto('household')
      .values({
        id: householdId,
        name: `Invented ${seed}`,
        time_zone: 'America/New_York',
        region: 'PA',
        created_at: 0,
      })
      .execute();
    worked(
      await restoreHousehold(
        { db, householdId, key: `brought ${seed}`, at: noon, today: asDate('2026-08-12') },
        saved,
      ),
    );
  }
  await both.close();
});
afterAll(async () => {
  for (const end of ends) await end();
  rmSync(folder, { recursive: true, force: true });
});

describe('what a file holds', () => {
  let address: string;
  const back = join(folder, 'back.sqlite');
  let there: readonly MovedTable[];

  beforeAll(async () => {
    address = await ownAddress();
    there = worked(await move({ from, to: address }));
    worked(await move({ from: address, to: back }));
  });

  test('has a row in every table, so that none is forgotten', () => {
    expect(there.filter(({ rows }) => rows === 0).map(({ name }) => name)).toEqual([]);
    expect(there.length).toBeGreaterThan(80);
  });

  test('comes back to the letter, every household and every table', async () => {
    const before = await textsOf(from);

    expect(Object.keys(before)).toHaveLength(3 + seeds.length);
    expect(await textsOf(address)).toEqual(before);
    expect(await textsOf(back)).toEqual(before);
    // Into one without a table, too, which is given them first.
    const again = worked(await move({ from: back, to: await emptyAddress() }));
    expect(digests(again)).toEqual(digests(there));
  });

  test('goes on being used: people sign in, take a jar and plan, and what numbers itself goes on', async () => {
    for (const place of [address, back]) {
      const numbers = await on(place, (db) => engineOf(db).lastNumbers(db));
      expect([place, numbers.size, [...numbers.values()].every((last) => last > 0)]).toEqual([
        place,
        4,
        true,
      ]);
      await on(place, async (db) => {
        let ticks = 1_000_000;
        const app = await buildApp({
          db,
          reference: loadReferenceTables(),
          now: () => {
            ticks += 1;
            return noon + ticks;
          },
        });
        const visitor = new Visitor(app);
        const signedIn = await visitor.submitOn('/sign-in', {
          form: '/sign-in',
          fill: { name: 'medlar-cook', passphrase: memberPassphrase },
        });
        expect([signedIn.status, signedIn.location]).toEqual([303, '/']);
        const shelf = await visitor.open('/shelf');
        const form = /action="(\/shelf\/[^"/]+\/takes)"/.exec(shelf.body)?.[1] ?? '';
        expect((await visitor.submit(shelf, { form, fill: { outcome: 'took-one' } })).status).toBe(303);
        // A guess that fails is written down under a number of its own.
        const wrong = { form: '/sign-in', fill: { name: 'medlar-cook', passphrase: 'not this one' } };
        expect((await new Visitor(app).submitOn('/sign-in', wrong)).status).toBe(422);
        await db
          .insertInto('job')
          .values({ kind: 'replan', subject: 'after the move', for_on: '2026-08-17', due_at: noon })
          .execute();
        await keepPlanOf(db, medlarLane, { '2026-W35': [{ recipe: 'medlar-jam-batch', batches: 2 }] });
        expect((await newestPlan(db, medlarLane))?.plan.weeks[0]?.week).toBe('2026-W35');
        await app.close();
      });
      const after = await on(place, (db) => engineOf(db).lastNumbers(db));
      for (const table of ['job', 'sign_in_failure', 'security_event'])
        expect([table, (after.get(table) ?? 0) > (numbers.get(table) ?? 0)]).toEqual([table, true]);
    }
  });
});

describe('a move that cannot be done', () => {
  it('leaves nothing behind when it breaks half-way, on the server or in a file', async () => {
    const full = await ownAddress();
    worked(await move({ from, to: full }));
    const rows = await rowsIn(from);
    const empty = await ownAddress();
    for (const after of [1, 40, rows - 1]) {
      let arrived = 0;
      const breaking = (_: string, more: number): void => {
        arrived += more;
        if (arrived >= after) throw new Error('a break half-way');
      };
      await expect(move({ from, to: empty, arrived: breaking })).rejects.toThrow('half-way');
      expect([after, await rowsIn(empty)]).toEqual([after, 0]);

      arrived = 0;
      const file = join(folder, 'half.sqlite');
      await expect(move({ from: full, to: file, arrived: breaking })).rejects.toThrow('half-way');
      expect(readdirSync(folder).filter((name) => name.startsWith('half'))).toEqual([]);
    }
    // What was left is fit for the next.
    worked(await move({ from, to: empty }));
    expect(await textsOf(empty)).toEqual(await textsOf(from));
  });

  it('leaves nothing behind when the server ends the connection', async () => {
    const address = await ownAddress();
    const killer = await openDatabase(await ownAddress());
    const name = /\/(test_\w+)\?/.exec(address)?.[1];
    let ended: Promise<unknown> | null = null;

    const moving = move({
      from,
      to: address,
      arrived: () => {
        ended ??= sql`SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = ${name}`.execute(
          killer,
        );
      },
    });

    await expect(moving).rejects.toThrow();
    await ended;
    await killer.destroy();
    expect(await rowsIn(address)).toBe(0);
  });

  it('is noticed where one value of one row arrives otherwise', async () => {
    const address = await ownAddress();
    await on(address, async (db) => {
      await sql`CREATE FUNCTION meddle() RETURNS trigger LANGUAGE plpgsql AS ${sql.lit('BEGIN NEW.units := NEW.units + 1e-9; RETURN NEW; END')}`.execute(
        db,
      );
      await sql`CREATE TRIGGER meddling BEFORE INSERT ON jar_event FOR EACH ROW WHEN (NEW.kind = 'taken' AND NEW.seq = 40)
        EXECUTE FUNCTION meddle()`.execute(db);
    });

    await expect(move({ from, to: address })).rejects.toThrow(
      'jar_event arrived otherwise than it left. Nothing was moved.',
    );
    expect(await rowsIn(address)).toBe(0);
  });

  it('refuses a database that holds anything, and a file that is there', async () => {
    const address = await ownAddress();
    await on(address, (db) => db.insertInto('clock_reading').values({ id: 1, latest_at: 5 }).execute());
    const file = join(folder, 'there.sqlite');
    writeFileSync(file, 'somebody else’s');

    expect(refusalOf(await move({ from, to: address })).message).toMatch(
      /holds something already, under “clock_reading”\. A move begins in an empty database/,
    );
    expect(await rowsIn(address)).toBe(1);
    expect(refusalOf(await move({ from, to: file })).message).toMatch(
      /^There is a file at .*there\.sqlite already/,
    );
    expect(readFileSync(file, 'utf8')).toBe('somebody else’s');
  });

  it('lets one of two into the same database, and the other finds it taken', async () => {
    const address = await ownAddress();
    const outcomes = await Promise.all([
      move({ from, to: address }),
      move({ from: join(folder, 'seed-11.sqlite'), to: address }),
    ]);

    expect(outcomes.filter(({ ok }) => ok)).toHaveLength(1);
    expect([3 + seeds.length, 1].map(String)).toContain(
      String(
        await on(address, async (db) => (await db.selectFrom('household').select('id').execute()).length),
      ),
    );
  });

  it('refuses a source that is served, is not there, or is of an older version', async () => {
    const address = await ownAddress();
    const older = join(folder, 'older.sqlite');
    worked(await backUpFile(from, older));
    await on(older, async (db) => {
      await sql`DELETE FROM kysely_migration WHERE name = (SELECT max(name) FROM kysely_migration)`.execute(
        db,
      );
    });
    const bytes = readFileSync(older);
    await expect(move({ from: older, to: address })).rejects.toThrow(
      /older\.sqlite was written by an older version of the program\. Bring it up to date first: /,
    );
    expect(readFileSync(older).equals(bytes)).toBe(true);
    const lock = worked(lockForServing(from));
    expect(refusalOf(await move({ from, to: address })).message).toMatch(/^A server of this machine serves/);
    lock.release();
    await on(address, async () => {
      await expect(move({ from: address, to: join(folder, 'served.sqlite') })).rejects.toThrow(
        /A server of this program is connected to postgres:.*with --from/,
      );
    });
    await expect(move({ from: join(folder, 'none.sqlite'), to: address })).rejects.toThrow(
      /There is no file at .*--from/,
    );
    expect(existsSync(join(folder, 'served.sqlite'))).toBe(false);
    expect(await rowsIn(address)).toBe(0);
  });

  it('only reads its source', async () => {
    const bytes = readFileSync(from);
    worked(await move({ from, to: await ownAddress() }));

    expect(readFileSync(from).equals(bytes)).toBe(true);
  });
});

test('a long table is never in memory as a whole', async () => {
  const file = join(folder, 'letters.sqlite');
  const letters = 120;
  await on(file, async (db) => {
    const household_id = 'long-letters';
    await db
      .insertInto('household')
      .values({ id: household_id, name: 'Long Letters', time_zone: 'UTC', region: 'CO', created_at: 0 })
      .execute();
    for (let at = 0; at < letters; at += 1)
      await db
        .insertInto('letter')
        .values({
          household_id,
          id: `letter-${at}`,
          about: `week ${at}`,
          recipient: 'ida@example.org',
          subject: 'This week',
          plain: '',
          html: `${at} `.repeat(50_000),
          notices_json: '[]',
          written_at: at,
        })
        .execute();
  });
  const pages: number[] = [];

  worked(
    await move({
      from: file,
      to: await ownAddress(),
      arrived: (table, rows) => void (table === 'letter' && pages.push(rows)),
    }),
  );

  expect(pages.reduce((sum, rows) => sum + rows, 0)).toBe(letters);
  // The first page cannot know how long its rows are.
  expect(Math.max(...pages.slice(1))).toBeLessThanOrEqual(40);
});

describe('the command', () => {
  const shelfward = typedCommand(from);

  it('tells each table with its rows, where all is now, and that the source is as it was', async () => {
    const address = await ownAddress();
    const { exit, printed } = await shelfward('move', '--from', from, '--to', address);

    expect(exit).toBe(0);
    expect(printed).toMatch(/^household +5 {2}[0-9a-f]{16}$/m);
    expect(printed).toMatch(/^jar event +\d+ {2}[0-9a-f]{16}$/m);
    expect(printed).toMatch(
      /^Moved [\d,]+ rows of \d+ tables into postgres:\/\/shelfward@localhost\/test_\w+; /m,
    );
    expect(printed).not.toContain('host=');
  });

  it('backup and restore say what to do about a database instead', async () => {
    const address = await ownAddress();
    const said = async (...typed: readonly string[]) => (await shelfward(...typed)).complaint;

    for (const place of [
      ['backup', join(folder, 'copy.sqlite'), '--database', address],
      ['backup', address],
    ])
      expect(await said(...place)).toMatch(
        /^postgres:\S+ is a PostgreSQL database, .* pg_dump .* move --from/,
      );
    for (const place of [
      ['restore', from, '--database', address],
      ['restore', address],
    ])
      expect(await said(...place)).toMatch(
        /^postgres:\S+ is a PostgreSQL database, .* pg_restore .* move --from FILE/,
      );
    expect(existsSync('postgres:')).toBe(false);
  });
});

/** A denial of another food is asked for again wherever a household comes in. */
const withoutDenials = (saved: string): string => {
  const file = JSON.parse(saved) as { tables: Record<string, unknown> };
  return JSON.stringify({ ...file, tables: { ...file.tables, name_denial: [] } });
};

test('a dump that PostgreSQL’s own tools made comes back to the letter, and is served on', async () => {
  const [address, again] = [await ownAddress(), await emptyAddress()];
  worked(await move({ from, to: address }));
  const dump = join(folder, 'shelfward.dump');
  const programs = programsOfPostgres() ?? '';
  execFileSync(join(programs, 'pg_dump'), ['--format=custom', `--file=${dump}`, address]);
  execFileSync(join(programs, 'pg_restore'), ['--no-owner', `--dbname=${again}`, '--exit-on-error', dump]);

  expect(await textsOf(again)).toEqual(await textsOf(from));
  const file = join(folder, 'from-dump.sqlite');
  worked(await move({ from: again, to: file }));
  expect(await textsOf(file)).toEqual(await textsOf(from));
});

describe('one household as its own file', () => {
  it.each(['from a file into a database', 'from a database into a file'])(
    '%s it comes to the letter',
    async (way) => {
      const address = await ownAddress();
      worked(await move({ from, to: address }));
      const [source, target] =
        way === 'from a file into a database'
          ? [from, await ownAddress()]
          : [address, join(folder, 'drill.sqlite')];
      const saved = await textsOf(source);

      await on(target, async (db) => {
        for (const [id, text] of Object.entries(saved)) {
          await db
            .insertInto('household')
            .values({ id, name: 'Elsewhere', time_zone: 'UTC', region: 'CO', created_at: 0 })
            .execute();
          const writing = { db, householdId: id as HouseholdId, at: noon, today: asDate('2026-08-17') };
          worked(await restoreHousehold({ ...writing, key: `a drill of ${id}` }, text));
        }
      });

      const there = await textsOf(target);
      expect(Object.keys(there)).toEqual(Object.keys(saved));
      for (const [id, text] of Object.entries(saved))
        expect([id, withoutDenials(there[id] ?? '')]).toEqual([id, withoutDenials(text)]);
      expect(there[demo]).toBe(saved[demo]);
    },
  );
});
