import { type ChildProcess, fork } from 'node:child_process';
import { parseArgs } from 'node:util';
import { type LivedPathResult, type LivedTask, regretOf, reportOf, tasksOf } from './lived/protocol.ts';
import { meanScore } from './lived/score.ts';

// npm run -s bench:lived -- --households N --paths N --seed S [--json]: years lived by the program, by paper and by foresight; see
// tests/bench/lived/README.md.

const { values: options } = parseArgs({
  options: {
    households: { type: 'string', default: '6' },
    paths: { type: 'string', default: '4' },
    seed: { type: 'string', default: '1' },
    processes: { type: 'string', default: '2' },
    json: { type: 'boolean', default: false },
    details: { type: 'boolean', default: false },
  },
});

const countOf = (name: 'households' | 'paths' | 'seed' | 'processes', least: number): number => {
  const value = Number(options[name]);
  if (Number.isSafeInteger(value) && value >= least && value <= 1_000_000) return value;
  console.error(`--${name}: expected a whole number from ${least} on, found ${options[name]}.`);
  process.exit(2);
};
const households = countOf('households', 1);
const paths = countOf('paths', 1);
const seed = countOf('seed', 0);

const waiting = tasksOf(households, paths, seed);
const results: LivedPathResult[] = [];
const workers = Array.from({ length: Math.min(countOf('processes', 1), waiting.length) }, () =>
  fork(new URL('./lived-process.ts', import.meta.url), { execArgv: ['--import', 'tsx'] }),
);
try {
  await Promise.all(workers.map(liveAll));
} finally {
  for (const worker of workers) worker.disconnect();
}
const report = reportOf({ households, paths, seed }, results);
if (options.json) console.log(JSON.stringify(report));
else print();

async function liveAll(worker: ChildProcess): Promise<void> {
  for (let task = waiting.shift(); task !== undefined; task = waiting.shift()) await liveOne(worker, task);
}

function liveOne(worker: ChildProcess, task: LivedTask): Promise<void> {
  return new Promise((resolve, reject) => {
    const stop = (settle: () => void) => {
      worker.off('message', heard);
      worker.off('exit', left);
      settle();
    };
    const heard = (message: { result?: LivedPathResult; isDone?: true; failed?: string }) => {
      if (message.result !== undefined) {
        results.push(message.result);
        if (options.details) console.error(lineOf(message.result));
      }
      if (message.isDone) stop(resolve);
      if (message.failed !== undefined) stop(() => reject(new Error(message.failed)));
    };
    const left = (code: number | null) => stop(() => reject(new Error(`a lived year ended with ${code}`)));
    worker.on('message', heard);
    worker.on('exit', left);
    worker.send(task);
  });
}

function lineOf({ household, limits, program, paper, knowing, foresight, bound }: LivedPathResult): string {
  const dollars = (cents: number) => (cents / 100).toFixed(0).padStart(6);
  const of = (name: string, { score, cost, hours, older, jarsMissed, staplesMissed }: typeof foresight) =>
    `  ${name.padEnd(11)} score ${dollars(score)} cost ${dollars(cost)} hours ${dollars(hours)} older ${dollars(older)} missed ${jarsMissed} + ${staplesMissed}`;
  return [
    `${household}, ${limits}, bound ${dollars(bound)}, churn ${program.churn}, unplanned ${program.unplanned}`,
    of('program', program.score),
    ...paper.map((score, at) => of(`paper ${at}`, score)),
    of('knowing', knowing),
    of('foresight', foresight),
  ].join('\n');
}

function knowingOf(name: LivedTask['limits']) {
  return meanScore(results.filter(({ limits }) => limits === name).map(({ knowing }) => knowing));
}

function print(): void {
  for (const { name, program, paper, foresight } of report.classes) {
    console.log(
      `${name}: ${households} households, ${paths} paths each, seed ${seed}; per household and year`,
    );
    const rows = [
      ...paper.map(({ rule, ...means }) => ({ rule, ...means })),
      { rule: 'the program', ...program },
      { rule: 'who knows all odds', ...knowingOf(name) },
      { rule: 'perfect foresight', ...foresight },
    ];
    console.table(rows);
    const { program: own, bestPaper, knowing: odds, overHalf } = regretOf(results, name);
    const said = ({ mean, half }: typeof own) =>
      `$${mean.toFixed(0)}${half === null ? '' : ` ± ${half.toFixed(0)}`}`;
    console.log(
      `regret: the program ${said(own)}, ${bestPaper.rule} ${said(bestPaper)}, who knows all odds ${said(odds)}; over half of paper's: ${said(overHalf)}\n`,
    );
  }
}
