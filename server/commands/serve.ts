import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { HouseholdId } from '../../shared/ids.ts';
import { found } from '../../shared/problems.ts';
import { optionalTextField, tickField } from '../../shared/schemas/form-fields.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Household } from '../../src/household/household.ts';
import { dayLines } from '../../src/planning/days/day-lines.ts';
import { usualPlay } from '../../src/planning/simulation/aimed-plan.ts';
import { measuresIn } from '../../src/preserving/foods/trade-measures.ts';
import { readingOf } from '../../views/words/reading.ts';
import { reachOf } from '../access/reach.ts';
import { sealSeeds } from '../access/second-factor.ts';
import { passingSeedKeys, readSeedKeys, type SeedKeys, usualKeyFile } from '../access/seed-keys.ts';
import { buildApp } from '../app.ts';
import { momentIn, wallClock } from '../clock.ts';
import { ofNobody } from '../database/apart/whose-rows.ts';
import { type Database, openDatabase } from '../database/database.ts';
import { wayBack } from '../database/opening.ts';
import { isAddress } from '../database/place.ts';
import { newestBackup } from '../database/rotation.ts';
import { lockForBoth, lockForServing } from '../database/serving-lock.ts';
import { makeDemoHousehold } from '../demo/make-demo.ts';
import { openMailJob } from '../jobs/mail-job.ts';
import { nightWork } from '../jobs/night-work.ts';
import { clockWords, openNightly } from '../jobs/nightly.ts';
import { openPlanJob, openPlanJobElsewhere, type PlanJob } from '../jobs/plan-job.ts';
import { type Repeating, repeating } from '../jobs/repeating.ts';
import { serverLog } from '../log.ts';
import { mailServerOf, smtpMailer } from '../mail/mailer.ts';
import { sweepEarlier, sweepNow } from '../memory.ts';
import { deletedHouseholds, firstHousehold } from '../queries/household/household.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { keepClock } from '../records/household/clock.ts';
import { purgeHouseholds } from '../records/household/household-deletion.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { portField, readSettings } from '../settings.ts';
import { closePlanner, plannerOf, planYear, solveInBackground } from '../solver/plan-year.ts';
import { steadyClock } from '../steady-clock.ts';
import { batchDaysBy } from '../year/batch-days-by.ts';
import { type YearPicture, yearPicture } from '../year/year-picture.ts';
import { clearSocket, shareWithGroup } from './local-socket.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';
import { weeksAhead } from './weeks-ahead.ts';

/** How often the night's work is looked for. */
const nightlyLookMs = 60_000;

const given = {
  port: { type: 'string' },
  database: { type: 'string' },
  'demo-if-empty': { type: 'boolean' },
  'without-work': { type: 'boolean' },
  host: { type: 'string' },
  'public-address': { type: 'string' },
} as const;

/** How often it is looked whether a letter is due or waits. */
const lettersEveryMs = 60_000;

/** How often it is looked for households deleted more than seven days ago. */
const purgeEveryMs = 60 * 60_000;

/** Serves the program, on this machine only unless told otherwise, until it is told to stop. */
export async function run(args: readonly string[]): Promise<number> {
  const settings = readSettings(process.env, process.cwd());
  if (!settings.ok) return complain(settings.problems, notUnderstood);
  const options = readOptions(
    args,
    given,
    z.object({
      port: portField.prefault(String(settings.value.port)),
      database: optionalTextField('--database', 1000),
      'demo-if-empty': tickField(),
      'without-work': tickField(),
      host: optionalTextField('--host', 100),
      'public-address': optionalTextField('--public-address', 200),
    }),
  );
  if (!options.ok) return complain(options.problems, notUnderstood);
  const file = databaseFile(options.value.database);
  if (!file.ok) return complain(file.problems, notUnderstood);

  const stopping = new AbortController();
  const stopped = once(stopping.signal, 'abort');
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.once(signal, () => stopping.abort());
  const works = !options.value['without-work'];
  const lock = (works ? lockForBoth : lockForServing)(file.value);
  if (!lock.ok) return complain(lock.problems, couldNot);
  const db = await openDatabase(file.value);
  const seedKeys =
    file.value === ':memory:'
      ? passingSeedKeys()
      : readSeedKeys(settings.value.keyFile || usualKeyFile(file.value), {
          make: settings.value.keyFile === '',
        });
  await sealAndTell(db, seedKeys);
  const clock = await keepClock(db, wallClock());
  if (clock.aheadUntil !== null) console.error(clockWords(clock.aheadUntil));
  const host = options.value.host || '127.0.0.1';
  const reach = await reachOf(db, host, options.value['public-address']);
  if (!reach.ok) {
    await db.destroy();
    return complain(reach.problems, couldNot);
  }
  const { socket } = settings.value;
  if (socket !== '' && !reach.value.beyondLoopback) {
    await db.destroy();
    console.error(
      'SHELFWARD_SOCKET needs --public-address https://NAME beside it: a socket is for a proxy that speaks TLS. Name its address.',
    );
    return notUnderstood;
  }
  const room = socket === '' ? found(true) : await clearSocket(socket);
  if (!room.ok) {
    await db.destroy();
    return complain(room.problems, couldNot);
  }
  const publicAddress = reach.value.beyondLoopback ? options.value['public-address'] : '';
  const reference = loadReferenceTables();
  if (
    options.value['demo-if-empty'] &&
    (await firstHousehold(db)) === null &&
    (await deletedHouseholds(db)).length === 0
  ) {
    if (newestBackup(file.value) === null) {
      console.log(
        `${isAddress(file.value) ? 'An empty database' : 'A new file'}: filling it with the demo household.`,
      );
      await makeDemoHousehold(db, momentIn('America/New_York', wallClock).today);
    } else
      console.error(`${file.value} has no household, though there are backups of it. ${wayBack(file.value)}`);
  }
  let app: FastifyInstance | undefined;
  /** What went wrong in the background: a line of the log, with all there is to know of it. */
  const onError = (cause: unknown): void => {
    app?.log.error({ err: cause }, 'work in the background failed');
  };
  const own = works
    ? openPlanJob({
        db,
        reference,
        now: wallClock,
        planYear,
        solve: solveInBackground,
        plannerOf,
        aim: usualPlay,
        onError,
      })
    : null;
  const planJob = own ?? openPlanJobElsewhere({ db, now: wallClock });
  sweepEarlier();
  let mailJob: Repeating | null = null;
  const { mail } = settings.value;
  app = await buildApp({
    db,
    reference,
    now: wallClock,
    steady: steadyClock(),
    planJob,
    mail: mail === null ? null : { ...mailServerOf(mail), look: () => void mailJob?.run() },
    publicAddress,
    codeSteps: settings.value.codeSteps,
    factorRule: settings.value.secondFactor ?? (reach.value.beyondLoopback ? 'two-weeks' : 'by-household'),
    seedKeys,
    logger: serverLog,
  });
  const planAgain = (household: HouseholdId): void => void planJob.start(household).catch(onError);
  const nightly =
    own === null
      ? null
      : openNightly({
          db,
          now: wallClock,
          work: nightWork({ db, file: file.value, reference, now: wallClock, maker: own.maker }),
          planAgain,
          onEnd: own.wake,
          onError,
        });
  const close = async () => {
    await app.close();
    await mailJob?.close();
    await planJob.close();
    await nightly?.close();
    await closePlanner();
    await db.destroy();
    lock.value.release();
  };
  try {
    const where = socket === '' ? { host, port: options.value.port } : { path: socket };
    const served = app;
    await ofNobody(db, () => served.listen(where));
    if (socket !== '') shareWithGroup(socket);
  } catch (cause) {
    await close();
    const { port } = options.value;
    const taken = cause instanceof Error && 'code' in cause && cause.code === 'EADDRINUSE';
    console.error(
      taken
        ? `Another program uses port ${port}. Stop that one, or choose another port with --port.`
        : `Could not listen on ${socket === '' ? `port ${port}` : socket}: ${cause instanceof Error ? cause.message : String(cause)}`,
    );
    return couldNot;
  }
  const at = app.server.address();
  const address =
    options.value['public-address'] || `http://127.0.0.1:${(at as AddressInfo | null)?.port ?? ''}`;
  if (mail !== null && works) {
    mailJob = openMailJob({
      db,
      reference,
      now: wallClock,
      mailer: smtpMailer(mail),
      address: mail.address || address,
      onError,
    });
    mailJob.start(lettersEveryMs);
  }
  const telling = (
    works
      ? tellFirstWeeks({ db, planJob, address, reference, stopping: stopping.signal })
      : Promise.resolve(
          console.log(
            `Open ${address} in a browser; work in the background is another program’s (the command work). Stop with Ctrl-C.`,
          ),
        )
  ).catch(onError);
  void telling.then(() => nightly?.run()).then(sweepNow);
  nightly?.start(nightlyLookMs);
  for (const household of clock.toPlan) planAgain(household);
  const purging = repeating(async () => void (await purgeHouseholds(db, wallClock())), console.error);
  if (works) {
    purging.start(purgeEveryMs);
    void purging.run();
  }
  await stopped;
  await purging.close();
  // No new work of the night begins; what runs ends as soon as its plan is cancelled.
  const nightEnds = nightly?.close();
  await planJob.close();
  await nightEnds;
  await telling;
  await close();
  return done;
}

/** No seed stays as it is; whose seed no key opens is told, with the way back. */
async function sealAndTell(db: Database, seedKeys: SeedKeys): Promise<void> {
  const { lost } = await sealSeeds({ db, seedKeys });
  if (lost.length > 0)
    console.error(
      `The key here does not open the second factor of ${lost.join(', ')}. Put the key back beside the file that sealed it, or let them sign in with a recovery code; for who has none left: npm run -s shelfward -- passphrase-reset NAME --without-second-factor`,
    );
}

interface Serving {
  readonly db: Database;
  readonly planJob: PlanJob;
  readonly address: string;
  readonly reference: ReferenceTables;
  readonly stopping: AbortSignal;
}

/** Prints the address at once, and the next four weeks as soon as there is a plan for them. */
async function tellFirstWeeks({ db, planJob, address, reference, stopping }: Serving): Promise<void> {
  const household = await firstHousehold(db);
  if (!household) {
    console.log(`Open ${address} to set up the household. Stop with Ctrl-C.`);
    return;
  }
  const { today } = momentIn(household.timeZone, wallClock);
  const before = await newestPlan(db, household.id);
  if (before === null || before.isOutOfDate || before.asOf !== today) {
    console.log(`Open ${address} now; planning the year of ${household.name} …`);
    await planJob.start(household.id);
    await planJob.planned(household.id);
  }
  if (stopping.aborted) return;
  // The first page asked for finds this picture made.
  const { loaded } = await yearPicture(db, household.id, today, reference);
  await printWeeks(db, household, planJob, { today, reference, loaded });
  console.log(`\nOpen ${address} in a browser. Stop with Ctrl-C.`);
}

async function printWeeks(
  db: Database,
  household: Household,
  planJob: PlanJob,
  {
    today,
    reference,
    loaded: { facts },
  }: Pick<Serving, 'reference'> & Pick<YearPicture, 'loaded'> & { readonly today: CalendarDate },
): Promise<void> {
  const state = await planJob.state(household.id);
  if (state.state === 'failed') console.log(state.words);
  const plan = await newestPlan(db, household.id);
  if (plan === null) return;
  console.log(`\nThe next four weeks of ${household.name}:\n`);
  const lines = dayLines(await batchDaysBy(plan.plan, db, household, today, reference));
  const reading = readingOf(household, plan.plan.asOf);
  const names = { ...facts, reading, measuresOf: measuresIn(reference) };
  for (const line of weeksAhead(plan.plan, names, { lines, reference })) console.log(line);
}
