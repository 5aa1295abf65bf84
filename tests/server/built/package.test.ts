import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type PackageLock, productionPackages } from '../../supply-chain/licenses.ts';

// The package that `npm pack` makes is unpacked beside the packages of production, as an installer lays them out, and started from
// an empty folder. No registry is asked.

const root = resolve(import.meta.dirname, '../../..');
const folder = mkdtempSync(join(tmpdir(), 'pantry-package-'));
const packages = join(folder, 'node_modules');
const installed = join(packages, 'shelfward');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(() => {
  const packed = spawnSync('npm', ['pack', '--json', '--pack-destination', folder], {
    cwd: root,
    encoding: 'utf8',
  });
  expect(packed.status, packed.stderr).toBe(0);
  const [tarball = ''] = readdirSync(folder).filter((name) => name.endsWith('.tgz'));
  mkdirSync(installed, { recursive: true });
  expect(
    spawnSync('tar', ['-xzf', join(folder, tarball), '-C', installed, '--strip-components=1']).status,
  ).toBe(0);
  const lock: PackageLock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  for (const { name } of productionPackages(lock)) {
    const from = join(root, 'node_modules', name);
    if (!existsSync(from) || existsSync(join(packages, name))) continue;
    mkdirSync(dirname(join(packages, name)), { recursive: true });
    symlinkSync(from, join(packages, name));
  }
});

const filesOf = (path: string): readonly string[] =>
  readdirSync(join(installed, path), { recursive: true, encoding: 'utf8' });

describe('the package', () => {
  test('holds what was built and what it reads, and neither its tests nor its tree', () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8')).version).toBe(version);
    expect(filesOf('').filter((path) => /\.tsx?$|(^|\/)tests?\//.test(path))).toEqual([]);
    for (const path of ['seed-data/reference', 'seed-data/demo', 'views/assets'])
      expect(filesOf(path).toSorted()).toEqual(
        readdirSync(join(root, path), { recursive: true, encoding: 'utf8' }).toSorted(),
      );
    expect(filesOf('built/migrations').length).toBeGreaterThan(40);
  });

  test('asks for no package that production does not bring', () => {
    const { dependencies, optionalDependencies } = JSON.parse(
      readFileSync(join(root, 'package.json'), 'utf8'),
    );
    const brought = new Set(Object.keys({ ...dependencies, ...optionalDependencies }));
    const asked = filesOf('built')
      .filter((path) => path.endsWith('.js'))
      .flatMap((path) => [
        ...readFileSync(join(installed, 'built', path), 'utf8').matchAll(
          /(?:^import |^\} from |^import .* from |import\()"([^"./][^"]*)"/gm,
        ),
      ])
      .map(([, name = '']) => name)
      .filter((name) => !name.startsWith('node:'))
      .map((name) =>
        name
          .split('/')
          .slice(0, name.startsWith('@') ? 2 : 1)
          .join('/'),
      );
    expect(new Set(asked).size).toBeGreaterThan(15);
    expect([...new Set(asked)].filter((name) => !brought.has(name))).toEqual([]);
  });

  test('starts in an empty folder with the demo household, answers there, and stops when told to', async () => {
    const empty = join(folder, 'pantry');
    mkdirSync(empty);
    const serving = spawn(
      process.execPath,
      [join(installed, 'bin/shelfward.mjs'), 'serve', '--demo-if-empty', '--port', '0'],
      { cwd: empty, stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, SHELFWARD_DATABASE: '' } },
    );
    let said = '';
    let complaint = '';
    for (const stream of [serving.stdout, serving.stderr])
      stream.setEncoding('utf8').on('data', (text: string) => {
        if (stream === serving.stdout) said += text;
        else complaint += text;
      });
    while (!/Open \S+ now; planning/.test(said)) await once(serving.stdout, 'data');
    const address = /Open (http:\/\/127\.0\.0\.1:\d+) now/.exec(said)?.[1] ?? '';
    const answers = await Promise.all(['/ready', '/', '/shelf'].map((path) => fetch(`${address}${path}`)));
    serving.kill('SIGTERM');
    const [exit] = await once(serving, 'exit');

    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200]);
    expect(complaint).toBe('');
    expect(exit).toBe(0);
    expect(existsSync(join(empty, '.shelfward/shelfward.sqlite'))).toBe(true);
    expect(existsSync(join(installed, '.shelfward'))).toBe(false);
  });
});
