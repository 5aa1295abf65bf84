import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { nightWork } from '../../../server/jobs/night-work.ts';
import { type NightKind, openNightly } from '../../../server/jobs/nightly.ts';
import { jobsOf } from '../../../server/queries/notices/jobs.ts';
import { failedWork, troublesOf } from '../../../server/queries/notices/troubles.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
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
    .set({ finished_at: null, leased_until: at + 20_000, leased_by: 'who went away', turn_at: at + 20_000 })
    .where('kind', '=', 'replan')
    .execute();
  did = [];

  await runner().run();
  expect(did).toEqual([]);
  at += 21_000;
  await runner().run();

  expect(did).toEqual(['replan quince-yard 2026-08-17']);
});

describe('one household’s fault', () => {
  const secondHousehold = () =>
    cast.db
      .insertInto('household')
      .columns([
        'id',
        'name',
        'people',
        'time_zone',
        'locale',
        'units',
        'week_starts_on',
        'created_at',
        'is_demo',
      ])
      .expression((from) =>
        from
          .selectFrom('household')
          .select((row) => [
            row.val('medlar-lane').as('id'),
            row.val('Medlar Lane').as('name'),
            'people',
            row.val('Mars/Olympus').as('time_zone'),
            'locale',
            'units',
            'week_starts_on',
            'created_at',
            'is_demo',
          ])
          .where('id', '=', quinceYard),
      )
      .execute();

  test('a time zone that is none stops neither the backup nor the night of the others, and is told to its owner', async () => {
    await secondHousehold();
    const reference = loadReferenceTables();
    const told: unknown[] = [];
    const planned: string[] = [];
    const maker = {
      make: async (id: HouseholdId) => {
        planned.push(id);
        return null;
      },
    };
    const work = nightWork({ db: cast.db, file: ':memory:', reference, now: () => at, maker });
    let backups = 0;

    await openNightly({
      db: cast.db,
      now: () => at,
      work: {
        ...work,
        backup: async () => {
          backups += 1;
        },
      },
      onError: (cause) => told.push(cause),
    }).run();

    expect(backups).toBe(1);
    expect(planned).toEqual([quinceYard]);
    expect(await troublesOf(cast.db, quinceYard, at)).toEqual([]);
    const own = await troublesOf(cast.db, 'medlar-lane' as HouseholdId, at);
    expect(own.map((trouble) => trouble.kind === 'work failed' && trouble.work).sort()).toEqual([
      'notices',
      'replan',
    ]);
    expect(own[0]).toMatchObject({ words: expect.stringContaining('“Mars/Olympus” is no time zone') });
    expect(told.map(String)).toEqual(
      expect.arrayContaining([expect.stringMatching(/notices of medlar-lane\) failed/)]),
    );
    expect(await failedWork(cast.db)).toBe(2);
  });

  test('a plan that never ends keeps no backup of later nights from being made', async () => {
    let backups = 0;
    let letGo = () => {};
    const isLetGo = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    let planBegins = () => {};
    const aPlanBegan = new Promise<void>((resolve) => {
      planBegins = resolve;
    });
    const nightly = openNightly({
      db: cast.db,
      now: () => at,
      work: {
        backup: async () => {
          backups += 1;
        },
        notices: async () => {},
        replan: () => {
          planBegins();
          return isLetGo;
        },
      },
    });
    const held = nightly.run();
    await aPlanBegan;
    expect(backups).toBe(1);
    at += 24 * hour;

    nightly.start(1);
    while (backups < 2) await new Promise((wake) => setTimeout(wake, 5));

    letGo();
    await held;
    await nightly.close();
  });

  test('a lease written by a clock that was ahead holds nobody up', async () => {
    await runner().run();
    await cast.db
      .updateTable('job')
      .set({ finished_at: null, leased_until: at + 2 * 365 * 24 * hour, turn_at: at })
      .execute();
    did = [];

    await runner().run();

    expect(did).toHaveLength(3);
  });
});

test('a plan that failed at night is on record, with its words, and is not tried again when that is no use', async () => {
  const maker = { make: async () => ({ words: 'No plan keeps all limits.', mayPass: false }) };
  const reference = loadReferenceTables();
  const work = nightWork({ db: cast.db, file: ':memory:', reference, now: () => at, maker });
  const nightly = openNightly({ db: cast.db, now: () => at, work: { ...work, backup: async () => {} } });

  await nightly.run();
  at += 3 * hour;
  await nightly.run();

  const [replan] = (await jobsOf(cast.db, quinceYard)).filter(({ kind }) => kind === 'replan');
  expect(replan).toMatchObject({ attempts: 1, failure: 'No plan keeps all limits.' });
});
