import { mkdirSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { faultLine } from '../../../server/commands/fault-line.ts';
import * as restoreCommand from '../../../server/commands/restore.ts';
import { backUpFile } from '../../../server/database/backup.ts';
import { restore } from '../../../server/database/restore.ts';
import { SQLite } from '../../../server/database/sqlite.ts';
import { ShelfwardError } from '../../../shared/problems.ts';
import { worked } from '../../builders/outcomes.ts';
import { quinceYardHousehold } from '../../builders/quince-yard.ts';
import { typedCommand } from '../../builders/typed-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const file = join(folder, 'quince-yard.sqlite');
beforeAll(async () => {
  const { db } = await quinceYardHousehold(file);
  await db.destroy();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const shelfward = typedCommand(file);

const oneLine = /^[^\n]+\n$/;

describe('whatever goes wrong with a command is one plain line and its exit code', () => {
  const cases: readonly (readonly [exit: number, words: RegExp, args: readonly string[]])[] = [
    [2, /Pick a day of the years/, ['plan', '--as-of', '9999-12-31']],
    [2, /Pick a day of the years/, ['plan', '--as-of', '0001-01-01']],
    [2, /Pick a day of the years/, ['notices', '--as-of', '1969-12-31']],
    [2, /Pick a day of the years/, ['glut', 'plums', '40', 'lb', '--as-of', '9999-12-31']],
    [2, /Pick a day of the years/, ['take', 'plum jam', '--on', '0001-01-01']],
    [1, /could not be made/, ['shelf', '--database', '/proc/shelfward/pantry.sqlite']],
    [1, /could not be made/, ['serve', '--port', '0', '--database', '/proc/shelfward/pantry.sqlite']],
    [1, /could not be made/, ['backup', '/proc/shelfward/copy.sqlite']],
    [1, /is a folder/, ['shelf', '--database', tmpdir()]],
    [1, /There is no backup at/, ['restore', join(folder, 'none.sqlite')]],
  ];
  test.each(cases)('%i %s: %j', async (exit, words, args) => {
    const ran = await shelfward(...args);

    expect(ran.complaint).toMatch(words);
    expect(ran.complaint).toMatch(oneLine);
    expect(ran.complaint).not.toMatch(/^ {4}at |Error:/m);
    expect(ran.exit).toBe(exit);
  });

  test('serve refuses a file that was emptied, with the command that brings it back, and makes no demo of it', async () => {
    const lost = join(folder, 'lost', 'pantry.sqlite');
    mkdirSync(join(folder, 'lost', 'backups'), { recursive: true });
    const backup = join(folder, 'lost', 'backups', 'pantry-2026-08-16T083000Z.sqlite');
    worked(await backUpFile(file, backup));
    writeFileSync(lost, '');

    const ran = await shelfward('serve', '--port', '0', '--demo-if-empty', '--database', lost);

    expect(ran.exit).toBe(1);
    expect(ran.complaint).toContain(`restore ${backup} --database ${lost}`);
    expect(ran.complaint).toMatch(oneLine);
    expect(readFileSync(lost)).toHaveLength(0);
  });

  test.each([
    ['a value that does not fit', z.object({ day: z.string() }).safeParse({}).error, /Use --help/],
    ['a full disk', Object.assign(new Error('write'), { code: 'ENOSPC' }), /no room on the disk/],
    ['a full disk, as SQLite says it', new SQLite.SqliteError('full', 'SQLITE_FULL'), /no room on the disk/],
    ['a folder nobody may write in', Object.assign(new Error('open'), { code: 'EACCES' }), /does not allow/],
    ['a read-only disk', Object.assign(new Error('open'), { code: 'EROFS' }), /cannot be written/],
    [
      'a file that is not there',
      Object.assign(new Error('open'), { code: 'ENOENT' }),
      /should be there is not/,
    ],
    [
      'our own words',
      new ShelfwardError('x', 'Expected plums; found none.'),
      /^Expected plums; found none\.$/,
    ],
    [
      'a job that failed, with why it did',
      new ShelfwardError('job-failed', 'job 3 (replan of plum-lane) failed', {
        cause: Object.assign(new Error('write'), { code: 'ENOSPC' }),
      }),
      /^job 3 \(replan of plum-lane\) failed: .*no room on the disk/,
    ],
    ['a bug', new TypeError('x is not a function\n    at y'), /a fault in the program: x is not a function/],
    ['something thrown that is no error', 'plums', /plums/],
  ])('%s', (_, cause, words) => {
    expect(faultLine(cause)).toMatch(words);
    expect(faultLine(cause)).not.toContain('\n');
  });
});

test('two restores within a second both keep what stood there', async () => {
  const home = mkdtempSync(join(tmpdir(), 'pantry-'));
  const own = join(home, 'pantry.sqlite');
  const backup = join(home, 'copy.sqlite');
  worked(await backUpFile(file, backup));
  worked(await backUpFile(file, own));
  const wish = { backup, file: own, withoutChecksum: false, stamp: '2026-11-25T023000Z' };

  const kept = [worked(await restore(wish)).keptAs, worked(await restore(wish)).keptAs];

  expect(new Set(kept).size).toBe(2);
  truncateSync(backup, 100);
  expect(await restoreCommand.run([backup, '--database', own])).toBe(1);
  rmSync(home, { recursive: true, force: true });
});
