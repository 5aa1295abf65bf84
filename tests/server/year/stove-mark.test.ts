import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Database } from '../../../server/database/database.ts';
import { stoveMark } from '../../../server/year/stove-facts.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

// What is ticked and timed on a canning day steps no version of the facts: its mark tells one state of the stove from another, so
// that no page shows the days of batches as they were before.

let db: Database;
beforeEach(async () => {
  ({ db } = await quinceYardHousehold());
  await db
    .insertInto('canning_session')
    .values({
      household_id: quinceYard,
      session_on: '2026-08-22',
      setting_json: '{}',
      work_json: '[]',
      opened_at: 0,
    })
    .execute();
});
afterEach(() => db.destroy());

const tick = (step: string, at: number, load = 'plum-jam/1') =>
  db
    .insertInto('session_tick')
    .values({ household_id: quinceYard, session_on: '2026-08-22', load_key: load, step, ticked_at: at })
    .execute();
const untick = (step: string) =>
  db.deleteFrom('session_tick').where('household_id', '=', quinceYard).where('step', '=', step).execute();
const marksAfter = async (...changes: readonly (() => Promise<unknown>)[]): Promise<readonly string[]> => {
  const marks = [await stoveMark(db, quinceYard)];
  for (const change of changes) {
    await change();
    marks.push(await stoveMark(db, quinceYard));
  }
  return marks;
};

test('what was ticked, ticked again in another’s place, or taken back is another mark each time', async () => {
  const marks = await marksAfter(
    () => tick('fill', 1000),
    () => tick('load', 2000),
    async () => {
      await untick('load');
      await tick('load', 3000, 'plum-jam/2');
    },
    () => untick('load'),
    () => db.updateTable('canning_session').set({ work_json: '[1]' }).execute(),
  );

  expect(new Set(marks.slice(0, 4)).size).toBe(4);
  expect(marks[4]).toBe(marks[1]);
  expect(marks[5]).not.toBe(marks[4]);
});

test('nothing done is the same mark', async () => {
  const [before, after] = await marksAfter(async () => {});

  expect(after).toBe(before);
});
