import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../../..');
const folder = mkdtempSync(join(tmpdir(), 'pantry-built-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A tree as small as a program can be, with the means to build it. */
function smallTree(name: string) {
  const tree = join(folder, name);
  const write = (path: string, text: string) => {
    mkdirSync(join(tree, path, '..'), { recursive: true });
    writeFileSync(join(tree, path), text);
  };
  write('package.json', '{ "type": "module" }');
  write('package-lock.json', '{}');
  cpSync(join(root, 'bin'), join(tree, 'bin'), { recursive: true });
  symlinkSync(join(root, 'node_modules'), join(tree, 'node_modules'));
  for (const path of ['server/files/file-reader.ts', 'server/solver/highs-process.ts', 'migrations/begin.ts'])
    write(path, 'export {};');
  for (const path of ['shared', 'src', 'views']) mkdirSync(join(tree, path));
  const run = (...args: readonly string[]) => {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [join(tree, 'bin/shelfward.mjs'), ...args],
      {
        encoding: 'utf8',
      },
    );
    return { status, said: stdout, complaint: stderr };
  };
  const builtOf = (): string => readFileSync(join(tree, 'built/made-of.json'), 'utf8');
  return { tree, write, run, builtOf };
}

describe('the program as it is built', () => {
  test('is built at the first start, left as it is while nothing changes, and built anew after a change', () => {
    const { write, run, builtOf } = smallTree('changing');
    write('shared/jar.ts', "export const jar: string = 'pint';");
    write(
      'server/main.ts',
      "import { jar } from '../shared/jar.ts';\nconsole.log(jar, process.argv.slice(2));",
    );
    expect(run('shelf')).toEqual({ status: 0, said: "pint [ 'shelf' ]\n", complaint: '' });
    const first = builtOf();
    run('shelf');
    expect(builtOf()).toBe(first);

    write('shared/jar.ts', "export const jar: string = 'half-pint';");
    expect(run('shelf').said).toBe("half-pint [ 'shelf' ]\n");
    expect(builtOf()).not.toBe(first);
  });

  test('a tree that cannot be built says so and what to do, and the one before it is not run in its place', () => {
    const { write, run } = smallTree('broken');
    write('server/main.ts', "console.log('whole');");
    expect(run().said).toBe('whole\n');

    write('server/main.ts', "console.log('half");
    const { status, said, complaint } = run();
    expect(status).toBe(1);
    expect(said).toBe('');
    expect(complaint).toContain('The program could not be built: ');
    expect(complaint).toContain('Run npm ci');
  });

  test('without its tree, as in a package, what was built is run as it is', () => {
    const { tree, write, run } = smallTree('packed');
    write('server/main.ts', "console.log('whole');");
    run();
    for (const path of ['server', 'shared', 'src', 'views', 'migrations'])
      rmSync(join(tree, path), { recursive: true });
    expect(run()).toEqual({ status: 0, said: 'whole\n', complaint: '' });
  });

  test('holds each module that is brought in by its path', () => {
    spawnSync(process.execPath, [join(root, 'bin/build.mjs')]);
    const named = spawnSync('grep', ['-rhoE', "moduleAt\\('[^']+'\\)", join(root, 'server')], {
      encoding: 'utf8',
    });
    const paths = named.stdout
      .split('\n')
      .filter(Boolean)
      .map((found) => found.slice("moduleAt('".length, -2));
    expect(paths.length).toBeGreaterThanOrEqual(2);
    expect(paths.filter((path) => !existsSync(join(root, 'built', `${path}.js`)))).toEqual([]);
  });
});
