import { parseArgs } from 'node:util';
import { sql } from 'kysely';
import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { doDueJobs } from '../../server/jobs/job-table.ts';
import { openMailJob } from '../../server/jobs/mail-job.ts';
import { openNightly } from '../../server/jobs/nightly.ts';
import { jobRow } from '../../server/records/job-row.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';

// npm run -s bench:households -- [--households 10000] [--jobs 1800000]
// What a page, a minute with nothing to do, a night written down and the taking of a job cost in a file of one household, and in
// one of many with a long history of jobs: CPU milliseconds, the least of several tries;
// the file is in memory, so that no disk is waited for.

const { values: options } = parseArgs({
  options: {
    households: { type: 'string', default: '10000' },
    jobs: { type: 'string', default: '1800000' },
  },
});
const noon = Date.UTC(2026, 7, 17, 18);
const day = 24 * 60 * 60_000;
const reference = loadReferenceTables();

const db = await openDatabase(':memory:');
let now = noon;
const app = await buildApp({ db, reference, now: () => now, requestsPerMinute: 1e9 });
await app.ready();
const household = await makeDemoHousehold(db, asDate('2026-08-17'));
const nothing = async () => {};
const nightly = openNightly({
  db,
  now: () => now,
  work: { backup: nothing, notices: nothing, replan: nothing },
});
const mail = openMailJob({
  db,
  reference,
  now: () => now,
  mailer: { send: nothing, close: () => {} },
  address: 'https://pantry.example',
});

/** CPU milliseconds, the least of as many tries. */
async function leastOf(tries: number, work: () => Promise<unknown>): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < tries; at += 1) {
    const before = process.cpuUsage();
    await work();
    const { user, system } = process.cpuUsage(before);
    least = Math.min(least, (user + system) / 1000);
  }
  return least;
}

const minute = async () => {
  await nightly.run();
  await mail.run();
};
/** One job due among all others, taken and done. */
const oneJob = async () => {
  now += 1;
  await db
    .insertInto('job')
    .values(
      jobRow(
        {
          kind: 'replan',
          subject: `one-${now}`,
          household: household as HouseholdId,
          lane: 'night',
          forOn: asDate('2026-08-17'),
          dueAt: noon,
        },
        now,
      ),
    )
    .execute();
  let done = 0;
  await doDueJobs({
    db,
    now: () => now,
    rule: { kinds: ['notices', 'replan'], lanes: ['night'], waitsMs: [60_000], failureWords: String },
    work: () => async () => {
      done += 1;
    },
    goesOn: () => done === 0,
  });
};

async function measure(): Promise<Readonly<Record<string, number>>> {
  await minute();
  return {
    'page (/shelf, warm)': await leastOf(15, () =>
      app.inject({ method: 'GET', url: '/shelf', cookies: { household } }),
    ),
    'minute with nothing to do': await leastOf(15, minute),
    'a job taken and done': await leastOf(15, oneJob),
    'is it ready (/ready)': await leastOf(5, () => app.inject({ method: 'GET', url: '/ready' })),
  };
}

const alone = await measure();

await sql`WITH RECURSIVE many (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM many WHERE n < ${Number(options.households)})
  INSERT INTO household (id, name, time_zone, region, created_at, is_open)
  SELECT 'other-' || n, 'Household ' || n, CASE n % 3 WHEN 0 THEN 'America/Denver' WHEN 1 THEN 'America/Chicago' ELSE 'America/New_York' END, 'CO', n, 0 FROM many`.execute(
  db,
);
await sql`INSERT INTO person (id, name, name_key, passphrase_hash, created_at) SELECT id, 'owner of ' || id, 'owner of ' || id, 'none', 0 FROM household WHERE is_open = 0`.execute(
  db,
);
await sql`INSERT INTO membership (household_id, person_id, role, since_at) SELECT id, id, 'owner', 0 FROM household WHERE is_open = 0`.execute(
  db,
);
const nights = Math.ceil(Number(options.jobs) / (2 * Number(options.households)));
for (const kind of ['notices', 'replan'])
  await sql`WITH RECURSIVE nights (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM nights WHERE n < ${nights})
    INSERT INTO job (kind, subject, household_id, bucket, for_on, due_at, attempts, finished_at, served_at)
    SELECT ${kind}, household.id, household.id, household.created_at % 64, date(${(noon - day) / 1000} - n * 86400, 'unixepoch'), ${noon - day} - n * ${day}, 1, ${noon - day} - n * ${day}, ${noon - day} - n * ${day}
    FROM nights JOIN household ON is_open = 0`.execute(db);
const { n: jobs } = await db
  .selectFrom('job')
  .select((row) => row.fn.countAll<number>().as('n'))
  .executeTakeFirstOrThrow();
const firstNight = await leastOf(1, minute);
const amongMany = await measure();

console.log(`CPU-ms                        1 household   ${options.households} households and ${jobs} jobs`);
for (const [what, one] of Object.entries(alone))
  console.log(
    `${what.padEnd(28)}${one.toFixed(2).padStart(13)}${(amongMany[what] ?? Number.NaN).toFixed(2).padStart(14)}`,
  );
console.log(
  `the night of all of them, written down and done without its work: ${Math.round(firstNight)} CPU-ms`,
);
await app.close();
await db.destroy();
