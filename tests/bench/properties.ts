import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';

// npm run -s bench:properties -- [--draws 20] [--seed 1] [--runs 1000]
// Checks every property of the tests on other draws than a run of the tests does: seed, seed + 1, … Prints each that fails
// with its seed and counterexample; exits 1 when one did. Properties that name a seed or a number of runs keep theirs.

const { values: options } = parseArgs({
  options: {
    draws: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
    runs: { type: 'string', default: '1000' },
  },
});
const files = readdirSync('tests', { recursive: true, encoding: 'utf8' })
  .map((file) => `tests/${file}`)
  .filter((file) => /\.test\.tsx?$/.test(file) && !file.startsWith('tests/browser/'))
  .filter((file) => readFileSync(file, 'utf8').includes("from 'fast-check'"));
console.log(`${files.length} files with properties, ${options.draws} draws of ${options.runs}`);

let failed = 0;
for (let draw = 0; draw < Number(options.draws); draw += 1) {
  const seed = String(Number(options.seed) + draw);
  const run = spawnSync('npx', ['vitest', 'run', '--project', 'core', '--reporter', 'dot', ...files], {
    env: { ...process.env, PROPERTY_SEED: seed, PROPERTY_RUNS: options.runs },
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (run.status !== 0) failed += 1;
  console.log(run.status === 0 ? `seed ${seed}: holds` : `seed ${seed}: fails\n${run.stdout}${run.stderr}`);
}
process.exitCode = failed === 0 ? 0 : 1;
