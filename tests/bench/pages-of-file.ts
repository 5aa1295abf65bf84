import type { AddressInfo } from 'node:net';
import { buildApp } from '../../server/app.ts';
import { wallClock } from '../../server/clock.ts';
import { openDatabase } from '../../server/database/database.ts';
import { openPlanJob } from '../../server/jobs/plan-job.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { closePlanner, planYear, solveInBackground } from '../../server/solver/plan-year.ts';
import { households } from '../builders/all-households.ts';

// The pages of one file on a free port of this machine: what the kill and phone protocols start and stop. Without a planner; or,
// with `planning`, one that makes the year of the file's demo household again and again.

const [file = '', mode = ''] = process.argv.slice(2);
const db = await openDatabase(file);
const reference = loadReferenceTables();
const planJob = openPlanJob({
  db,
  reference,
  now: wallClock,
  planYear,
  solve: solveInBackground,
  onError: (cause) => console.error(cause),
});
const app = await buildApp({ db, reference, now: wallClock, planJob, requestsPerMinute: 100_000_000 });
await app.listen({ host: '127.0.0.1', port: 0 });
console.log(`port ${(app.server.address() as AddressInfo).port}`);

let ended = false;
let plans = 0;
const planAgain = async (): Promise<void> => {
  const demo = (await households(db)).find(({ isDemo }) => isDemo);
  while (!ended && demo !== undefined) {
    await planJob.start(demo.id);
    await planJob.settled(demo.id);
    if (!ended) plans += 1;
  }
};
const planning = mode === 'planning' ? planAgain() : Promise.resolve();
process.once('SIGTERM', async () => {
  ended = true;
  await planJob.close();
  await planning;
  await closePlanner();
  await app.close();
  await db.destroy();
  console.log(`plans ${plans}`);
});
