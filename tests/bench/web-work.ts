import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { parseArgs } from 'node:util';
import { sql } from 'kysely';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { openPostgres } from '../../server/database/postgres.ts';
import { planRequests } from '../../server/jobs/plan-requests.ts';
import { lotsOf } from '../../server/queries/shelf/shelf.ts';
import { jobRow } from '../../server/records/job-row.ts';
import { take } from '../../server/records/shelf/take.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { oneOf } from '../../shared/schemas/shelf/take.ts';
import { asDate } from '../../shared/week.ts';
import { worked } from '../builders/outcomes.ts';
import { type Cluster, programsOfPostgres, startCluster } from '../postgres/cluster.ts';
import { cpuSince } from './cpu-of.ts';
import { inventedHouseholds } from './invented-households.ts';
import {
  bareHouseholds,
  freePort,
  killWebAndWork,
  part,
  type Taker,
  takeBy,
  takers,
} from './web-work-protocol.ts';

// npm run -s bench:web-work -- [--kills 100] [--restarts 10] [--seed 1] [--night 10000] [--real 50] [--seconds 30] [--parts kills,takes,asks,night,real]
// Two servers without work and one program that works, on one PostgreSQL that has on the disk what it acknowledged. Plans are
// stubbed: they take their time and solve nothing; but for those of a night of real households, which are made as for anybody.

const { values: said } = parseArgs({
  options: {
    kills: { type: 'string', default: '100' },
    restarts: { type: 'string', default: '10' },
    seed: { type: 'string', default: '1' },
    night: { type: 'string', default: '10000' },
    real: { type: 'string', default: '50' },
    seconds: { type: 'string', default: '30' },
    parts: { type: 'string', default: 'kills,takes,asks,night,real' },
  },
});

const pause = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));
const share = (all: readonly number[], of: number): number =>
  all.toSorted((one, other) => one - other)[Math.min(all.length - 1, Math.floor(of * all.length))] ??
  Number.NaN;
const whole = (ms: number): string => `${Math.round(ms)} ms`;

async function newDatabase(cluster: Cluster, name: string): Promise<string> {
  const any = await openPostgres(cluster.address('postgres'), { getMigrations: async () => ({}) });
  await sql.raw(`CREATE DATABASE ${name}`).execute(any);
  await any.destroy();
  return cluster.address(name);
}

async function kills(cluster: Cluster): Promise<void> {
  const address = await newDatabase(cluster, 'kills');
  const report = await killWebAndWork({
    address,
    seed: Number(said.seed),
    kills: Number(said.kills),
    restarts: Number(said.restarts),
    restart: () => cluster.crash(),
    takers: 8,
    nights: 60,
    askers: 4,
    planMs: 1500,
    pauseMs: 2500,
  });
  console.log(`${said.kills} kills and ${said.restarts} crashes of the database: ${JSON.stringify(report)}`);
}

/** When a plan that is asked for is begun, ms. */
async function begunAfter(db: Database, household: HouseholdId): Promise<number> {
  const requests = planRequests({ db, now: Date.now });
  const from = performance.now();
  await requests.start(household);
  for (;;) {
    const job = await db
      .selectFrom('job')
      .select('served_at')
      .where('household_id', '=', household)
      .where('kind', '=', 'plan')
      .orderBy('seq', 'desc')
      .limit(1)
      .executeTakeFirst();
    if (job?.served_at != null) break;
    await pause(10);
  }
  const waited = performance.now() - from;
  await requests.settled(household);
  return waited;
}

const waitingAtNight = async (db: Database): Promise<number> =>
  (
    await db
      .selectFrom('job')
      .select((row) => row.fn.countAll<number>().as('n'))
      .where('lane', '=', 2)
      .where('finished_at', 'is', null)
      .executeTakeFirstOrThrow()
  ).n;

const takersAtOnce = 40;
/** Programs that have just begun are slower than they will be. */
const warmSeconds = 5;

/** How long each take took, ms. */
async function takeFor(
  seconds: number,
  ports: readonly number[],
  taking: readonly Taker[],
  when: string,
): Promise<readonly number[]> {
  const took: number[] = [];
  const until = performance.now() + 1000 * seconds;
  await Promise.all(
    Array.from({ length: takersAtOnce }, async (_, at) => {
      for (let take = 0; performance.now() < until; take += 1) {
        const from = performance.now();
        const status = await takeBy(
          ports[at % ports.length] as number,
          taking[at % taking.length] as Taker,
          // Those who take of one household do so by different things.
          2 * take + Math.floor(at / taking.length),
          `take-${at}-${take}-in-the-night-${when.replace(' ', '-')}`,
        );
        if (status !== 201) throw new Error(`a take was answered with ${status}`);
        took.push(performance.now() - from);
      }
    }),
  );
  return took;
}

async function whileANightRuns(cluster: Cluster): Promise<void> {
  const address = await newDatabase(cluster, 'by_night');
  const db = await openDatabase(address);
  const taking = await takers(db, 20);
  const asking = await bareHouseholds(db, 'asks', 1);
  await db
    .updateTable('household')
    .set({ noted_night: '2999-12-31' })
    .where('id', 'in', [...asking, ...taking.map(({ household }) => household)])
    .execute();
  await bareHouseholds(db, 'night', 2000);
  const ports = [await freePort(), await freePort()];
  const parts = [
    ...ports.map((port, at) => part(`server ${at}`, ['serve', address, String(port)])),
    part('work', ['work', address, 'now,soon,night', '2', '300']),
  ];
  for (const one of parts) await one.begin();
  while ((await waitingAtNight(db)) < 1000) await pause(50);
  const begun: number[] = [];
  for (let one = 0; one < 20; one += 1) begun.push(await begunAfter(db, asking[0] as HouseholdId));
  console.log(
    `a plan asked for while ${await waitingAtNight(db)} jobs of the night wait is begun after ${whole(share(begun, 0.5))} in the middle, ${whole(Math.max(...begun))} at most, of ${begun.length}`,
  );

  await takeFor(warmSeconds, ports, taking, 'at first');
  const before = await waitingAtNight(db);
  const used = cpuSince({
    'two servers': () => parts.slice(0, 2).map((one) => one.pid()),
    work: () => [parts[2]?.pid()],
    database: () => [cluster.pid()],
    takers: () => [process.pid],
  });
  const took = await takeFor(Number(said.seconds), ports, taking, 'then');
  const cpu = used();
  const after = await waitingAtNight(db);
  console.log(
    `${takersAtOnce} takers while ${after} jobs of the night wait and ${before - after} are done: ${Math.round(took.length / Number(said.seconds))} takes a second, ${whole(share(took, 0.5))} in the middle, ${whole(share(took, 0.99))} for 99 of 100`,
  );
  for (const [name, { ms, waitedMs }] of Object.entries(cpu))
    console.log(
      `  CPU of ${name}: ${whole(ms)}, ${(ms / took.length).toFixed(2)} ms a take; ready and without a processor for ${whole(waitedMs)}`,
    );
  for (const one of parts) await one.kill();
  await db.destroy();
}

/** One household asks 500 times; another asks now and then. */
async function manyAsks(cluster: Cluster): Promise<void> {
  const address = await newDatabase(cluster, 'asks');
  const db = await openDatabase(address);
  const [many, few] = (await bareHouseholds(db, 'asks', 2)) as [HouseholdId, HouseholdId];
  await db.updateTable('household').set({ noted_night: '2999-12-31' }).execute();
  const solveMs = 1000;
  const work = part('work', ['work', address, 'now', '1', String(solveMs)]);
  const at = Date.now();
  for (let one = 0; one < 500; one += 1)
    await db
      .insertInto('job')
      .values(
        jobRow(
          {
            kind: 'plan',
            subject: `${many} ${one}`,
            household: many,
            lane: 'now',
            forOn: asDate('2026-08-17'),
            dueAt: at,
          },
          at,
        ),
      )
      .execute();
  await work.begin();
  const begun: number[] = [];
  for (let one = 0; one < 10; one += 1) begun.push(await begunAfter(db, few));
  console.log(
    `while another household has 500 plans waiting, each of ${whole(solveMs)}, one is begun after ${whole(share(begun, 0.5))} in the middle, ${whole(Math.max(...begun))} at most, of ${begun.length}`,
  );
  await work.kill();
  await db.destroy();
}

async function aNight(cluster: Cluster): Promise<void> {
  const address = await newDatabase(cluster, 'night');
  const db = await openDatabase(address);
  const howMany = Number(said.night);
  await bareHouseholds(db, 'night', howMany);
  const parts = [1, 2].map((one) => part(`work ${one}`, ['work', address, 'night', '1', '0']));
  const from = performance.now();
  await Promise.all(parts.map((one) => one.begin()));
  while ((await doneAtNight(db)) < 2 * howMany) await pause(500);
  const minutes = (performance.now() - from) / 60_000;
  const { failed, lapses } = await outcomesOf(db);
  const { n: plans } = await db
    .selectFrom('plan')
    .select((row) => row.fn.countAll<number>().as('n'))
    .executeTakeFirstOrThrow();
  console.log(
    `a night of ${howMany} households, plans stubbed, by two programs that work: ${minutes.toFixed(1)} minutes, ${((10_000 / howMany) * minutes).toFixed(1)} for 10,000; ${plans} plans, ${failed} failures, ${lapses} leases ran out`,
  );
  for (const one of parts) await one.kill();
  await db.destroy();
}

/** What a night costs of households with a year in their books, whose plans are made and checked as anybody's. */
async function aRealNight(cluster: Cluster): Promise<void> {
  const address = await newDatabase(cluster, 'real_night');
  const db = await openDatabase(address);
  const howMany = Number(said.real);
  await inventedHouseholds(db, howMany, asDate(new Date().toISOString().slice(0, 10)));
  const cores = 2;
  const work = spawn(
    process.execPath,
    [
      '--import',
      'tsx',
      'server/main.ts',
      'work',
      '--database',
      address,
      '--lanes',
      'night',
      '--solvers',
      `${cores}`,
    ],
    { stdio: ['ignore', 'ignore', 'inherit'], detached: true },
  );
  process.once('exit', () => work.kill('SIGKILL'));
  for (const night of ['their first, without a plan', 'the next, after each took a jar'] as const) {
    if (night !== 'their first, without a plan') {
      await takeOneEach(db);
      await db.deleteFrom('job').execute();
      await db.updateTable('household').set({ noted_night: null }).execute();
    }
    const from = performance.now();
    const used = cpuSince({ work: () => [work.pid], database: () => [cluster.pid()] });
    while ((await doneAtNight(db)) < 2 * howMany) await pause(500);
    const seconds = (performance.now() - from) / 1000;
    const cost = used();
    const { failed, lapses } = await outcomesOf(db);
    console.log(
      `a night of ${howMany} households with a year in their books, ${night}, on ${cores} cores: ${seconds.toFixed(0)} s, so ${((10_000 / howMany) * (seconds / 3600)).toFixed(1)} hours for 10,000; a household ${(cost.work.ms / howMany / 1000).toFixed(1)} CPU-s of work (waited ${(cost.work.waitedMs / howMany / 1000).toFixed(1)} s for a core) and ${(cost.database.ms / howMany / 1000).toFixed(2)} of the database; ${failed} failures, ${lapses} leases ran out`,
    );
  }
  const ended = once(work, 'exit');
  work.kill('SIGTERM');
  await ended;
  await db.destroy();
}

/** One of what each household has, as it is taken by the button. */
async function takeOneEach(db: Database): Promise<void> {
  const today = asDate(new Date().toISOString().slice(0, 10));
  for (const { id } of await db.selectFrom('household').select('id').execute()) {
    const householdId = id as HouseholdId;
    const [lot] = (await lotsOf(db, householdId)).filter(
      ({ unitsLeft, readyFrom }) => unitsLeft >= 1 && readyFrom <= today,
    );
    if (lot !== undefined)
      worked(await take({ db, householdId, key: 'taken by day', at: Date.now(), today }, oneOf(lot.itemId)));
  }
}

const doneAtNight = async (db: Database): Promise<number> =>
  (
    await db
      .selectFrom('job')
      .select((row) => row.fn.countAll<number>().as('n'))
      .where('lane', '=', 2)
      .where('finished_at', 'is not', null)
      .executeTakeFirstOrThrow()
  ).n;

const outcomesOf = (db: Database): Promise<{ readonly failed: number; readonly lapses: number }> =>
  db
    .selectFrom('job')
    .select((row) => [
      row.fn.count<number>('failure').as('failed'),
      row.fn.sum<number>('lapses').as('lapses'),
    ])
    .executeTakeFirstOrThrow();

const programs = programsOfPostgres();
if (programs === null) console.log('There is no PostgreSQL on this machine: nothing was run.');
else {
  const cluster = startCluster(programs, true);
  // Whoever ends it early leaves nothing behind either.
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.once(signal, () => {
      cluster.stop();
      process.exit(1);
    });
  try {
    const wanted = said.parts.split(',');
    if (wanted.includes('kills')) await kills(cluster);
    if (wanted.includes('takes')) await whileANightRuns(cluster);
    if (wanted.includes('asks')) await manyAsks(cluster);
    if (wanted.includes('night')) await aNight(cluster);
    if (wanted.includes('real')) await aRealNight(cluster);
  } finally {
    cluster.stop();
  }
}
