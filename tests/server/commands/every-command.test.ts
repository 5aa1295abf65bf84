import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commands } from '../../../server/commands/command-line.ts';
import { backUpFile } from '../../../server/database/backup.ts';
import { worked } from '../../builders/outcomes.ts';
import { quinceYardHousehold } from '../../builders/quince-yard.ts';
import { typedCommand } from '../../builders/typed-command.ts';

// Every command of the program's own list with what goes wrong with commands: one plain line on the error stream, the right exit
// code, never a trace, and nothing of the household changed. A command added to the list fails here until it says how it is typed.

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const file = join(folder, 'quince-yard.sqlite');
const copy = join(folder, 'copy.sqlite');

/** What each command is typed with when it is typed rightly, without `--database`. */
const rightly: Readonly<Record<string, readonly string[]>> = {
  serve: ['--port', '0'],
  work: ['--lanes', 'now,night', '--solvers', '1'],
  migrate: [],
  plan: [],
  glut: ['plums', '40', 'lb'],
  notices: [],
  shelf: [],
  take: ['plum-jam'],
  'canning-day': [],
  'process-time': [
    '--food',
    'peaches',
    '--style',
    'halved or sliced',
    '--pack',
    'hot',
    '--jar',
    'quart',
    '--method',
    'boiling-water',
    '--altitude-ft',
    '1240',
  ],
  backup: [join(folder, 'another.sqlite')],
  restore: [copy],
  move: ['--from', copy, '--to', join(folder, 'moved.sqlite')],
  'row-rules': ['shelfward_web'],
  'passphrase-reset': ['Ida'],
  'allow-household': ['Ida'],
  'rotate-key': [],
  'verify-table': ['process-times', join(folder, 'table.csv')],
};

beforeAll(async () => {
  const { db } = await quinceYardHousehold(file);
  await db.destroy();
  worked(await backUpFile(file, copy));
  mkdirSync(join(folder, 'a-folder'));
  writeFileSync(
    join(folder, 'words.sqlite'),
    'no database at all, but more than a hundred letters of text. '.repeat(40),
  );
  writeFileSync(join(folder, 'damaged.sqlite'), readFileSync(copy).subarray(0, 20_000));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const shelfward = typedCommand(file);

const plainLine = (complaint: string): boolean =>
  /^[^\n]+\n$/.test(complaint) &&
  !/\bat \S+ \(|node_modules|fault in the program|Error:|SQLITE_/.test(complaint);

/** What is not one plain line a mistake with this exit code, of everything that was typed. */
async function amiss(
  typed: readonly (readonly string[])[],
  code: number,
  mistakes = 1,
): Promise<readonly string[]> {
  const found: string[] = [];
  for (const args of typed) {
    const { exit, complaint } = await shelfward(...args);
    const lines = complaint.split(/(?<=\n)/);
    if (exit !== code || lines.length > mistakes || !lines.every(plainLine))
      found.push(`${args.join(' ')}: ${exit} ${complaint}`);
  }
  return found;
}

const badDays = ['9999-12-31', '0001-01-01', '1999-12-31', '2201-01-01', '2026-02-30', 'soon'];
const badWeeks = ['9999-W01', '0001-W01', '1999-W10', '2201-W01', '2026-W59', 'soon'];

test('each command of the list says here how it is typed', () => {
  expect(Object.keys(rightly).toSorted()).toEqual(Object.keys(commands).toSorted());
});

describe.each(Object.entries(commands).map(([name, { does, helpsItself }]) => ({ name, does, helpsItself })))(
  'whatever goes wrong with $name is one plain line',
  ({ name, does, helpsItself }) => {
    const right = rightly[name] ?? [];
    const takes = (option: string): boolean => does.includes(option);

    test('an option nobody knows, one too few or too many words, a value left out', async () => {
      const typed = [
        [name, ...right, '--no-such-option'],
        [name, ...right, '--no-such-option=9'],
        [name, ...right, '-z'],
        [name, ...right, 'too', 'many', 'words', 'for', 'any'],
        ...(right[0] !== undefined && !right[0].startsWith('--') ? [[name]] : []),
        ...(takes('--database FILE') ? [[name, ...right, '--database']] : []),
      ];

      // A word left out may leave several unsaid, each told on its own line.
      expect(await amiss(typed, 2, right.length + 1)).toEqual([]);
    });

    test('days and weeks no calendar here has', async () => {
      const options = [...does.matchAll(/(--[a-z-]+) (DATE|W)\b/g)];
      const typed = options.flatMap(([, option = '', kind]) =>
        (kind === 'W' ? badWeeks : badDays).map((value) => [name, ...right, option, value]),
      );

      expect(await amiss(typed, 2)).toEqual([]);
    });

    test('a file that is a folder, no database, damaged, or where nobody may write', async () => {
      const files = ['a-folder', 'words.sqlite', 'damaged.sqlite'].map((one) => join(folder, one));
      const typed =
        takes('--database FILE') && !helpsItself
          ? [...files, '/proc/shelfward/pantry.sqlite'].map((one) => [name, ...right, '--database', one])
          : [];
      const bytes = () => files.slice(1).map((one) => readFileSync(one).toString('latin1'));
      const kept = bytes();

      // A restore puts a sound file in the place of a damaged one: that is what it is for.
      expect(
        await amiss(
          name === 'restore' ? typed.filter((args) => !/words|damaged/.test(args.at(-1) ?? '')) : typed,
          1,
        ),
      ).toEqual([]);
      expect(bytes()).toEqual(kept);
    });

    test('a file to read or write that is missing, a folder, or out of reach', async () => {
      const bad = ['none', 'a-folder', 'words.sqlite'].map((one) => join(folder, one));
      const typed =
        name === 'backup'
          ? [join(folder, 'a-folder'), '/proc/shelfward/x.sqlite', copy].map((one) => [name, one])
          : name === 'restore' || name === 'verify-table'
            ? bad.map((one) => [name, ...right.slice(0, -1), one])
            : [];

      expect(await amiss(typed, name === 'verify-table' ? 2 : 1)).toEqual([]);
    });
  },
);

// A limit on how long a file may grow answers a write as a full disk does. `serve` goes on without: pages/errors and storage tests.
describe('a disk that takes no more', () => {
  const writing = ['take', 'backup', 'restore', 'allow-household'];
  test.each(writing.map((name) => ({ name })))(
    'is one plain line of $name, and the household is as it was',
    async ({ name }) => {
      const own = join(folder, `full-${name}.sqlite`);
      worked(await backUpFile(file, own));
      const typed = [
        name,
        ...(name === 'backup' ? [join(folder, 'full-copy.sqlite')] : (rightly[name] ?? [])),
      ];

      const ran = spawnSync(
        'bash',
        [
          '-c',
          'ulimit -f 16; exec node --import tsx server/main.ts "$@"',
          'shelfward',
          ...typed,
          '--database',
          own,
        ],
        { cwd: fileURLToPath(new URL('../../..', import.meta.url)), encoding: 'utf8' },
      );

      expect([ran.status, ran.signal, ran.stderr]).toEqual([1, null, expect.stringMatching(/^[^\n]+\n$/)]);
      expect(plainLine(ran.stderr)).toBe(true);
    },
  );
});
