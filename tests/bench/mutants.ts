import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { eitherWay, type MutantsReport, scores, unnoticed } from './mutants-protocol.ts';

type LogLevel = NonNullable<ConstructorParameters<typeof Stryker>[0]['logLevel']>;

// npm run -s bench:mutants -- src/shelf [--tests tests/shelf,tests/consumption] [--concurrency 2] [--share 0.1] [--seed 1] [--least 85] [--keep]
// Changes one operator, value or word of a folder (or file) at a time and asks whether the tests that mirror it notice. Prints a
// table by file and every change that nobody noticed. Exits 1 under the least score, per cent. --keep leaves the whole report.
// --share tries only that share of all changes, drawn by the seed, and says how far the score of all may be from what it found.

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    tests: { type: 'string' },
    concurrency: { type: 'string', default: '1' },
    share: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    least: { type: 'string', default: '0' },
    keep: { type: 'boolean', default: false },
  },
});
const [named = ''] = positionals;
const place = named.replace(/\/$/, '');
if (place === '' || !existsSync(place))
  throw new Error(
    `mutants: expected a folder or file to change, like src/shelf; found ${named || 'none'}. Name one of the tree.`,
  );
const isFile = place.endsWith('.ts');
const mirror = `tests/${place.replace(/^src\//, '').replace(isFile ? /\/[^/]+$/ : /$/, '')}`;
const tests = options.tests ?? mirror;
for (const folder of tests.split(','))
  if (!existsSync(folder))
    throw new Error(`mutants: there is no ${folder}; name the folders of its tests with --tests.`);

const share = Number(options.share);
if (!(share > 0 && share <= 1))
  throw new Error(
    `mutants: expected a share over 0 and up to 1; found ${options.share}. Name one, like --share 0.1.`,
  );

const work = mkdtempSync(join(tmpdir(), 'mutants-'));
const reportFile = join(work, 'mutants.json');
process.env.MUTANTS_TESTS = tests;
process.env.MUTANTS_SHARE = options.share;
process.env.MUTANTS_SEED = options.seed;
try {
  await new Stryker({
    mutate: [isFile ? place : `${place}/**/*.ts`],
    testRunner: 'vitest',
    plugins: [
      '@stryker-mutator/vitest-runner',
      ...(share < 1 ? [join(import.meta.dirname, 'mutants-sample.ts')] : []),
    ],
    ...(share < 1 && { checkers: ['sample'], checkerNodeArgs: ['--import', 'tsx'] }),
    // Who ran what is held for every test of a folder at once: gigabytes, for the largest.
    testRunnerNodeArgs: ['--import', 'tsx', '--max-old-space-size=8192'],
    vitest: { configFile: 'tests/bench/mutants-vitest.ts', related: false },
    coverageAnalysis: 'perTest',
    incremental: false,
    concurrency: Number(options.concurrency),
    timeoutMS: 20_000,
    reporters: ['json', 'progress-append-only'],
    jsonReporter: { fileName: reportFile },
    tempDirName: join(work, 'tree'),
    cleanTempDir: 'always',
    // Its own reading of the compiler's settings needs an older compiler; the tests run without them.
    tsconfigFile: 'none',
    logLevel: 'warn' as LogLevel,
    allowConsoleColors: false,
  }).runMutationTest();
  const report = JSON.parse(readFileSync(reportFile, 'utf8')) as MutantsReport;
  const { byFile, all } = scores(report);
  const width = Math.max(...byFile.map(({ file }) => file.length));
  console.log(`${'file'.padEnd(width)}  killed  survived  never run   score`);
  for (const { file, killed, survived, uncovered, score } of [...byFile, all])
    console.log(
      [
        file.padEnd(width),
        String(killed).padStart(8),
        String(survived).padStart(10),
        String(uncovered).padStart(11),
        `${(100 * score).toFixed(1)} %`.padStart(8),
      ].join(''),
    );
  if (share < 1) {
    const tried = all.killed + all.survived + all.uncovered;
    console.log(
      `a sample of ${tried} (seed ${options.seed}): ${(100 * all.score).toFixed(1)} % ± ${(100 * eitherWay(all.score, tried)).toFixed(1)} at 95 %`,
    );
  }
  console.log(['', ...unnoticed(report)].join('\n'));
  if (options.keep) console.log(`\nreport: ${reportFile}`);
  process.exitCode = 100 * all.score < Number(options.least) ? 1 : 0;
} finally {
  if (!options.keep) rmSync(work, { recursive: true, force: true });
}
