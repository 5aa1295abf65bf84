import { afterEach, beforeEach, expect, test } from 'vitest';
import { type NightKind, openNightly } from '../../../server/jobs/nightly.ts';
import { jobsOf } from '../../../server/queries/jobs.ts';
import { type Cast, quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

const hour = 60 * 60_000;
const night = Date.UTC(2026, 7, 17, 8, 30); // 02:30 in Denver on August 17.

let cast: Cast;
let at: number;
let did: string[];
beforeEach(async () => {
  cast = await quinceYardHousehold();
  at = night + hour;
  did = [];
});
afterEach(() => cast.db.destroy());

const runner = (failing: () => boolean = () => false) => {
  const note = (kind: NightKind) => async (subject: string, forOn: string) => {
    if (kind === 'notices' && failing()) throw new Error('no picture today');
    did.push(`${kind} ${subject} ${forOn}`);
  };
  return openNightly({
    db: cast.db,
    now: () => at,
    work: { backup: note('backup'), notices: note('notices'), replan: note('replan') },
  });
};

test('each night’s work is done once, however often and by how many it is looked for', async () => {
  await Promise.all([runner().run(), runner().run()]);
  await runner().run();

  expect(did.sort()).toEqual([
    'backup file 2026-08-17',
    'notices quince-yard 2026-08-17',
    'replan quince-yard 2026-08-17',
  ]);
});

test('a machine that slept through five nights makes up the last one', async () => {
  await runner().run();
  did = [];
  at += 5 * 24 * hour;

  await runner().run();

  expect(did).toContain('notices quince-yard 2026-08-22');
  expect(did).toHaveLength(3);
});

test('what failed is tried again later, four times at most, and the history says so', async () => {
  const broken = runner(() => true);
  for (let look = 0; look < 10; look += 1) {
    await broken.run();
    at += 2 * hour;
  }

  const history = (await jobsOf(cast.db, quinceYard)).filter(({ kind }) => kind === 'notices');
  expect(history).toEqual([
    expect.objectContaining({
      attempts: 4,
      finishedAt: null,
      failure: 'It stopped because of a fault in the program.',
    }),
  ]);
  expect(did.filter((done) => done.startsWith('backup'))).toHaveLength(1);
});

test('work a runner died over is taken up when its lease has run out', async () => {
  await runner().run();
  await cast.db
    .updateTable('job')
    .set({ finished_at: null, leased_until: at + 10 * 60_000 })
    .where('kind', '=', 'replan')
    .execute();
  did = [];

  await runner().run();
  expect(did).toEqual([]);
  at += 11 * 60_000;
  await runner().run();

  expect(did).toEqual(['replan quince-yard 2026-08-17']);
});
