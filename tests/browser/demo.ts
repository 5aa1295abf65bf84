import { once } from 'node:events';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { openPlanJob } from '../../server/jobs/plan-job.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { closePlanner, planYear, solveInBackground } from '../../server/solver/plan-year.ts';
import { asDate } from '../../shared/week.ts';

export interface Demo {
  readonly app: FastifyInstance;
  /** Where it listens: `http://127.0.0.1:51234`. */
  readonly address: string;
  /** From here on no plan is done before it is stopped. */
  plansWaitToBeStopped(): void;
  close(): Promise<void>;
}

/** In the season: peaches, tomatoes and pickles at once. */
const demoDay = asDate('2026-08-12');

/** The demo household in memory, planned, served on a free port of this machine. */
export const openDemo = async (on = demoDay): Promise<Demo> => {
  const db = await openDatabase(':memory:');
  const reference = loadReferenceTables();
  const householdId = await makeDemoHousehold(db, on);
  const at = Date.parse(`${on}T15:00:00Z`);
  const opened = performance.now();
  const now = () => at + Math.round(performance.now() - opened);
  let isWaiting = false;
  const planJob = openPlanJob({
    db,
    reference,
    now,
    planYear: async (year, options) => {
      const signal = options?.signal;
      if (isWaiting && signal !== undefined && !signal.aborted) await once(signal, 'abort');
      return planYear(year, options);
    },
    solve: solveInBackground,
  });
  planJob.start(householdId);
  await planJob.settled(householdId);
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
      await closePlanner();
      await app.close();
      await db.destroy();
    },
  };
};
