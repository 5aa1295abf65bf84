import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import { numberField, optionalTextField } from '../../shared/schemas/form-fields.ts';
import { usualPlay } from '../../src/planning/simulation/aimed-plan.ts';
import { lastStep, putBehindThePages, usualSteps } from '../child-processes/behind-the-pages.ts';
import { wallClock } from '../clock.ts';
import { openDatabase } from '../database/database.ts';
import { lockForWorking } from '../database/serving-lock.ts';
import { openWork } from '../jobs/work.ts';
import { smtpMailer } from '../mail/mailer.ts';
import { type Lane, lanes } from '../records/job-row.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { readSettings } from '../settings.ts';
import {
  closePlanner,
  plannerOf,
  planYear,
  solveInBackground,
  solveSoManyAtOnce,
} from '../solver/plan-year.ts';
import { faultLine } from './fault-line.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';

const mostSolvers = 64;
const hour = 60 * 60_000;

const laneNames = Object.keys(lanes) as readonly Lane[];

const given = {
  database: { type: 'string' },
  lanes: { type: 'string' },
  solvers: { type: 'string' },
  nice: { type: 'string' },
} as const;

const schema = z.object({
  database: optionalTextField('--database', 1000),
  lanes: optionalTextField('--lanes', 100).transform((text, context) => {
    const named = text === '' ? laneNames : text.split(',').map((name) => name.trim());
    const unknown = named.filter((name) => !laneNames.some((lane) => lane === name));
    if (unknown.length > 0)
      context.addIssue(
        `There is no lane “${unknown.join(', ')}”. Name some of ${laneNames.join(',')}, with commas between them.`,
      );
    return laneNames.filter((lane) => named.includes(lane));
  }),
  solvers: numberField({ label: '--solvers', from: 1, to: mostSolvers, whole: true, example: '2' }).prefault(
    String(Math.min(2, availableParallelism())),
  ),
  nice: numberField({ label: '--nice', from: 0, to: lastStep, whole: true, example: '5' }).prefault(
    String(usualSteps),
  ),
});

/** Does the work in the background for servers that serve pages alone, until it is told to stop. */
export async function run(args: readonly string[]): Promise<number> {
  const settings = readSettings(process.env, process.cwd());
  if (!settings.ok) return complain(settings.problems, notUnderstood);
  const options = readOptions(args, given, schema);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const file = databaseFile(options.value.database);
  if (!file.ok) return complain(file.problems, notUnderstood);
  const { solvers } = options.value;
  const has = (lane: Lane): boolean => options.value.lanes.includes(lane);
  const { mail } = settings.value;
  if (mail !== null && mail.address === '' && has('soon')) {
    console.error(
      'SHELFWARD_ADDRESS must say where the pages are, like https://pantry.example.org, since letters lead there. Set it as for the servers and start again.',
    );
    return notUnderstood;
  }

  // Servers of the same machine go first, and this program before what it lets solve.
  putBehindThePages(process.pid, options.value.nice);
  const stopping = new AbortController();
  const stopped = once(stopping.signal, 'abort');
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.once(signal, () => stopping.abort());
  const lock = lockForWorking(file.value);
  if (!lock.ok) return complain(lock.problems, couldNot);
  const db = await openDatabase(file.value);
  const onError = (cause: unknown): void => console.error(faultLine(cause));
  solveSoManyAtOnce(solvers);
  const work = openWork({
    db,
    file: file.value,
    reference: loadReferenceTables(),
    now: wallClock,
    planYear,
    solve: solveInBackground,
    plannerOf,
    aim: usualPlay,
    lanes: options.value.lanes,
    solvers,
    mail: mail === null ? null : { mailer: smtpMailer(mail), address: mail.address },
    onError,
  });
  work.start();
  console.log(
    `Working: ${options.value.lanes.join(', ')}, with ${counted(solvers, 'solver')}. Stop with Ctrl-C.`,
  );
  // What looks again and again keeps nothing alive by itself.
  const alive = setInterval(() => {}, hour);
  await stopped;
  clearInterval(alive);
  await work.close();
  await closePlanner();
  await db.destroy();
  lock.value.release();
  return done;
}
