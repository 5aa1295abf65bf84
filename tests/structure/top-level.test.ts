import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';

test('the top level holds the fixed folders, the documents, the licenses and what tools insist on, nothing else', () => {
  const root = resolve(import.meta.dirname, '../..');

  const tracked = execFileSync('git', ['ls-files'], { cwd: root, encoding: 'utf8' }).trim().split('\n');

  expect([...new Set(tracked.map((path) => path.split('/')[0]))].sort()).toEqual(
    [
      '.ci',
      '.gitignore',
      '.npmrc',
      'Containerfile',
      'DEVELOPERS.md',
      'LICENSE',
      'LICENSES.md',
      'README.md',
      'bin',
      'biome.json',
      'migrations',
      'package-lock.json',
      'package.json',
      'seed-data',
      'server',
      'shared',
      'src',
      'tests',
      'tsconfig.json',
      'views',
      'vitest.config.ts',
    ].sort(),
  );
});
