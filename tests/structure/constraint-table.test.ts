import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, test } from 'vitest';
import { codeFiles, root } from './code-files.ts';

/**
 * The planning README's table of constraints is how a reader finds a row of the solver's in words, its unit, its function and
 * its test: no constraint may be missing from it, and it may name none that is gone.
 */
const sources = codeFiles('src/planning/model/constraints').map((file) => readFileSync(file, 'utf8'));
const planningCode = codeFiles('src/planning')
  .map((file) => readFileSync(file, 'utf8'))
  .join('\n');
const readme = readFileSync(join(root, 'src/planning/README.md'), 'utf8');
const constraintRows = readme
  .split('\n## ')
  .filter((part) => part.startsWith('Constraints'))
  .flatMap((part) => part.split('\n'))
  .filter((line) => line.startsWith('| ') && !line.startsWith('| constraint |'));
const table = constraintRows.join('\n');

/** `crock_space` of a row named `crock_space[2026-W33]`. */
const rowNames = [
  ...new Set(
    sources.flatMap((source) =>
      [...source.matchAll(/\.row\(\s*[`']([a-z_]+)[[`']/g)].flatMap(([, name]) => name ?? []),
    ),
  ),
].sort();

test('the table of constraints has every kind of row that the model writes', () => {
  expect(rowNames.length).toBeGreaterThan(20);
  expect(rowNames.filter((name) => !table.includes(`\`${name}`))).toEqual([]);
});

test('every row and function the table names is in the code', () => {
  const named = constraintRows.map((line) => line.split('|').map((cell) => cell.trim()));
  const codes = (cell: string) => [...cell.matchAll(/`([A-Za-z_]+)/g)].flatMap(([, name]) => name ?? []);
  const gone = named.flatMap(([, , , , rows = '', functions = '']) =>
    [...codes(rows), ...codes(functions)].filter((name) => !planningCode.includes(name)),
  );

  expect(named.length).toBeGreaterThan(20);
  expect(gone).toEqual([]);
});

test('every test the table names is there', () => {
  const tests = codeFiles('tests').map((file) => basename(file));
  const named = constraintRows.flatMap((line) =>
    [...line.matchAll(/`([a-z-]+\.test\.ts)`/g)].flatMap(([, name]) => name ?? []),
  );

  expect([...new Set(named)].filter((name) => !tests.includes(name))).toEqual([]);
});
