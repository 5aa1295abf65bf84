import { afterAll, describe, expect, test } from 'vitest';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { asDate } from '../../shared/week.ts';

const opened: Database[] = [];
const demoOn = async (text: string) => {
  const db = await openDatabase(':memory:');
  opened.push(db);
  return { db, id: await makeDemoHousehold(db, asDate(text)) };
};
afterAll(async () => {
  await Promise.all(opened.map((db) => db.destroy()));
});

const everything = (db: Database) =>
  Promise.all([
    db.selectFrom('household').selectAll().execute(),
    db.selectFrom('item').selectAll().orderBy('id').execute(),
    db.selectFrom('recipe').selectAll().orderBy('id').execute(),
    db.selectFrom('harvest_window').selectAll().orderBy('source_id').orderBy('year').execute(),
    db.selectFrom('lot').selectAll().orderBy('id').execute(),
    db.selectFrom('processing_evidence').selectAll().orderBy('lot_id').execute(),
    db.selectFrom('jar_event').selectAll().orderBy('seq').execute(),
    db.selectFrom('empty_jar_event').selectAll().orderBy('seq').execute(),
    db.selectFrom('shelf_count').selectAll().orderBy('id').execute(),
  ]);

describe('making the demo household', () => {
  test('the schema takes every row, and the same date gives the same rows', async () => {
    const one = await demoOn('2026-11-25');
    const other = await demoOn('2026-11-25');

    expect(one.id).toBe('thistle-bank');
    expect(await everything(one.db)).toEqual(await everything(other.db));
  });

  test.each(['2026-01-01', '2027-06-20', '2028-02-29', '2028-12-31'])('works on %s', async (text) => {
    const { db } = await demoOn(text);

    const later = await db
      .selectFrom('jar_event')
      .select('seq')
      .where('occurred_on', '>=', asDate(text))
      .execute();

    expect(later).toEqual([]);
  });

  test('windows stand for every year that touches the year before and the year after', async () => {
    const { db } = await demoOn('2027-02-10');

    const years = await db
      .selectFrom('harvest_window')
      .select('year')
      .distinct()
      .where('source_id', '=', 'tomato-beds')
      .orderBy('year')
      .execute();

    expect(years.map((row) => row.year)).toEqual([2026, 2027, 2028]);
  });

  test('jars owned are the full ones and the empty ones, and empties never fall below zero', async () => {
    const { db } = await demoOn('2027-08-20');
    const holdings = await db.selectFrom('jar_holding').select(['jar_kind', 'owned']).execute();

    for (const { jar_kind, owned } of holdings) {
      const moves = await db
        .selectFrom('empty_jar_event')
        .select('jars')
        .where('jar_kind', '=', jar_kind)
        .orderBy('seq')
        .execute();
      const full = await db
        .selectFrom('jar_event as event')
        .innerJoin('lot', 'lot.id', 'event.lot_id')
        .where('lot.jar_kind', '=', jar_kind)
        .select((row) => row.fn.sum<number>('event.units').as('units'))
        .executeTakeFirstOrThrow();
      let empty = 0;
      for (const move of moves) {
        empty += move.jars;
        expect(empty).toBeGreaterThanOrEqual(0);
      }
      expect(owned).toBe(empty + full.units);
    }
  });

  test('a second demo in the same database is refused whole', async () => {
    const { db } = await demoOn('2026-11-25');
    const before = await everything(db);

    await expect(makeDemoHousehold(db, asDate('2026-11-25'))).rejects.toThrow();

    expect(await everything(db)).toEqual(before);
  });
});
