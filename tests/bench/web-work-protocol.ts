import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import { resolve } from 'node:path';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { connectThing } from '../../server/access/connected-things.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { machineFault } from '../../server/faults.ts';
import { planRequests } from '../../server/jobs/plan-requests.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import type { PlanYear } from '../../src/planning/make-plan.ts';
import { worked } from '../builders/outcomes.ts';

// Two servers without work and one program that works, on one PostgreSQL, while households take jars, ask for plans and have a
// night behind them: any of the three is killed at any moment, and so is the database; then what is there is held against what was
// acknowledged.

/** A plan that takes so long and solves nothing. */
export const planStub =
  (ms: number): PlanYear =>
  (year, options) =>
    new Promise((made) => {
      const { signal } = options ?? {};
      const plan = {
        asOf: year.asOf,
        horizonWeeks: year.weeks.length,
        objective: { total: 0 },
        bound: 0,
        gap: 0,
        solveSeconds: ms / 1000,
        packRounding: { cost: asCents(0), gap: 0 },
        rungs: [],
        weeks: [],
        items: [],
        gaveWay: [],
      };
      const cancel = () => {
        clearTimeout(timer);
        made({ outcome: 'cancelled', detail: 'called off', fallback: { plan, paths: [] } });
      };
      const timer = setTimeout(() => {
        signal?.removeEventListener('abort', cancel);
        const size = { rows: 0, columns: 0, integers: 0 };
        made({ outcome: 'planned', plan, paths: [], stoppedBy: 'gap', size, canningSeconds: 0 });
      }, ms);
      if (signal?.aborted) cancel();
      else signal?.addEventListener('abort', cancel, { once: true });
    });

const root = resolve(import.meta.dirname, '../..');
const pause = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));

export interface Part {
  readonly name: string;
  begin(): Promise<void>;
  kill(): Promise<void>;
  /** The process it is now. */
  pid(): number | undefined;
}

/** A process of the protocol, which may be killed and begun again. */
export function part(name: string, args: readonly string[]): Part {
  let child: ChildProcess | null = null;
  // Whatever ends the bench leaves none of them behind.
  process.once('exit', () => child?.kill('SIGKILL'));
  return {
    name,
    begin: async () => {
      // A database that is just coming up again refuses who comes first.
      for (let tries = 1; ; tries += 1) {
        const own = spawn(process.execPath, ['--import', 'tsx', 'tests/bench/web-work-process.ts', ...args], {
          cwd: root,
          stdio: ['ignore', 'pipe', tries < 5 ? 'ignore' : 'inherit'],
          // A session of its own, as a service has: some kernels share out the processor by session.
          detached: true,
        });
        child = own;
        const exit = once(own, 'exit');
        const first = await Promise.race([once(own.stdout as NodeJS.ReadableStream, 'data'), exit]);
        if (own.exitCode === null) return;
        if (tries >= 8) throw new Error(`${name} does not begin: ${String(first)}`);
        await pause(500);
      }
    },
    kill: async () => {
      if (child === null || child.exitCode !== null) return;
      const exit = once(child, 'exit');
      child.kill('SIGKILL');
      await exit;
    },
    pid: () => child?.pid,
  };
}

export async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  await once(server, 'close');
  return typeof address === 'object' && address !== null ? address.port : 0;
}

/** Households with nothing but a name; their night is past. */
export async function bareHouseholds(db: Database, prefix: string, howMany: number): Promise<HouseholdId[]> {
  const ids = Array.from({ length: howMany }, (_, at) => `${prefix}-${at}` as HouseholdId);
  for (let from = 0; from < ids.length; from += 500)
    await db
      .insertInto('household')
      .values(
        ids
          .slice(from, from + 500)
          .map((id) => ({ id, name: `Household ${id}`, time_zone: 'UTC', region: 'CO', created_at: 1 })),
      )
      .execute();
  return ids;
}

export interface Taker {
  readonly household: HouseholdId;
  readonly tokens: readonly string[];
}

/** One after another, since none may ask more than so often a minute. */
const thingsOfTaker = 20;

/** Households with more jars of jam than are ever taken, and things that may take them. */
export async function takers(db: Database, howMany: number): Promise<Taker[]> {
  const all: Taker[] = [];
  for (const household of await bareHouseholds(db, 'takes', howMany)) {
    const own = { household_id: household };
    await db
      .insertInto('item')
      .values({
        ...own,
        id: 'jam',
        name: 'Plum jam',
        kind: 'preserve',
        keeping: 'canned',
        family: 'stone-fruit',
        unit: 'jar',
        usual_jar: 'half-pint/regular',
      })
      .execute();
    await db
      .insertInto('lot')
      .values({
        ...own,
        id: 'jam-1',
        item_id: 'jam',
        batch_code: 'jam-1',
        jar_kind: 'half-pint/regular',
        origin: 'put-up',
        made_on: '2026-08-01',
        ready_from: '2026-08-01',
        best_quality_until: '2099-01-01',
        recorded_at: 0,
      })
      .execute();
    await db
      .insertInto('jar_event')
      .values({
        ...own,
        seq: 1,
        entry_id: 'made jam-1',
        lot_id: 'jam-1',
        kind: 'put up',
        units: 1_000_000,
        occurred_on: '2026-08-01',
        recorded_at: 0,
      })
      .execute();
    const tokens: string[] = [];
    for (let thing = 1; thing <= thingsOfTaker; thing += 1) {
      const said = { name: `Taker ${thing}`, may: 'read and take', endsOn: null } as const;
      const { token } = worked(await connectThing(db, household, said, { personId: null, now: Date.now() }));
      tokens.push(token);
    }
    all.push({ household, tokens });
  }
  return all;
}

/** Takes a household's jar of a number by a server; answers the status, null where no answer came. */
export async function takeBy(
  port: number,
  { tokens }: Taker,
  take: number,
  key: string,
): Promise<number | null> {
  const token = tokens[take % tokens.length];
  try {
    const answer = await fetch(`http://127.0.0.1:${port}/api/v1/takes`, {
      method: 'POST',
      headers: {
        authorization: `Bearer ${token}`,
        'content-type': 'application/json',
        'idempotency-key': key,
      },
      body: JSON.stringify({ item: 'jam' }),
      signal: AbortSignal.timeout(20_000),
    });
    await answer.arrayBuffer();
    return answer.status;
  } catch {
    return null;
  }
}

export interface WebWorkProtocol {
  readonly address: string;
  readonly seed: number;
  /** How often a server or the program that works is killed. */
  readonly kills: number;
  /** How often the database is, and what does so. */
  readonly restarts: number;
  readonly restart: () => void;
  /** Households that take, at once. */
  readonly takers: number;
  /** Households with a night behind them. */
  readonly nights: number;
  /** Households that ask for a plan again and again. */
  readonly askers: number;
  readonly planMs: number;
  /** Longest pause between two kills. */
  readonly pauseMs: number;
  readonly tell?: (line: string) => void;
}

export interface WebWorkReport {
  readonly takes: number;
  /** Of them, those that had no answer at first and were sent again. */
  readonly sentAgain: number;
  /** Acknowledged and not there, and there more than once. */
  readonly lost: number;
  readonly doubled: number;
  /** Answers other than the one to a take, by status. */
  readonly otherAnswers: Readonly<Record<string, number>>;
  readonly jobs: number;
  readonly jobsNotDone: number;
  /** Jobs somebody else had to take up, since their runner had gone. */
  readonly lapses: number;
  readonly plansAsked: number;
  /** Households whose night, or whose question, left more plans than were asked for, and fewer. */
  readonly keptTwice: number;
  readonly keptNever: number;
}

/** Goes on until it works: the database may be away. */
async function persistently<T>(work: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries += 1)
    try {
      return await work();
    } catch (cause) {
      if (machineFault(cause) === null && !/terminat|closed|reset/i.test(String(cause))) throw cause;
      if (tries > 600) throw cause;
      await pause(100);
    }
}

export async function killWebAndWork(protocol: WebWorkProtocol): Promise<WebWorkReport> {
  const { address, tell } = protocol;
  const draw = congruential32(protocol.seed);
  const drawn = (from: number, to: number): number => uniformInt(draw, from, to);
  const db = await openDatabase(address);
  const taking = await takers(db, protocol.takers);
  const nights = await bareHouseholds(db, 'night', protocol.nights);
  const asking = await bareHouseholds(db, 'asks', protocol.askers);
  // The night of those who take and ask is another bench's.
  await db
    .updateTable('household')
    .set({ noted_night: '2999-12-31' })
    .where('id', 'in', [...asking, ...taking.map(({ household }) => household)])
    .execute();
  const ports = [await freePort(), await freePort()];
  const parts = [
    ...ports.map((port, at) => part(`server ${at + 1}`, ['serve', address, String(port)])),
    part('work', ['work', address, 'now,soon,night', '2', String(protocol.planMs)]),
  ];
  for (const one of parts) await one.begin();

  let ended = false;
  const acknowledged = new Map<HouseholdId, number>();
  const otherAnswers: Record<string, number> = {};
  let sentAgain = 0;
  const oneTakes = async (taker: Taker, at: number): Promise<void> => {
    for (let take = 0; !ended; take += 1) {
      const key = `take-${at}-${take}-${taker.household}`;
      const server = (at + take) % 2;
      // One in five is sent to both, as a phone does that had no answer in time.
      const sent = take % 5 === 0 ? [server, 1 - server] : [server];
      let statuses = await Promise.all(sent.map((one) => takeBy(ports[one] as number, taker, take, key)));
      for (let again = 1; !statuses.includes(201); again += 1) {
        for (const status of statuses)
          if (status !== null) otherAnswers[status] = (otherAnswers[status] ?? 0) + 1;
        sentAgain += 1;
        await pause(50);
        statuses = [await takeBy(ports[(server + again) % 2] as number, taker, take, key)];
      }
      acknowledged.set(taker.household, (acknowledged.get(taker.household) ?? 0) + 1);
    }
  };
  const plansAsked = new Map<HouseholdId, number>();
  const requests = planRequests({ db, now: Date.now });
  const oneAsks = async (household: HouseholdId): Promise<void> => {
    while (!ended) {
      // A start that had no answer is asked for once more only where none is under way.
      await persistently(async () => {
        if ((await requests.state(household)).state === 'idle') await requests.start(household);
      });
      await persistently(() => requests.settled(household));
      plansAsked.set(household, (plansAsked.get(household) ?? 0) + 1);
    }
  };
  const life = [...taking.map(oneTakes), ...asking.map((household) => oneAsks(household))];

  const moments = [
    ...Array.from({ length: protocol.kills }, () => 'kill' as const),
    ...Array.from({ length: protocol.restarts }, () => 'restart' as const),
  ];
  while (moments.length > 0) {
    const [moment] = moments.splice(drawn(0, moments.length - 1), 1);
    await pause(drawn(0, protocol.pauseMs));
    if (moment === 'restart') {
      tell?.('the database is killed and begun again');
      protocol.restart();
      continue;
    }
    const one = parts[drawn(0, parts.length - 1)] as Part;
    tell?.(`${one.name} is killed`);
    await one.kill();
    await one.begin();
  }
  await pause(protocol.pauseMs);
  ended = true;
  await Promise.all(life);
  tell?.('all has been asked; what is left is done');
  const openJobs = () =>
    persistently(async () => {
      const { n } = await db
        .selectFrom('job')
        .select((row) => row.fn.countAll<number>().as('n'))
        .where('finished_at', 'is', null)
        .where('turn_at', 'is not', null)
        .executeTakeFirstOrThrow();
      return n;
    });
  while ((await openJobs()) > 0) await pause(200);
  for (const one of parts) await one.kill();

  const taken = await db
    .selectFrom('jar_event')
    .select((row) => ['household_id', row.fn.countAll<number>().as('n')])
    .where(
      'household_id',
      'in',
      taking.map(({ household }) => household),
    )
    .where('kind', '!=', 'put up')
    .groupBy('household_id')
    .execute();
  const takenBy = new Map(taken.map(({ household_id, n }) => [household_id as HouseholdId, n]));
  const off = taking.map(
    ({ household }) => (takenBy.get(household) ?? 0) - (acknowledged.get(household) ?? 0),
  );
  const jobs = await db
    .selectFrom('job')
    .select(['kind', 'finished_at', 'failure', 'lapses', 'household_id'])
    .execute();
  const plans = await db
    .selectFrom('plan')
    .select((row) => ['household_id', row.fn.countAll<number>().as('n')])
    .where('household_id', 'in', nights)
    .groupBy('household_id')
    .execute();
  const plansOf = new Map(plans.map(({ household_id, n }) => [household_id, n]));
  await db.destroy();
  const sum = (counts: Iterable<number>): number => [...counts].reduce((total, count) => total + count, 0);
  return {
    takes: sum(acknowledged.values()),
    sentAgain,
    lost: sum(off.map((each) => Math.max(0, -each))),
    doubled: sum(off.map((each) => Math.max(0, each))),
    otherAnswers,
    jobs: jobs.length,
    jobsNotDone: jobs.filter(({ finished_at, failure }) => finished_at === null || failure !== null).length,
    lapses: sum(jobs.map(({ lapses }) => lapses)),
    plansAsked: sum(plansAsked.values()),
    keptTwice: nights.filter((id) => (plansOf.get(id) ?? 0) > 1).length,
    keptNever: nights.filter((id) => (plansOf.get(id) ?? 0) === 0).length,
  };
}
