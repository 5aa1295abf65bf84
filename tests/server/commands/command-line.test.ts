import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import * as plan from '../../../server/commands/plan.ts';
import * as serve from '../../../server/commands/serve.ts';
import * as shelf from '../../../server/commands/shelf.ts';
import * as take from '../../../server/commands/take.ts';
import { openDatabase } from '../../../server/database/database.ts';
import { lotsOf } from '../../../server/queries/shelf/shelf.ts';
import { oats, plumJam, quinceYard, quinceYardHousehold, shelve } from '../../builders/quince-yard.ts';

const root = resolve(import.meta.dirname, '../../..');
const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const file = join(folder, 'quince-yard.sqlite');

const shelfward = (...args: readonly string[]) => {
  const ran = spawnSync(process.execPath, ['bin/shelfward.mjs', ...args], {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, SHELFWARD_DATABASE: file },
  });
  return { exit: ran.status, out: ran.stdout, complaint: ran.stderr };
};

const commands = { plan, serve, shelf, take };

/** A command run in this process, with what it printed. */
async function ran(name: keyof typeof commands, ...args: readonly string[]) {
  const out = vi.spyOn(console, 'log').mockImplementation(() => {});
  const complaint = vi.spyOn(console, 'error').mockImplementation(() => {});
  vi.stubEnv('SHELFWARD_DATABASE', file);
  const printed = (spy: typeof out) => spy.mock.calls.map((line) => `${line.join(' ')}\n`).join('');
  try {
    const exit = await commands[name].run(args);
    return { exit, out: printed(out), complaint: printed(complaint) };
  } finally {
    vi.unstubAllEnvs();
    out.mockRestore();
    complaint.mockRestore();
  }
}

beforeAll(async () => {
  const { db } = await quinceYardHousehold(file);
  await shelve(db, {
    id: 'july',
    itemId: plumJam,
    units: 6,
    madeOn: '2026-07-20',
    bestQualityUntil: '2027-07-20',
  });
  await db.destroy();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const leftInFile = async () => {
  const db = await openDatabase(file);
  const [lot] = await lotsOf(db, quinceYard, { itemId: plumJam, empty: true });
  await db.destroy();
  return lot?.unitsLeft;
};

describe('the command line', () => {
  test('helps with a line for each command', () => {
    const { exit, out } = shelfward('--help');

    expect(exit).toBe(0);
    for (const command of ['serve', 'plan', 'notices', 'shelf', 'take', 'process-time', 'verify-table'])
      expect(out).toMatch(new RegExp(`^  ${command}\\s+\\S`, 'm'));
  });

  test('names the commands there are when it is given another', () => {
    const { exit, complaint } = shelfward('frobnicate');

    expect(exit).toBe(2);
    expect(complaint).toContain('; there are serve, work, migrate, plan');
    expect(complaint).toContain('There is no command “frobnicate”');
  });

  test('ends in peace when nobody reads the rest of what it prints', async () => {
    const program = spawn(process.execPath, ['bin/shelfward.mjs', 'shelf', '--demo'], {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    program.stdout.destroy();
    const complaint = await text(program.stderr);

    expect(complaint).toBe('');
    expect(program.exitCode ?? (await once(program, 'exit'))[0]).toBe(0);
  });

  test.each([
    ['plan', ['--as-of', '2026-02-30'], '“2026-02-30”, which is no day of the calendar'],
    ['plan', ['--demo', '--as-of', '9999-12-31'], 'Pick a day of the years 2002 to 2197'],
    ['plan', ['--demo', '--as-of', '2000-01-01'], 'Pick a day of the years 2002 to 2197'],
    ['plan', ['--demo', '--as-of', '1969-07-20'], 'Pick a day of the years 2002 to 2197'],
    ['take', ['Plum jam', '--on', '0001-01-01'], 'Pick a day of the years 2000 to 2200'],
    ['plan', ['--colour'], 'The options are --demo, --as-of, --database, --json'],
    ['plan', ['next', 'year'], '“next year” is not what goes beside the options, which is nothing.'],
    ['serve', ['--port', '70000'], 'Port cannot be “70000”. Write a whole number from 0 to 65,535'],
    ['take', [], 'Which item? For example: take peach-jam.'],
  ] as const)('refuses %s %j and says what it expected', async (name, args, words) => {
    const { exit, complaint } = await ran(name, ...args);

    expect(exit).toBe(2);
    expect(complaint).toContain(words);
    expect(complaint).not.toContain('    at ');
  });
});

describe('take', () => {
  test('takes by name, once for one key, and says from which batch', async () => {
    const first = await ran('take', 'plum JAM', '--units', '2', '--key', 'a-tap-by-the-door');
    const again = await ran('take', 'plum JAM', '--units', '2', '--key', 'a-tap-by-the-door');

    expect(first).toMatchObject({ exit: 0, out: 'Taken: 2 of Plum jam, from batch july.\n' });
    expect(again.out).toBe(first.out);
    expect(await leftInFile()).toBe(4);
  });

  test('refuses what is not there and changes nothing', async () => {
    const before = await leftInFile();

    const nobody = await ran('take', 'plum-jam', '--by', 'Gundula');
    const unknown = await ran('take', 'moon jam');
    const tooMany = await ran('take', 'plum-jam', '--units', '400');

    expect(unknown).toMatchObject({ exit: 1 });
    expect(unknown.complaint).toContain('“moon jam”');
    expect(tooMany.complaint).toContain('The book has');
    expect(nobody.complaint).toContain('Who took it is a member of this household, and it has none yet.');
    expect(await leftInFile()).toBe(before);
  });
});

describe('shelf', () => {
  test('prints every item with its batches, and the same as data', async () => {
    const text = await ran('shelf');
    const data = JSON.parse((await ran('shelf', '--json')).out) as {
      shelf: { item: { id: string }; units: number }[];
    };

    expect(text.out).toMatch(
      /Plum jam: \d half-pints?\n {2}july {2}\d left, best quality until Jul 20, 2027/,
    );
    expect(data.shelf.find(({ item }) => item.id === plumJam)?.units).toBe(await leftInFile());
  });
});

describe('of what is weighed', () => {
  beforeAll(async () => {
    const db = await openDatabase(file);
    const flour = { id: 'oats-may', itemId: oats, units: 22.0462, jarKind: null };
    await shelve(db, { ...flour, madeOn: '2026-05-02', bestQualityUntil: '2027-05-02' });
    await db.updateTable('household').set({ units: 'metric' }).execute();
    await db.destroy();
  });

  test('the shelf and its batches are in one weight, and it is taken in the weight the household reads', async () => {
    expect((await ran('shelf')).out).toMatch(
      /Rolled oats: 10 kg\n {2}oats-may {2}10 kg left, best quality until/,
    );
    expect((await ran('take', 'oats', '--units', '2.5')).out).toBe(
      'Taken: 2.5 kg of Rolled oats, from batch oats-may.\n',
    );
    expect((await ran('take', 'oats')).out).toContain('Taken: 1 kg of Rolled oats');
    expect((await ran('shelf')).out).toMatch(/oats-may {2}6\.5 kg left/);
  });
});

test('what is kept longer than the household keeps it is said so', async () => {
  const db = await openDatabase(file);
  await shelve(db, {
    id: 'long-ago',
    itemId: plumJam,
    units: 1,
    madeOn: '2020-07-20',
    bestQualityUntil: '2021-07-20',
  });
  await db.destroy();

  expect((await ran('shelf')).out).toMatch(/long-ago {2}1 left.*; KEPT TOO LONG: throw it away/);
});

test('a file without a household is said to have none', async () => {
  const empty = join(folder, 'empty.sqlite');

  const { exit, complaint } = await ran('shelf', '--database', empty);

  expect(exit).toBe(1);
  expect(complaint).toContain(`${empty} has no household`);
  expect(existsSync(empty)).toBe(true);
});
