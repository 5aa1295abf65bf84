import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

// Direction of imports: shared <- src <- server -> views, and views -> shared. Migrations stand alone.
const mayImport: Record<string, readonly string[]> = {
  shared: ['shared'],
  src: ['src', 'shared'],
  views: ['views', 'shared'],
  server: ['server', 'src', 'shared', 'views', 'seed-data', 'migrations'],
  migrations: [],
};

const root = resolve(import.meta.dirname, '../..');

const codeFiles = (folder: string): string[] =>
  readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));

const importedPaths = (file: string): string[] =>
  [...readFileSync(file, 'utf8').matchAll(/(?:from\s+|import\s*\(\s*|import\s+)'([^']+)'/g)].flatMap(
    (found) => (found[1] === undefined ? [] : [found[1]]),
  );

const topFolderOf = (file: string): string => relative(root, file).split('/')[0] ?? '';

describe('direction of imports', () => {
  for (const [folder, allowed] of Object.entries(mayImport)) {
    test(`${folder} imports only from ${allowed.join(', ') || 'nothing of ours'}`, () => {
      const crossings = codeFiles(folder).flatMap((file) =>
        importedPaths(file)
          .filter((path) => path.startsWith('.'))
          .map((path) => resolve(dirname(file), path))
          .filter((target) => !allowed.includes(topFolderOf(target)))
          .map((target) => `${relative(root, file)} imports ${relative(root, target)}`),
      );

      expect(crossings).toEqual([]);
    });
  }

  test('the core has no clock, no unseeded randomness and no input or output', () => {
    const impure =
      /\bDate\.now\(|new Date\(\)|Math\.random\(|DateTime\.(?:now|local|utc)\(|from 'node:|\bprocess\.(?:env|argv|cwd|exit|hrtime|nextTick|on|std(?:in|out|err))\b|\bfetch\(/;

    const offenders = ['shared', 'src']
      .flatMap(codeFiles)
      .filter((file) => impure.test(readFileSync(file, 'utf8')));

    expect(offenders.map((file) => relative(root, file))).toEqual([]);
  });
});
