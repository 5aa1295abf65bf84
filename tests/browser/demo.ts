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
  const planJob = openPlanJob({ db, reference, now, planYear, solve: solveInBackground });
  planJob.start(householdId);
  await planJob.settled(householdId);
  const app = await buildApp({ db, reference, now, planJob });
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  return {
    app,
    address,
    close: async () => {
      await planJob.close();
      await closePlanner();
      await app.close();
      await db.destroy();
    },
  };
};
