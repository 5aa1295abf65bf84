import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import {
  doDueJobs,
  type JobKind,
  type JobRule,
  type JobWork,
  type Lease,
  LeaseLost,
  LetGo,
  leaseMs,
} from '../../../server/jobs/job-table.ts';
import { bucketOf, jobRow, type Lane } from '../../../server/records/job-row.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';

// Several runners do the jobs of one database. None has a watch here: leases are renewed when the test says so.

const medlar = 'medlar-lane' as HouseholdId;
const quince = 'quince-yard' as HouseholdId;
const rowan = 'rowan-end' as HouseholdId;
const minute = 60_000;

let db: Database;
let at: number;
let did: string[];
beforeEach(async () => {
  db = await openDatabase(':memory:');
  at = Date.UTC(2026, 7, 17, 9);
  did = [];
});
afterEach(() => db.destroy());

let written = 0;
const write = (household: HouseholdId, kind: JobKind, lane: Lane = 'night', subject?: string) => {
  written += 1;
  return db
    .insertInto('job')
    .values(
      jobRow(
        {
          kind,
          subject: subject ?? `${household} ${written}`,
          household,
          lane,
          forOn: '2026-08-17' as CalendarDate,
          dueAt: at,
        },
        at,
      ),
    )
    .execute();
};

const everyLane: JobRule = {
  kinds: ['notices', 'replan', 'letter'],
  lanes: ['now', 'soon', 'night'],
  waitsMs: [minute, minute],
  failureWords: (cause) => (cause instanceof Error ? cause.message : String(cause)),
};

interface Runner {
  /** Does what is due, until there is none; or one job alone. */
  run(most?: number): Promise<void>;
  /** Renews the leases of what it does now. */
  renew(): Promise<void>;
}

function runner(work: JobWork = noteAlone, rule = everyLane): Runner {
  const renewals = new Set<() => Promise<void>>();
  return {
    run: (most = Number.POSITIVE_INFINITY) => {
      let begun = 0;
      return doDueJobs({
        db,
        now: () => at,
        rule,
        work: () => (subject, forOn, lease) => {
          begun += 1;
          return work(subject, forOn, lease);
        },
        goesOn: () => begun < most,
        keepUp: (renew) => {
          renewals.add(renew);
          return () => renewals.delete(renew);
        },
      });
    },
    renew: async () => {
      for (const renew of renewals) await renew();
    },
  };
}

const noteAlone: JobWork = async (subject) => {
  did.push(subject);
};

/** Work that goes on until it is let go, with the lease it is done under. */
function held(): {
  readonly work: JobWork;
  readonly begun: Promise<Lease>;
  readonly letGo: () => void;
} {
  let letGo = () => {};
  let begins = (_: Lease) => {};
  const isLetGo = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  const begun = new Promise<Lease>((resolve) => {
    begins = resolve;
  });
  return {
    begun,
    letGo,
    work: async (subject, _, lease) => {
      begins(lease);
      await isLetGo;
      did.push(subject);
    },
  };
}

const rows = () => db.selectFrom('job').selectAll().orderBy('seq').execute();

describe('the lanes', () => {
  test('go one before the other: what somebody waits for, what is due soon, the night’s', async () => {
    await write(quince, 'replan', 'night', 'of the night');
    await write(medlar, 'letter', 'soon', 'a letter');
    await write(rowan, 'replan', 'now', 'asked for');

    await runner().run();

    expect(did).toEqual(['asked for', 'a letter', 'of the night']);
  });

  test('of others are left alone by a runner that has some of them only', async () => {
    await write(quince, 'replan', 'night', 'of the night');
    await write(rowan, 'replan', 'now', 'asked for');

    await runner(noteAlone, { ...everyLane, lanes: ['now', 'soon'] }).run();

    expect(did).toEqual(['asked for']);
  });

  test('are asked anew after each job: a plan asked for waits behind one job of the night, not behind the night', async () => {
    for (const household of [medlar, quince, rowan]) await write(household, 'notices', 'night');
    const asking: JobWork = async (subject) => {
      if (did.length === 0) await write(medlar, 'replan', 'now', 'asked for');
      did.push(subject);
    };

    await runner(asking).run();

    expect(did).toHaveLength(4);
    expect(did[1]).toBe('asked for');
  });
});

describe('one household’s many jobs', () => {
  test('let the others in after each of them, whoever was served longest ago first', async () => {
    for (let one = 0; one < 5; one += 1) await write(quince, 'replan', 'now', `quince ${one}`);
    await write(medlar, 'replan', 'now', 'medlar');
    await write(rowan, 'replan', 'now', 'rowan');

    await runner().run();

    expect(did).toEqual(['quince 0', 'medlar', 'rowan', 'quince 1', 'quince 2', 'quince 3', 'quince 4']);
  });

  test('keep one that comes later waiting for the job under way at most', async () => {
    for (let one = 0; one < 500; one += 1) await write(quince, 'replan', 'now', `quince ${one}`);
    const late: JobWork = async (subject) => {
      at += 1;
      if (subject === 'quince 3') await write(medlar, 'replan', 'now', 'medlar');
      did.push(subject);
    };

    await runner(late).run(10);

    expect(did.indexOf('medlar')).toBe(did.indexOf('quince 3') + 1);
  });

  test('come after a household that was served longer ago, also when theirs were written first', async () => {
    await write(medlar, 'replan');
    await runner().run();
    at += minute;
    await write(quince, 'replan');
    await runner().run();
    at += minute;
    did = [];

    await write(quince, 'replan', 'now', 'quince');
    await write(medlar, 'replan', 'now', 'medlar');
    await runner().run();

    expect(did).toEqual(['medlar', 'quince']);
  });
});

describe('two runners', () => {
  test('do the work of two households side by side, and each job once', async () => {
    await write(quince, 'replan', 'night', 'quince');
    await write(medlar, 'replan', 'night', 'medlar');
    const first = held();
    const second = held();
    const runs = [runner(first.work).run(1)];
    await first.begun;
    runs.push(runner(second.work).run(1));
    await second.begun;

    first.letGo();
    second.letGo();
    await Promise.all(runs);
    await runner().run();

    expect(did.sort()).toEqual(['medlar', 'quince']);
  });

  test('never solve for one household at once, and one that solves keeps nobody from its letters', async () => {
    await write(quince, 'replan', 'night', 'this night');
    await write(quince, 'replan', 'now', 'asked for');
    await write(quince, 'letter', 'soon', 'a letter');
    const first = held();
    const running = runner(first.work).run(1);
    await first.begun;

    await runner().run();
    expect(did).toEqual(['a letter']);

    first.letGo();
    await running;
    await runner().run();
    expect(did).toEqual(['a letter', 'asked for', 'this night']);
  });

  test('that look in the same moment share what there is', async () => {
    const subjects: string[] = [];
    for (let one = 0; one < 40; one += 1) {
      const household = `household-${one % 8}` as HouseholdId;
      subjects.push(`${one}`);
      await write(household, one % 2 === 0 ? 'replan' : 'notices', 'night', `${one}`);
    }
    const solving = new Set<HouseholdId>();
    const overlaps: string[] = [];
    const work: JobWork = async (subject) => {
      const household = `household-${Number(subject) % 8}` as HouseholdId;
      const solves = Number(subject) % 2 === 0;
      if (solves && solving.has(household)) overlaps.push(subject);
      if (solves) solving.add(household);
      await new Promise((resolve) => setImmediate(resolve));
      did.push(subject);
      if (solves) solving.delete(household);
    };

    for (let turn = 0; turn < 3; turn += 1) await Promise.all([1, 2, 3, 4].map(() => runner(work).run()));

    expect(did.toSorted((one, other) => Number(one) - Number(other))).toEqual(subjects);
    expect(overlaps).toEqual([]);
  });
});

describe('a lease', () => {
  test('that is renewed keeps the job from every other runner, however long it takes', async () => {
    await write(quince, 'replan', 'night', 'long');
    const first = held();
    const one = runner(first.work);
    const running = one.run();
    await first.begun;

    for (let third = 0; third < 12; third += 1) {
      at += leaseMs / 3;
      await one.renew();
      await runner().run();
    }
    expect(did).toEqual([]);
    first.letGo();
    await running;

    expect(did).toEqual(['long']);
    expect((await rows())[0]).toMatchObject({ attempts: 1, lapses: 0, failure: null, leased_by: null });
  });

  test('that ran out gives the job to another; the first keeps nothing of it, and its end changes nothing', async () => {
    await write(quince, 'replan', 'night', 'twice');
    const first = held();
    const one = runner(async (subject, forOn, lease) => {
      await first.work(subject, forOn, lease);
      await db.transaction().execute(async (trx) => {
        await lease.hold(trx);
        did.push('kept by the first');
      });
    });
    const running = one.run();
    const lease = await first.begun;
    at += leaseMs + 1;

    const second = held();
    const again = runner(second.work).run();
    await second.begun;
    await one.renew();
    expect(lease.lost.aborted).toBe(true);
    first.letGo();
    await running;
    expect((await rows())[0]).toMatchObject({ finished_at: null, failure: null, lapses: 1 });

    second.letGo();
    await again;
    expect(did).toEqual(['twice', 'twice']);
    expect((await rows())[0]).toMatchObject({ finished_at: at, attempts: 1, failure: null });
  });

  test('that ran out while nobody looked is the runner’s still', async () => {
    await write(quince, 'replan', 'night', 'slept');
    const first = held();
    const one = runner(async (subject, forOn, lease) => {
      await first.work(subject, forOn, lease);
      await db.transaction().execute((trx) => lease.hold(trx));
    });
    const running = one.run();
    await first.begun;
    at += 10 * leaseMs;
    first.letGo();
    await running;

    expect((await rows())[0]).toMatchObject({ finished_at: at, attempts: 1, failure: null });
  });

  test('of who went away keeps no other job of that household waiting once it ran out', async () => {
    await write(quince, 'replan', 'night', 'left behind');
    const gone = held();
    void runner(gone.work).run();
    await gone.begun;
    await write(quince, 'replan', 'now', 'asked for');

    await runner().run();
    expect(did).toEqual([]);
    at += leaseMs + 1;
    await runner().run();

    expect(did).toEqual(['asked for', 'left behind']);
  });

  test('is given back by a runner that ends, and the job is taken up at once as if it had not been begun', async () => {
    await write(quince, 'replan', 'night', 'let go');

    await runner(async () => {
      throw new LetGo();
    }).run(1);
    expect((await rows())[0]).toMatchObject({
      attempts: 0,
      leased_by: null,
      finished_at: null,
      failure: null,
    });
    await runner().run();

    expect(did).toEqual(['let go']);
  });

  test('that runs out again and again, since the work ends the program, is given up with what to say', async () => {
    await write(quince, 'replan', 'night', 'deadly');
    for (let look = 0; look < 40; look += 1) {
      const dies = held();
      void runner(dies.work).run(1);
      await Promise.race([dies.begun, new Promise((resolve) => setTimeout(resolve, 50))]);
      at += leaseMs + 1;
    }

    await runner().run();
    const [job] = await rows();

    expect(did).toEqual([]);
    expect(job).toMatchObject({ finished_at: null, turn_at: null, leased_by: null });
    expect(job?.failure).toBe('The program ended each time this was done, so it is not done again.');
  });
});

test('a job that fails is tried again after its wait, and given up after the last', async () => {
  await write(quince, 'replan', 'night', 'fails');
  const fails = runner(async () => {
    did.push('tried');
    throw new Error('no plan today');
  });
  for (let look = 0; look < 10; look += 1) {
    await fails.run();
    at += minute;
  }

  expect(did).toHaveLength(3);
  expect((await rows())[0]).toMatchObject({ attempts: 3, turn_at: null, failure: 'no plan today' });
});

test('what a lost lease was about is no failure', async () => {
  await write(quince, 'replan', 'night', 'lost');
  const told: unknown[] = [];
  await doDueJobs({
    db,
    now: () => at,
    rule: everyLane,
    work: () => async () => {
      throw new LeaseLost();
    },
    goesOn: () => told.length === 0,
    onFailure: (cause) => told.push(cause),
  });

  expect(told).toEqual([]);
  expect((await rows())[0]).toMatchObject({ failure: null, finished_at: null });
});

test('every household has a bucket of its own, one of sixty-four, the same each time', () => {
  const used = new Set<number>();
  for (let one = 0; one < 2000; one += 1) used.add(bucketOf(`household-${one}` as HouseholdId));

  expect([...used].every((bucket) => Number.isInteger(bucket) && bucket >= 0 && bucket < 64)).toBe(true);
  expect(used.size).toBe(64);
  expect(bucketOf(quince)).toBe(bucketOf(quince));
});
