import { once } from 'node:events';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { openPlanJob } from '../../server/jobs/plan-job.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { planYear, solveInBackground } from '../../server/solver/plan-year.ts';
import { asDate, type CalendarDate } from '../../shared/week.ts';

export interface Demo {
  readonly app: FastifyInstance;
  /** Where it listens: `http://127.0.0.1:51234`. */
  readonly address: string;
  /** From here on no plan is done before it is stopped. */
  plansWaitToBeStopped(): void;
  close(): Promise<void>;
}

let opened = 0;

/** In the season: peaches, tomatoes and pickles at once. */
const demoDay = asDate('2026-08-12');

const reference = loadReferenceTables();

/** The demo household of a day, planned once in this process: each server that is opened begins with a copy of the file. */
const plannedFiles = new Map<CalendarDate, Promise<string>>();

const plannedFile = (on: CalendarDate): Promise<string> => {
  const known = plannedFiles.get(on) ?? planDemo(on);
  plannedFiles.set(on, known);
  return known;
};

const folder = mkdtempSync(join(tmpdir(), 'demo-'));
process.once('exit', () => rmSync(folder, { recursive: true, force: true }));

/** A busy machine takes the time it takes, so that its plan is that of an idle one: the pages are looked at here. */
const patiently: typeof planYear = (year, options) => planYear(year, { ...options, secondsLimit: 1200 });

async function planDemo(on: CalendarDate): Promise<string> {
  const file = join(folder, `planned-${on}.db`);
  const db = await openDatabase(file);
  const householdId = await makeDemoHousehold(db, on);
  const planJob = openPlanJob({
    db,
    reference,
    now: () => Date.parse(`${on}T15:00:00Z`),
    planYear: patiently,
    solve: solveInBackground,
  });
  await planJob.start(householdId);
  await planJob.settled(householdId);
  await planJob.close();
  await db.destroy();
  return file;
}

/** The demo household with its year planned, served on a free port of this machine. */
export const openDemo = async (on = demoDay): Promise<Demo> => {
  opened += 1;
  const file = join(folder, `demo-${opened}.db`);
  copyFileSync(await plannedFile(on), file);
  const db = await openDatabase(file);
  const at = Date.parse(`${on}T15:00:00Z`);
  const begun = performance.now();
  const now = () => at + Math.round(performance.now() - begun);
  let isWaiting = false;
  const planJob = openPlanJob({
    db,
    reference,
    now,
    planYear: async (year, options) => {
      const signal = options?.signal;
      if (isWaiting && signal !== undefined && !signal.aborted) await once(signal, 'abort');
      return patiently(year, options);
    },
    solve: solveInBackground,
  });
  const app = await buildApp({ db, reference, now, planJob });
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  return {
    app,
    address,
    plansWaitToBeStopped: () => {
      isWaiting = true;
    },
    close: async () => {
      await planJob.close();
      await app.close();
      await db.destroy();
    },
  };
};
