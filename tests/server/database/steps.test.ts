import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { invite } from '../../../server/access/invitations.ts';
import { personNamed } from '../../../server/access/people.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { makeDemoHousehold } from '../../../server/demo/make-demo.ts';
import { nextSeq } from '../../../server/records/next-seq.ts';
import { secretFor } from '../../../server/records/notices/mail-confirmation.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { undo } from '../../../server/records/shelf/undo.ts';
import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import { asDate } from '../../../shared/week.ts';
import { everyRow, type FileRow, fileOfBefore } from '../../builders/file-of-before.ts';
import { worked } from '../../builders/outcomes.ts';
import {
  medlarLane,
  noon,
  quinceYard,
  type TwoHouseholds,
  twoHouseholds,
} from '../../builders/two-households.ts';

// A step of the schema keeps every row: a file of before that holds the demo and two households with something of every kind,
// takes undone among them, is the same file afterwards.

const folder = mkdtempSync(join(tmpdir(), 'pantry-steps-'));
let both: TwoHouseholds;
beforeAll(async () => {
  both = await twoHouseholds();
  await makeDemoHousehold(both.db, asDate('2026-08-12'));
  let keys = 0;
  const writer = (householdId: HouseholdId) => {
    keys += 1;
    return { db: both.db, householdId, key: `a step ${keys}`, at: noon + keys, today: asDate('2026-08-17') };
  };
  for (const id of [quinceYard, medlarLane, quinceYard]) {
    const { item_id } = await both.db
      .selectFrom('lot')
      .select('item_id')
      .where('household_id', '=', id)
      .executeTakeFirstOrThrow();
    const taken = worked(await take(writer(id), oneOf(item_id as ItemId)));
    worked(await take(writer(id), oneOf(item_id as ItemId)));
    worked(await undo(writer(id), taken.entryId ?? ''));
    await writeTheRest(both.db, id);
  }
});

/** A row in each numbered table that a furnished household leaves empty. */
async function writeTheRest(db: Database, id: HouseholdId): Promise<void> {
  const own = { household_id: id };
  const lot = await db
    .selectFrom('lot')
    .select('id')
    .where('household_id', '=', id)
    .executeTakeFirstOrThrow();
  const recipe = await db
    .selectFrom('recipe')
    .select('id')
    .where('household_id', '=', id)
    .executeTakeFirstOrThrow();
  const day = await db
    .selectFrom('canning_session')
    .select('session_on')
    .where('household_id', '=', id)
    .executeTakeFirstOrThrow();
  await db
    .insertInto('store_event')
    .values({
      ...own,
      seq: nextSeq('store_event', id),
      entry_id: `fetched ${noon}`,
      store: 'crop',
      subject: 'plums',
      kind: 'bought',
      quantity: 7,
      occurred_on: '2026-08-16',
      recorded_at: noon,
    })
    .execute();
  await db
    .insertInto('load_clock_event')
    .values({
      ...own,
      seq: nextSeq('load_clock_event', id),
      session_on: day.session_on,
      load_key: 'plum-jam 1',
      kind: 'started',
      at: noon,
    })
    .execute();
  await db
    .insertInto('lot_standing_event')
    .values({ ...own, seq: nextSeq('lot_standing_event', id), lot_id: lot.id, kind: 'set-aside', at: noon })
    .execute();
  await db
    .insertInto('recipe_way')
    .values({ ...own, seq: nextSeq('recipe_way', id), recipe_id: recipe.id, way: 'peeled', chosen_at: noon })
    .execute();
}

afterAll(async () => {
  await both.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A file of before a step, brought up to date. */
async function broughtUp(step: string, rowsOf: (table: string) => readonly FileRow[]): Promise<Database> {
  const file = join(folder, `${step}.sqlite`);
  await fileOfBefore(step, rowsOf, file);
  return openDatabase(file);
}

describe('2027-01-21, numbers of a household', () => {
  const numbered = [
    'jar_event',
    'empty_jar_event',
    'material_event',
    'store_event',
    'load_clock_event',
    'lot_standing_event',
    'stage_event',
    'recipe_way',
  ];

  /** As the whole file used to number them: households in turn, and numbers that were left out. */
  function numberedByFile(rows: readonly FileRow[]): readonly FileRow[] {
    const order = rows.toSorted(
      (one, other) =>
        Number(one.seq) - Number(other.seq) ||
        (String(one.household_id) < String(other.household_id) ? -1 : 1),
    );
    const place = new Map(order.map((row, at) => [`${row.household_id} ${row.seq}`, 3 * at + 5]));
    const of = (row: FileRow, seq: unknown) =>
      seq === null ? null : place.get(`${row.household_id} ${seq}`);
    return order.map((row) => ({
      ...row,
      seq: of(row, row.seq),
      ...('reverses_seq' in row ? { reverses_seq: of(row, row.reverses_seq) } : {}),
    }));
  }

  it('keeps every row, its order and what takes it back', async () => {
    const now = await everyRow(both.db);
    const db = await broughtUp('2027-01-21', (table) =>
      numbered.includes(table) ? numberedByFile(now[table] ?? []) : (now[table] ?? []),
    );

    const after = await everyRow(db);

    expect(numbered.filter((table) => new Set(now[table]?.map((row) => row.household_id)).size < 2)).toEqual(
      [],
    );
    expect(now.jar_event?.filter((row) => row.reverses_seq !== null)).not.toEqual([]);
    expect(Object.keys(after)).toEqual(Object.keys(now));
    for (const table of Object.keys(now)) expect([table, after[table]]).toEqual([table, now[table]]);
    expect((await sql`PRAGMA foreign_key_check`.execute(db)).rows).toEqual([]);
    await db.destroy();
  });
});

describe('2027-01-22, accounts apart from households', () => {
  it('keeps every row, knows people by their names, and finds by every secret what it found', async () => {
    const { db } = both;
    const people = ['ZOË', 'zoë', 'Élodie'].map((name, at) => ({
      id: `person ${at}`,
      name,
      name_key: ['ZOË', 'zoë', 'élodie'][at] ?? '',
      passphrase_hash: 'none',
      created_at: at,
    }));
    await db.insertInto('person').values(people).execute();
    await db
      .insertInto('mail_confirmation')
      .values({
        household_id: quinceYard,
        id: 'asked',
        address: 'ida@example.org',
        token_hash: null,
        expires_at: null,
      })
      .execute();
    await secretFor(db, quinceYard, { id: 'asked', address: 'ida@example.org' }, noon);
    await invite(db, quinceYard, 'cook', noon);
    const now = await everyRow(db);

    const file = await broughtUp('2027-01-22', (table) => now[table] ?? []);

    const after = await everyRow(file);
    expect(new Set(now.household_token?.map(({ opens }) => opens))).toEqual(
      new Set(['calendar', 'interface', 'invitation', 'mail address']),
    );
    expect(Object.keys(after)).toEqual(Object.keys(now));
    for (const table of Object.keys(now)) expect([table, after[table]]).toEqual([table, now[table]]);
    expect((await sql`PRAGMA foreign_key_check`.execute(file)).rows).toEqual([]);
    for (const { id, name } of people) expect((await personNamed(file, name))?.id).toBe(id);
    expect((await personNamed(file, 'ÉLODIE'))?.id).toBe('person 2');
    await file.destroy();
  });
});

describe('the number of a row', () => {
  it('is the next one of its household, for each row of a statement', async () => {
    const db = await openDatabase(':memory:');
    for (const id of ['one', 'other'])
      await db.insertInto('household').values({ id, name: id, time_zone: 'UTC', created_at: 0 }).execute();
    const write = (id: string, howMany: number) =>
      db
        .insertInto('empty_jar_event')
        .values(
          Array.from({ length: howMany }, (_, before) => ({
            household_id: id,
            seq: nextSeq('empty_jar_event', id as HouseholdId, before),
            entry_id: `entry ${before}`,
            jar_kind: 'pint/regular',
            kind: 'bought' as const,
            jars: before,
            occurred_on: '2026-08-17',
            recorded_at: 0,
          })),
        )
        .execute();

    await write('one', 3);
    await write('other', 2);
    await write('one', 2);

    const rows = await db
      .selectFrom('empty_jar_event')
      .select(['household_id', 'seq', 'jars'])
      .orderBy('household_id')
      .orderBy('seq')
      .execute();
    expect(rows.map(({ household_id, seq, jars }) => `${household_id} ${seq} ${jars}`)).toEqual([
      'one 1 0',
      'one 2 1',
      'one 3 2',
      'one 4 0',
      'one 5 1',
      'other 1 0',
      'other 2 1',
    ]);
    await db.destroy();
  });
});
