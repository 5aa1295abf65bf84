import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { buildApp } from '../../../../server/app.ts';
import { backupFolder, backupName } from '../../../../server/database/backup.ts';
import { stampOf } from '../../../../server/database/rotation.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { type Cast, quinceYard, quinceYardHousehold } from '../../../builders/quince-yard.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

const noon = Date.UTC(2026, 7, 17, 18);
const day = 86_400_000;

let folder: string;
let file: string;
let cast: Cast;
let app: Awaited<ReturnType<typeof buildApp>>;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'pantry-'));
  file = join(folder, 'quince-yard.sqlite');
  cast = await quinceYardHousehold(file);
  app = await buildApp({ db: cast.db, reference: loadReferenceTables(), now: () => noon });
});
afterEach(async () => {
  await app.close();
  await cast.db.destroy();
  rmSync(folder, { recursive: true, force: true });
});

const backedUpAt = (at: number): void => {
  mkdirSync(backupFolder(file), { recursive: true });
  writeFileSync(join(backupFolder(file), backupName(file, stampOf(at))), 'a copy');
};
const wordsOn = async (address: string) => wordsOf((await new Visitor(app).open(address)).body);
const ready = () => app.inject('/ready');

test('a backup of the last two days is nothing to tell', async () => {
  backedUpAt(noon - 2 * day + 60_000);

  expect(await wordsOn('/')).not.toContain('newest backup');
  expect((await ready()).body).toBe('ready\n');
});

test('an older one is told on This week, on Nightly jobs and to whoever watches, who goes on sending people here', async () => {
  backedUpAt(noon - 3 * day);
  // A copy from a clock that was ahead hides nothing.
  backedUpAt(noon + 400 * day);

  for (const page of ['/', '/jobs'])
    expect(await wordsOn(page)).toContain('The newest backup is from Aug 14, older than two days.');
  expect(await ready()).toMatchObject({
    statusCode: 200,
    body: 'ready\ndegraded: the newest backup is from 2026-08-14T18:00:00.000Z\n',
  });
});

test('what failed at night is told to its owner, with why, until it has been done', async () => {
  backedUpAt(noon);
  const job = { kind: 'replan', subject: quinceYard, due_at: noon, leased_until: null } as const;
  await cast.db
    .insertInto('job')
    .values({ ...job, for_on: '2026-08-16', finished_at: null, failure: 'There was no room on the disk.' })
    .execute();

  expect(await wordsOn('/')).toContain(
    'The plan made in the night of Aug 16 could not be made: There was no room on the disk.',
  );
  expect((await ready()).body).toBe("ready\ndegraded: 1 of the night's jobs failed; see the log\n");
  await cast.db
    .insertInto('job')
    .values({ ...job, for_on: '2026-08-17', finished_at: noon, failure: null })
    .execute();

  expect(await wordsOn('/')).not.toContain('no room on the disk');
  expect((await ready()).body).toBe('ready\n');
});
