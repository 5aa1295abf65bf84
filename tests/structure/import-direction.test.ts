import { readFileSync } from 'node:fs';
import { dirname, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { codeFiles, root } from './code-files.ts';

// Direction of imports: shared <- src <- server -> views, and views -> shared. Migrations stand alone.
const mayImport: Record<string, readonly string[]> = {
  shared: ['shared'],
  src: ['src', 'shared'],
  views: ['views', 'shared'],
  server: ['server', 'src', 'shared', 'views', 'seed-data', 'migrations'],
  migrations: [],
};

const importedPaths = (file: string): string[] =>
  [...readFileSync(file, 'utf8').matchAll(/(?:from\s+|import\s*\(\s*|import\s+)'([^']+)'/g)].flatMap(
    (found) => (found[1] === undefined ? [] : [found[1]]),
  );

const topFolderOf = (file: string): string => relative(root, file).split('/')[0] ?? '';

const importsOf = (file: string): readonly string[] =>
  importedPaths(file)
    .filter((path) => path.startsWith('.'))
    .map((path) => relative(root, resolve(dirname(file), path)));

/** `server/year/x.ts` stands in the room `server/year`, `server/app.ts` in one of its own. */
const roomOf = (file: string): string => file.split('/').slice(0, 2).join('/');

/** Those that lead back to themselves, each group in one line: what reaches a member and is reached by it. */
function circlesIn(imports: ReadonlyMap<string, Iterable<string>>): readonly string[] {
  const reached = new Map<string, ReadonlySet<string>>();
  for (const start of imports.keys()) {
    const seen = new Set<string>();
    const next = [...(imports.get(start) ?? [])];
    for (let one = next.pop(); one !== undefined; one = next.pop()) {
      if (seen.has(one)) continue;
      seen.add(one);
      next.push(...(imports.get(one) ?? []));
    }
    reached.set(start, seen);
  }
  const groups = [...reached].flatMap(([start, seen]) =>
    seen.has(start)
      ? [
          [...seen]
            .filter((one) => reached.get(one)?.has(start))
            .toSorted()
            .join(', '),
        ]
      : [],
  );
  return [...new Set(groups)];
}

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

  test('no file comes back to itself by what it imports, types included', () => {
    const files = Object.keys(mayImport).flatMap(codeFiles);
    const imports = new Map(files.map((file) => [relative(root, file), importsOf(file)]));

    expect(circlesIn(imports)).toEqual([]);
  });

  test('neither do the rooms of the server, nor the subjects of the core', () => {
    const rooms = new Map<string, Set<string>>();
    for (const file of ['server', 'src'].flatMap(codeFiles)) {
      const room = roomOf(relative(root, file));
      const others = rooms.get(room) ?? new Set();
      for (const target of importsOf(file)) if (roomOf(target) !== room) others.add(roomOf(target));
      rooms.set(room, others);
    }

    expect(rooms.size).toBeGreaterThan(20);
    expect(circlesIn(rooms)).toEqual([]);
  });

  test('a page takes nothing from the room of another: what several pages share stands in shared or words', () => {
    const crossings = codeFiles('server/pages').flatMap((file) => {
      const own = relative(root, file).split('/').slice(0, 3).join('/');
      if (own.endsWith('.ts')) return [];
      return importsOf(file)
        .filter((target) => target.startsWith('server/pages/'))
        .filter((target) => !target.startsWith(`${own}/`) && !target.startsWith('server/pages/shared/'))
        .map((target) => `${relative(root, file)} imports ${target}`);
    });

    expect(crossings).toEqual([]);
  });

  test('no room holds more than 25 files', () => {
    const counts = new Map<string, number>();
    for (const file of ['server', 'src', 'views', 'shared'].flatMap(codeFiles))
      counts.set(dirname(file), (counts.get(dirname(file)) ?? 0) + 1);

    expect([...counts].filter(([, count]) => count > 25).map(([room]) => relative(root, room))).toEqual([]);
  });

  test('a circle is found, however long', () => {
    const imports = (...pairs: [string, string[]][]) => new Map(pairs);

    expect(circlesIn(imports(['a', ['b']], ['b', ['c']], ['c', []]))).toEqual([]);
    expect(circlesIn(imports(['a', ['b']], ['b', ['c', 'd']], ['c', ['a']], ['d', []]))).toEqual(['a, b, c']);
  });

  test('the core has no clock, no unseeded randomness and no input or output', () => {
    const impure =
      /\bDate\.now\(|new Date\(\)|Math\.random\(|DateTime\.(?:now|local|utc)\(|from 'node:|\bprocess\.(?:env|argv|cwd|exit|hrtime|nextTick|on|std(?:in|out|err))\b|\bfetch\(/;

    const offenders = ['shared', 'src']
      .flatMap(codeFiles)
      .filter((file) => impure.test(readFileSync(file, 'utf8')));

    expect(offenders.map((file) => relative(root, file))).toEqual([]);
  });
});
