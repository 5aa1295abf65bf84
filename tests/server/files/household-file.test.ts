import { sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { carriedTables } from '../../../server/columns/household-columns.ts';
import { openDatabase } from '../../../server/database/database.ts';
import { engineOf } from '../../../server/database/engine-of.ts';
import { makeDemoHousehold } from '../../../server/demo/make-demo.ts';
import { householdText, leftTables, restoreHousehold } from '../../../server/files/household-file.ts';
import { nextSeq } from '../../../server/records/next-seq.ts';
import { finishJar } from '../../../server/records/shelf/finish-jar.ts';
import { moveLots } from '../../../server/records/shelf/move-lots.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { undo } from '../../../server/records/shelf/undo.ts';
import { finishedJarForm } from '../../../shared/schemas/shelf/finished-jar.ts';
import { moveForm } from '../../../shared/schemas/shelf/move.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import { asDate } from '../../../shared/week.ts';
import { longestLedger } from '../../bench/greatest-files.ts';
import type { Saved } from '../../bench/spoilt-files.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { plumJam, quinceYard, quinceYardHousehold, shelve } from '../../builders/quince-yard.ts';

/** Quince Yard with a jar taken, another taken back, a batch carried to the cellar and an open jar finished. */
async function livedIn() {
  const cast = await quinceYardHousehold();
  await shelve(cast.db, {
    id: 'jam',
    itemId: plumJam,
    units: 9,
    madeOn: '2026-08-01',
    bestQualityUntil: '2027-08-01',
  });
  worked(await take(cast.writer(), oneOf(plumJam)));
  const second = worked(await take(cast.writer(), oneOf(plumJam)));
  worked(await undo(cast.writer(), second.entryId ?? ''));
  worked(await moveLots(cast.writer(), moveForm.parse({ lotIds: 'jam', placeId: 'cellar' })));
  worked(await finishJar(cast.writer(), finishedJarForm.parse({ lotId: 'jam', openedOn: '2026-08-17' })));
  await cast.db
    .insertInto('kitchen_time')
    .values({ household_id: quinceYard, stove_burners: 5 })
    .onConflict((same) => same.column('household_id').doUpdateSet({ stove_burners: 5 }))
    .execute();
  return cast;
}

describe('a household in one file', () => {
  it('carries every table that is not left behind on purpose', async () => {
    const { db } = await quinceYardHousehold();
    const tables = await engineOf(db).tables(db);

    const known = [...carriedTables, ...leftTables];

    const own = tables.filter(({ columns }) => columns.includes('household_id'));
    expect(own.length).toBeGreaterThan(60);
    expect(own.map(({ name }) => name).filter((name) => !known.includes(name))).toEqual([]);
    await db.destroy();
  });

  it('comes back exactly, into another household whose numbers have gone on', async () => {
    const from = await livedIn();
    const to = await livedIn();
    for (const _ of [1, 2, 3]) worked(await take(to.writer(), oneOf(plumJam)));
    const saved = await householdText(from.db, quinceYard);

    await to.db.updateTable('kitchen_time').set({ stove_burners: 2 }).execute();

    worked(await restoreHousehold(to.writer(), saved));

    expect(await householdText(to.db, quinceYard)).toBe(saved);
    expect(saved).toContain('"stove_burners":5');
    expect(saved).toContain('"to_name":"Cellar"');
    // A server looks at each row as it is written.
    if (engineOf(to.db).name === 'SQLite')
      expect((await sql`PRAGMA foreign_key_check`.execute(to.db)).rows).toEqual([]);
    await from.db.destroy();
    await to.db.destroy();
  });

  it('comes back exactly with a whole year of an invented household', async () => {
    const from = await openDatabase(':memory:');
    const id = await makeDemoHousehold(from, asDate('2026-08-12'));
    const saved = await householdText(from, id);
    const to = await quinceYardHousehold();

    worked(await restoreHousehold(to.writer(), saved));

    expect(await householdText(to.db, quinceYard)).toBe(saved);
    await from.destroy();
    await to.db.destroy();
  });

  it('comes back with the longest ledger a file holds, all of one batch, and the schema goes on summing it', async () => {
    const { db, writer } = await livedIn();
    const long = longestLedger(JSON.parse(await householdText(db, quinceYard)) as Saved);

    // Summed before each of its entries, as it used to be, this took a minute of work.
    worked(await restoreHousehold(writer(), JSON.stringify(long)));
    const more = db
      .insertInto('jar_event')
      .values({
        household_id: quinceYard,
        seq: nextSeq('jar_event', quinceYard),
        entry_id: 'too-many',
        lot_id: 'jam',
        kind: 'taken',
        units: -10_000,
        occurred_on: '2026-08-17',
        recorded_at: 0,
      })
      .execute();

    await expect(more).rejects.toThrow('lot would fall below zero');
    const { count } = await db
      .selectFrom('jar_event')
      .select((row) => row.fn.countAll<number>().as('count'))
      .executeTakeFirstOrThrow();
    expect(count).toBeGreaterThan(30_000);
    await db.destroy();
  });

  it('gives the same text twice, and no secret in it', async () => {
    const { db } = await livedIn();
    await db
      .insertInto('calendar_feed')
      .values({ household_id: quinceYard, token: 'x'.repeat(43), created_at: 0 })
      .execute();

    const saved = await householdText(db, quinceYard);

    expect(await householdText(db, quinceYard)).toBe(saved);
    expect(saved).not.toContain('x'.repeat(43));
    await db.destroy();
  });

  it.each([
    ['no JSON', (_: string) => 'Dear aunt', /the text is not JSON/],
    ['another JSON', (_: string) => '{"jars": 3}', /This is no household saved by this program/],
    [
      'a family nobody knows',
      (text: string) => text.replace('"stone-fruit"', '"fruit-leather"'),
      /^Items, row \d+ \(.+\): “family” is one of “stone-fruit”, .+, not “fruit-leather”\.$/,
    ],
    [
      'a column nobody knows',
      (text: string) => text.replace('"best_quality_days"', '"worst_days"'),
      /^Items, row 1 \(.+\): “worst_days” is no column of this program\.$/,
    ],
    [
      'a batch of an item that is not there',
      (text: string) => text.replace(/"item_id":"plum-jam",("batch_code")/, '"item_id":"plum-jelly",$1'),
      /^Batches on the shelf, row 1 \(plum-jelly\): “item id” is “plum-jelly”, which is not among Items\.$/,
    ],
  ])('refuses %s and changes nothing', async (_, change, message) => {
    const { db, writer } = await livedIn();
    const before = await householdText(db, quinceYard);
    const changed = change(before);
    expect(changed).not.toBe(before);

    const outcome = await restoreHousehold(writer(), changed);

    expect(refusalOf(outcome).message).toMatch(message);
    expect(await householdText(db, quinceYard)).toBe(before);
    await db.destroy();
  });
});
