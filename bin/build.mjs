import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

// `npm run build`: the program as JavaScript in `built/`. Compiling a thousand modules at each start takes longer than all that most
// commands do. Packages are not built in: they are loaded from `node_modules/`, under their own licenses.

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const built = join(root, 'built');
/** What `built/` was made of stands in it; written last, so that half of it is never taken for the whole. */
const madeOf = join(built, 'made-of.json');

const sourceFolders = ['migrations', 'server', 'shared', 'src', 'views'];
/** Brought in by their path: those that are processes of their own, and the steps of the schema. */
const processes = ['server/main.ts', 'server/files/file-reader.ts', 'server/solver/highs-process.ts'];
/** A module that nothing in `built/` asks for any more may still be asked for by a server that was started before. */
const keptMs = 7 * 24 * 60 * 60_000;

const filesIn = (folder) =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

const isModule = (file) => /\.tsx?$/.test(file);

/** Another text whenever a module changed, came or went. */
function digestOfSources() {
  const digest = createHash('sha256');
  const modules = sourceFolders.flatMap(filesIn).filter(isModule);
  for (const file of [...modules, fileURLToPath(import.meta.url), join(root, 'package-lock.json')].sort()) {
    const { mtimeMs, size } = statSync(file);
    digest.update(`${relative(root, file)} ${size} ${mtimeMs}\n`);
  }
  return digest.digest('hex');
}

const builtOf = () => (existsSync(madeOf) ? JSON.parse(readFileSync(madeOf, 'utf8')).digest : null);

/** Builds the program; another one that starts meanwhile finds each file whole, the old one or the new. */
async function build() {
  const digest = digestOfSources();
  const { build: bundle } = await import('esbuild');
  const { outputFiles } = await bundle({
    absWorkingDir: root,
    entryPoints: [...processes, ...filesIn('migrations').filter(isModule)],
    outdir: built,
    outbase: root,
    chunkNames: 'chunks/[name]-[hash]',
    bundle: true,
    splitting: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    sourcemap: true,
    sourcesContent: false,
    legalComments: 'none',
    logLevel: 'error',
    write: false,
  });
  const wanted = new Set(outputFiles.map(({ path }) => path));
  for (const { path, contents } of outputFiles) {
    mkdirSync(dirname(path), { recursive: true });
    const whole = `${path}.${process.pid}`;
    writeFileSync(whole, contents);
    renameSync(whole, path);
  }
  writeFileSync(`${madeOf}.${process.pid}`, `${JSON.stringify({ digest })}\n`);
  renameSync(`${madeOf}.${process.pid}`, madeOf);
  const old = Date.now() - keptMs;
  for (const file of filesIn('built'))
    if (!wanted.has(file) && file !== madeOf && statSync(file).mtimeMs < old) rmSync(file, { force: true });
}

/** Builds the program, unless what stands there was made of the very modules of the tree; in a process of its own, which the program does not carry along. */
export function bringUpToDate() {
  if (builtOf() === digestOfSources()) return true;
  return spawnSync(process.execPath, [fileURLToPath(import.meta.url)], { stdio: 'inherit' }).status === 0;
}

if (process.argv[1] !== undefined && resolve(process.argv[1]) === fileURLToPath(import.meta.url))
  try {
    await build();
  } catch (cause) {
    console.error(
      `The program could not be built: ${cause instanceof Error ? cause.message : String(cause)}`,
    );
    console.error(
      'Run npm ci as the user whose folder this is, then npm run build once, and start it again.',
    );
    process.exitCode = 1;
  }
