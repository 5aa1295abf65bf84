import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ofHousehold } from '../../server/database/apart/whose-rows.ts';
import { machineFault } from '../../server/faults.ts';
import { findHousehold } from '../../server/queries/household/household.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { bareHouseholds } from '../bench/web-work-protocol.ts';
import { type Database, openDatabase, ownDatabase } from './database.ts';

// What is asked again and again is kept by each connection under a name; whatever becomes of that name, who asks is answered the
// same.

let own: Awaited<ReturnType<typeof ownDatabase>>;
let owner: Database;
let household: HouseholdId;
beforeAll(async () => {
  own = await ownDatabase();
  owner = await openDatabase(own.address);
  household = (await bareHouseholds(owner, 'kept', 1))[0] as HouseholdId;
});
afterAll(async () => {
  await owner.destroy();
  await own.drop();
});

/** So often that it is kept. */
const often = 30;
const asked = async (db: Database) => (await findHousehold(db, household))?.name;
const askedOften = async (db: Database): Promise<void> => {
  for (let time = 0; time < often; time += 1) await asked(db);
};
/** How many statements the connection keeps that asks for it. */
async function kept(db: Database): Promise<number> {
  const { rows } = await sql<{ n: number }>`
    SELECT count(*) AS n FROM pg_prepared_statements WHERE statement LIKE '%from "household"%'`.execute(db);
  return rows[0]?.n ?? 0;
}
const opened = async (address: string, work: (db: Database) => Promise<void>): Promise<void> => {
  const db = await openDatabase(address);
  try {
    await work(db);
  } finally {
    await db.destroy();
  }
};

describe('a statement', () => {
  test('asked once is kept by nobody, and asked again and again by its connection', () =>
    opened(own.address, async (db) => {
      await asked(db);
      expect(await kept(db)).toBe(0);
      await askedOften(db);
      expect(await kept(db)).toBe(1);
      expect(await asked(db)).toBe(`Household ${household}`);
    }));

  test('that is another each time is kept by nobody, however many there are', () =>
    opened(own.address, async (db) => {
      for (let time = 1; time <= 200; time += 1)
        await db
          .selectFrom('household')
          .select('id')
          .where(
            'id',
            'in',
            Array.from({ length: time }, () => 'nobody'),
          )
          .execute();
      expect(await kept(db)).toBe(0);
    }));

  test('whose rows look otherwise since the schema changed is answered all the same', () =>
    opened(own.address, async (db) => {
      await askedOften(db);
      await sql`ALTER TABLE household ADD COLUMN later_one text`.execute(owner);
      expect(await asked(db)).toBe(`Household ${household}`);
      await askedOften(db);
      await sql`ALTER TABLE household DROP COLUMN later_one`.execute(owner);

      // Within a transaction it is told as what may be done again, and then goes well.
      const within = () => db.transaction().execute((trx) => asked(trx));
      const fault = await within().catch(machineFault);
      expect(fault).toBe('busy');
      expect(await within()).toBe(`Household ${household}`);
    }));

  test('that something between has forgotten, or has lent to others, is asked without a name from then on', () =>
    opened(own.address, async (db) => {
      await askedOften(db);
      expect(await kept(db)).toBe(1);
      await sql.raw('DEALLOCATE ALL').execute(db);
      expect(await asked(db)).toBe(`Household ${household}`);
      await askedOften(db);
      expect(await kept(db)).toBe(0);
    }));

  test('kept by a connection shows each household its own rows, where the server holds them apart', () =>
    opened(own.apart, async (db) => {
      const names = async (whose: string): Promise<readonly (string | undefined)[]> => {
        const said: (string | undefined)[] = [];
        for (let time = 0; time < often; time += 1)
          said.push(await ofHousehold(db, whose as HouseholdId, () => asked(db)));
        return [...new Set(said)];
      };
      expect(await names(household)).toEqual([`Household ${household}`]);
      expect(await names('of-somebody-else')).toEqual([undefined]);
      expect(await names(household)).toEqual([`Household ${household}`]);
      expect(await ofHousehold(db, household, () => kept(db))).toBe(1);
    }));
});
