import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { numberField, optionalTextField } from '../../shared/schemas/form-fields.ts';
import { usualPlay } from '../../src/planning/simulation/aimed-plan.ts';
import { wallClock } from '../clock.ts';
import { openDatabase } from '../database/database.ts';
import { lockForWorking } from '../database/serving-lock.ts';
import { openMailJob } from '../jobs/mail-job.ts';
import { nightWork } from '../jobs/night-work.ts';
import { openNightly } from '../jobs/nightly.ts';
import { planRunners } from '../jobs/plan-job.ts';
import { openPlanMaker } from '../jobs/plan-maker.ts';
import { planRequests } from '../jobs/plan-requests.ts';
import { repeating } from '../jobs/repeating.ts';
import { smtpMailer } from '../mail/mailer.ts';
import { purgeHouseholds } from '../records/household/household-deletion.ts';
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

/** How often it is looked for what somebody waits for. */
const lookedForNowMs = 250;
const nightlyLookMs = 60_000;
const lettersEveryMs = 15_000;
const purgeEveryMs = 60 * 60_000;
/** So many households have a plan somebody waits for under way at once; they take turns at the solvers. */
const askedAtOnce = 8;
const mostSolvers = 64;

const laneNames = Object.keys(lanes) as readonly Lane[];

const given = {
  database: { type: 'string' },
  lanes: { type: 'string' },
  solvers: { type: 'string' },
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

  const stopping = new AbortController();
  const stopped = once(stopping.signal, 'abort');
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.once(signal, () => stopping.abort());
  const lock = lockForWorking(file.value);
  if (!lock.ok) return complain(lock.problems, couldNot);
  const db = await openDatabase(file.value);
  const onError = (cause: unknown): void => console.error(faultLine(cause));
  solveSoManyAtOnce(solvers);
  const parts = {
    db,
    reference: loadReferenceTables(),
    now: wallClock,
    planYear,
    solve: solveInBackground,
    plannerOf,
    aim: usualPlay,
    onError,
  };
  const maker = openPlanMaker(parts);
  const asked = has('now') ? planRunners({ ...parts, maker, answers: true, atOnce: askedAtOnce }) : null;
  const requests = planRequests({ db, now: wallClock });
  const planAgain = (household: HouseholdId): void => void requests.start(household).catch(onError);
  const nightly = has('night')
    ? openNightly({
        ...parts,
        work: nightWork({ ...parts, file: file.value, maker }),
        planAgain,
        onEnd: () => asked?.wake(),
        // One solver stays free for what somebody waits for.
        atOnce: has('now') ? Math.max(1, solvers - 1) : solvers,
      })
    : null;
  const letters =
    mail !== null && has('soon')
      ? openMailJob({ ...parts, mailer: smtpMailer(mail), address: mail.address })
      : null;
  const purging = has('night')
    ? repeating(async () => void (await purgeHouseholds(db, wallClock())), onError)
    : null;
  asked?.start(lookedForNowMs);
  nightly?.start(nightlyLookMs);
  void nightly?.run();
  letters?.start(lettersEveryMs);
  purging?.start(purgeEveryMs);
  console.log(
    `Working: ${options.value.lanes.join(', ')}, with ${counted(solvers, 'solver')}. Stop with Ctrl-C.`,
  );
  // What looks again and again keeps nothing alive by itself.
  const alive = setInterval(() => {}, purgeEveryMs);
  await stopped;
  clearInterval(alive);
  // No new work begins; what is under way is left to whoever takes it up next.
  const ends = [asked?.close(), nightly?.close(), letters?.close(), purging?.close()];
  requests.close();
  await maker.close();
  await Promise.all(ends);
  await closePlanner();
  await db.destroy();
  lock.value.release();
  return done;
}
