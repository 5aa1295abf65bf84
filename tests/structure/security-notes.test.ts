import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';

// What server/SECURITY.md says is shown by a test is shown by one that is there.

const root = resolve(import.meta.dirname, '../..');
const notes = readFileSync(join(root, 'server/SECURITY.md'), 'utf8');
const rows = notes
  .split('\n')
  .filter((line) => line.startsWith('| '))
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .map((cells) => cells.slice(1, -1));
const requirements = rows.filter(([id = '']) => /^V\d/.test(id));
const promises = rows.filter((cells) => cells.length === 2 && /\/|bench:/.test(cells[1] ?? ''));
const folders = readdirSync(join(root, 'tests'));

/** Every test a cell names: `server/access/limits`, or a whole folder of them. */
const named = (cell: string): readonly string[] =>
  [...cell.matchAll(/(?<![\w/`.])([a-z-]+(?:\/[a-z-]+)+)(?![\w/])/g)]
    .map(([, path = '']) => path)
    .filter((path) => folders.includes(path.split('/')[0] ?? ''));

const isThere = (path: string): boolean => {
  const place = join(root, 'tests', path);
  if (existsSync(`${place}.test.ts`) || existsSync(`${place}.test.tsx`)) return true;
  return (
    existsSync(place) &&
    statSync(place).isDirectory() &&
    readdirSync(place).some((name) => /\.test\.tsx?$/.test(name))
  );
};

test('every test that the security notes name is there', () => {
  const all = [...requirements, ...promises].flatMap((cells) => named(cells.at(-1) ?? ''));

  expect(all.length).toBeGreaterThan(120);
  expect([...new Set(all)].filter((path) => !isThere(path))).toEqual([]);
});

test('every bench they name is a command', () => {
  const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    scripts: Record<string, string>;
  };
  const benches = [...notes.matchAll(/\bbench:[a-z-]+(?::[a-z-]+)?/g)].map(([name]) => name);

  expect(benches.length).toBeGreaterThan(3);
  expect(benches.filter((name) => scripts[name] === undefined)).toEqual([]);
});

test('every requirement has a state, and what is met says by which test, part of the program or look', () => {
  const states = /^(met\b.*|n\.a\.|operator's|\*\*not met\*\*.*)$/;
  const unclear = requirements.filter(([, , state = '']) => !states.test(state));
  const unshown = requirements.filter(
    ([, , state = '', shown = '']) => state.startsWith('met') && shown === '',
  );

  expect(requirements.length).toBeGreaterThan(100);
  expect(unclear.map(([id]) => id)).toEqual([]);
  expect(unshown.map(([id]) => id)).toEqual([]);
});

test('every setting of the environment is in the README or the security notes', () => {
  const settings = readFileSync(join(root, 'server/settings.ts'), 'utf8');
  const readme = readFileSync(join(root, 'README.md'), 'utf8');
  const known = [...new Set([...settings.matchAll(/\bSHELFWARD_[A-Z_]+/g)].map(([name]) => name))];

  expect(known.length).toBeGreaterThan(8);
  expect(known.filter((name) => !readme.includes(name) && !notes.includes(name))).toEqual([]);
});
