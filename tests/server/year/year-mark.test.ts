import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Database } from '../../../server/database/database.ts';
import { yearMark } from '../../../server/year/year-mark.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

// What is ticked and timed on a canning day, what is told of and what upkeep was done step no version of the facts: the mark of a year
// tells one state of them from another, so that no page shows the year as it was before.

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
  const marks = [await yearMark(db, quinceYard)];
  for (const change of changes) {
    await change();
    marks.push(await yearMark(db, quinceYard));
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

test('a fact, a plan, a setting of notices, a task of upkeep changed or done, and a jump of the clock are other marks', async () => {
  const marks = await marksAfter(
    () => db.updateTable('household').set({ facts_version: 900 }).where('id', '=', quinceYard).execute(),
    () =>
      db.insertInto('notice_lead').values({ household_id: quinceYard, kind: 'best-by', days: 20 }).execute(),
    () => db.updateTable('notice_lead').set({ days: null }).where('household_id', '=', quinceYard).execute(),
    () =>
      db
        .insertInto('upkeep_task')
        .values({
          household_id: quinceYard,
          id: 'descale',
          name: 'Descale the kettle',
          device: 'kettle',
          canner_id: null,
          every_months: 3,
          retired_on: null,
        })
        .execute(),
    () =>
      db.updateTable('upkeep_task').set({ every_months: 4 }).where('household_id', '=', quinceYard).execute(),
    () =>
      db
        .insertInto('upkeep_event')
        .values({
          household_id: quinceYard,
          id: 'descaled',
          kind: 'own',
          task_id: 'descale',
          canner_id: null,
          done_on: '2026-08-20',
          note: null,
          gauge_off_at_5_psi: null,
          gauge_off_at_10_psi: null,
          gauge_off_at_15_psi: null,
          recorded_at: 5,
          recorded_by: null,
          undone_at: null,
        })
        .execute(),
    () =>
      db.updateTable('upkeep_event').set({ undone_at: 6 }).where('household_id', '=', quinceYard).execute(),
    () => db.insertInto('clock_jump').values({ noticed_at: 7, ahead_until: 9 }).execute(),
  );

  // An act that was undone leaves what was there before it.
  expect(marks[7]).toBe(marks[5]);
  expect(new Set(marks).size).toBe(marks.length - 1);
});
