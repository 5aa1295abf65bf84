import { afterAll, expect, test } from 'vitest';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { yearPicture } from '../../server/year/year-picture.ts';
import { asDate } from '../../shared/week.ts';

// The demo household on the twelfth of every month, before anything is planned.

const reference = loadReferenceTables();
const opened: Database[] = [];
afterAll(async () => {
  await Promise.all(opened.map((db) => db.destroy()));
});

const months = Array.from({ length: 12 }, (_, at) => `2026-${String(at + 1).padStart(2, '0')}-12`);

test.each(months)('on %s there are about ten notices, and of one food one of a kind', async (on) => {
  const db = await openDatabase(':memory:');
  opened.push(db);
  const id = await makeDemoHousehold(db, asDate(on));
  const { notices, loaded } = await yearPicture(db, id, asDate(on), reference);

  expect(notices.length).toBeLessThanOrEqual(11);
  for (const { name } of loaded.facts.items)
    for (const kind of ['best by near', 'runs out'])
      expect(
        notices.filter(
          (one) => one.kind === kind && new RegExp(`\\b${name}\\b(?! jam| butter)`).test(one.reason),
        ).length,
        `${name}: ${kind}`,
      ).toBeLessThanOrEqual(1);
  const soon = notices.filter(({ kind }) => kind === 'best by near').map(({ reason }) => reason);
  for (const { reason } of notices.filter(
    (one) => one.kind === 'runs out' && /more slowly/.test(one.reason),
  )) {
    const food = loaded.facts.items.find(({ name }) => reason.startsWith(name))?.name ?? '';
    expect(soon.filter((words) => food !== '' && words.includes(` of ${food}`))).toEqual([]);
  }
});
