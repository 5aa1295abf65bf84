import { buildApp } from '../../server/app.ts';
import { putBehindThePages } from '../../server/child-processes/behind-the-pages.ts';
import { wallClock } from '../../server/clock.ts';
import { openDatabase } from '../../server/database/database.ts';
import { openPlanJobElsewhere } from '../../server/jobs/plan-job.ts';
import { openWork } from '../../server/jobs/work.ts';
import type { Lane } from '../../server/records/job-row.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { planStub } from './web-work-protocol.ts';

// One of the processes of the protocol: `serve` pages on a port, or `work`; as the commands of those names do, but with as many
// requests a minute as come, and with plans that take so long and solve nothing.

const [part, address = '', ...said] = process.argv.slice(2);
const db = await openDatabase(address);
const reference = loadReferenceTables();
const onError = (cause: unknown): void => {
  if (process.env.TELLS === 'yes') console.error(cause);
};

if (part === 'serve') {
  const app = await buildApp({
    db,
    reference,
    now: wallClock,
    planJob: openPlanJobElsewhere({ db, now: wallClock }),
    requestsPerMinute: 100_000_000,
  });
  await app.listen({ host: '127.0.0.1', port: Number(said[0]) });
} else {
  putBehindThePages(process.pid);
  const [lanes = '', solvers = '', planMs = ''] = said;
  openWork({
    db,
    file: address,
    reference,
    now: wallClock,
    planYear: planStub(Number(planMs)),
    solve: async () => ({ status: 'solver crashed', detail: 'no solver here' }),
    lanes: lanes.split(',') as Lane[],
    solvers: Number(solvers),
    mail: null,
    onError,
  }).start();
  setInterval(() => {}, 1_000_000);
}
console.log('ready');
