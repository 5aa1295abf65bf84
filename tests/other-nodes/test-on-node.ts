import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join, resolve } from 'node:path';

// npm run test:node -- 24 [FILE …]
// The core tests, or those of some files, on another major of Node: it is fetched as the registry's package of that name, the
// project is laid beside it as git has it, and its packages are installed by that Node's own run of npm.

const [major = '', ...files] = process.argv.slice(2);
if (!/^\d+$/.test(major)) {
  console.error('Which Node? For example: npm run test:node -- 24');
  process.exit(2);
}
const root = resolve(import.meta.dirname, '../..');
// Outside every `node_modules/`: what lies in one is taken for a package, and compiled as such.
const folder = join(tmpdir(), `shelfward-node-${major}`);
const packageOfNode = `node-${process.platform}-${process.arch}`;
const nodeFolder = join(folder, 'node_modules', packageOfNode, 'bin');
const node = join(nodeFolder, process.platform === 'win32' ? 'node.exe' : 'node');
const tree = join(folder, 'tree');
const npm = process.env.npm_execpath ?? '';

const run = (command: string, args: readonly string[], cwd: string): void => {
  const { status, error } = spawnSync(command, args, {
    cwd,
    stdio: 'inherit',
    // What starts Node by its name, as the steps of an install do, is to find that one.
    env: { ...process.env, PATH: `${nodeFolder}${delimiter}${process.env.PATH ?? ''}` },
  });
  if (error !== undefined) throw error;
  if (status !== 0) process.exit(status ?? 1);
};

mkdirSync(folder, { recursive: true });
if (!existsSync(node))
  run(
    process.execPath,
    [npm, 'install', '--prefix', folder, '--no-save', '--no-audit', '--no-fund', `${packageOfNode}@${major}`],
    folder,
  );
// Nothing of an earlier run, which the project may have left behind.
rmSync(tree, { recursive: true, force: true });
const { stdout } = spawnSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
  cwd: root,
  encoding: 'utf8',
  maxBuffer: 64 * 1024 * 1024,
});
for (const path of stdout.split('\0').filter((one) => one !== '' && existsSync(join(root, one)))) {
  mkdirSync(dirname(join(tree, path)), { recursive: true });
  cpSync(join(root, path), join(tree, path));
}
// Tests ask git what belongs to the project.
run('git', ['init', '--quiet'], tree);
run('git', ['add', '--all'], tree);
run(node, [npm, 'ci', '--no-audit', '--no-fund'], tree);
run(node, ['--version'], tree);
run(node, [join(tree, 'node_modules/vitest/vitest.mjs'), 'run', '--project', 'core', ...files], tree);
