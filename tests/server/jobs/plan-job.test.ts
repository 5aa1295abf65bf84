import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { SQLite } from '../../../server/database/sqlite.ts';
import { openPlanJob, type PlanJob } from '../../../server/jobs/plan-job.ts';
import { newestPlan } from '../../../server/queries/year/plans.ts';
import { setAltitude } from '../../../server/records/household/kitchen.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { PlanningAnswer, PlanYear } from '../../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import type { AimSetting } from '../../../src/planning/simulation/aimed-plan.ts';
import { largeWords, noPlanInTimeWords, tooLargeWords } from '../../../src/planning/year/planner-size.ts';
import { worked } from '../../builders/outcomes.ts';
import { planCosting, planned } from '../../builders/plan-answers.ts';
import { type Cast, quinceYard, quinceYardHousehold, today } from '../../builders/quince-yard.ts';

const reference = loadReferenceTables();
const noon = Date.parse(`${today}T18:00:00Z`);

const failed: PlanningAnswer = {
  outcome: 'solver crashed',
  detail: 'out of memory',
  fallback: { plan: planCosting(1), paths: [] },
};

let cast: Cast;
let job: PlanJob;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});
afterEach(() => job.close());

let clock = noon;
const open = (planYear: PlanYear, onError?: (cause: unknown) => void, aim?: AimSetting): PlanJob => {
  clock = noon;
  // One at a time has the planner.
  void job?.close();
  job = openPlanJob({
    db: cast.db,
    reference,
    // Time passes between any two looks at the clock.
    now: () => {
      clock += 1;
      return clock;
    },
    planYear,
    solve: async () => ({ status: 'solver crashed', detail: 'no solver here' }),
    ...(onError === undefined ? {} : { onError }),
    ...(aim === undefined ? {} : { aim }),
  });
  return job;
};

const planOnce = async (planYear: PlanYear) => {
  await open(planYear).start(quinceYard);
  await job.settled(quinceYard);
};

describe('a plan made in the background', () => {
  test('is kept as a snapshot, current until a fact is written', async () => {
    await planOnce(async () => planned(12_345));

    const before = await newestPlan(cast.db, quinceYard);
    worked(await setAltitude(cast.writer(), { altitudeFt: 5300 }));
    const after = await newestPlan(cast.db, quinceYard);

    expect(before).toMatchObject({ asOf: today, isOutOfDate: false, outcome: 'planned' });
    expect(before?.plan.objective.total).toBe(12_345);
    expect(before?.year.items.map(({ id }) => id)).toContain('plum-jam');
    expect(after).toMatchObject({ id: before?.id, isOutOfDate: true });
  });

  test('is out of date at once when a fact was written while it was made', async () => {
    await planOnce(async () => {
      worked(await setAltitude(cast.writer(), { altitudeFt: 900 }));
      return planned(1);
    });

    expect((await newestPlan(cast.db, quinceYard))?.isOutOfDate).toBe(true);
  });

  test('shows how far it is, and a household has one at a time', async () => {
    let finish = (_: PlanningAnswer): void => {};
    let started = 0;
    open((_, options) => {
      started += 1;
      options?.onProgress?.({ incumbent: 500, bound: 450, gap: 0.1, seconds: 1 });
      return new Promise((resolve) => {
        finish = resolve;
      });
    });

    await job.start(quinceYard);
    await job.start(quinceYard);
    while (started === 0) await new Promise((resolve) => setTimeout(resolve, 5));
    let running = await job.state(quinceYard);
    while (running.state === 'running' && running.best === null) {
      await new Promise((resolve) => setTimeout(resolve, 5));
      running = await job.state(quinceYard);
    }
    finish(planned(500));
    await job.settled(quinceYard);

    expect(running).toMatchObject({ state: 'running', best: 500, bound: 450, gap: 0.1 });
    expect(started).toBe(1);
    expect(await job.state(quinceYard)).toEqual({ state: 'idle' });
  });

  test('that is cancelled leaves the last good plan as it was', async () => {
    await planOnce(async () => planned(1));
    let started = false;
    open((_, options) => {
      started = true;
      return new Promise((resolve) => {
        options?.signal?.addEventListener('abort', () => resolve({ ...failed, outcome: 'cancelled' }));
      });
    });

    await job.start(quinceYard);
    while (!started) await new Promise((resolve) => setTimeout(resolve, 5));
    await job.cancel(quinceYard);
    await job.settled(quinceYard);

    expect(await job.state(quinceYard)).toEqual({ state: 'idle' });
    expect((await newestPlan(cast.db, quinceYard))?.plan.objective.total).toBe(1);
  });
});

describe('a plan that fails', () => {
  test('leaves the last good one, and says so in words', async () => {
    await planOnce(async () => planned(777));

    await planOnce(async () => failed);

    expect(await job.state(quinceYard)).toMatchObject({
      state: 'failed',
      words: expect.stringContaining('The plan before it is still here'),
    });
    expect((await newestPlan(cast.db, quinceYard))?.plan.objective.total).toBe(777);
  });

  test('on a household without any plan keeps the one that needs no solver, named as such', async () => {
    await planOnce(async () => failed);

    expect(await newestPlan(cast.db, quinceYard)).toMatchObject({ outcome: 'solver crashed' });
  });

  test('by a fault of ours is reported to the log, not to the page', async () => {
    const causes: unknown[] = [];
    open(
      async () => {
        throw new Error('cannot read properties of undefined');
      },
      (cause) => causes.push(cause),
    );

    await job.start(quinceYard);
    await job.settled(quinceYard);

    expect(causes).toHaveLength(1);
    expect(await job.state(quinceYard)).toMatchObject({
      words: expect.not.stringContaining('undefined'),
    });
  });
});

describe('a plan that is kept', () => {
  const fewYears: AimSetting = { years: 20, rounds: 1 };
  const newest = () => newestPlan(cast.db, quinceYard);

  test('is played against sampled years, and what was reached is kept in its place', async () => {
    let cents = 0;
    const job = open(
      async () => {
        cents += 100;
        return planned(cents);
      },
      undefined,
      fewYears,
    );
    await job.start(quinceYard);
    await job.planned(quinceYard);
    const first = await newest();
    await job.settled(quinceYard);
    const last = await newest();

    expect(first).toMatchObject({ plan: { objective: { total: 100 } }, reached: null });
    expect(last?.reached?.years).toBe(20);
    expect(last?.reached?.items.map(({ item }) => item)).not.toContain('oats');
    expect(await cast.db.selectFrom('plan').select('id').execute()).toHaveLength(1);
    expect(await job.state(quinceYard)).toEqual({ state: 'idle' });
  });

  test('is there to be read while it is checked, and a new start lets the check go', async () => {
    // Long enough that the check is still on when it is let go.
    const job = open(async () => planned(1), undefined, { years: 1_000_000, rounds: 0 });
    await job.start(quinceYard);
    await job.planned(quinceYard);
    while ((await job.state(quinceYard)).state !== 'checking')
      await new Promise((resolve) => setTimeout(resolve, 5));
    const first = await newest();
    await job.start(quinceYard);
    await job.planned(quinceYard);
    const second = await newest();
    await job.cancel(quinceYard);
    await job.settled(quinceYard);

    expect(first?.plan.objective.total).toBe(1);
    expect(second?.id).not.toBe(first?.id);
    expect(await job.state(quinceYard)).toEqual({ state: 'idle' });
  });
});

test('of many plans of one day the newest three and the first are kept', async () => {
  open(async () => planned(1));
  for (let made = 0; made < 23; made += 1) {
    await job.start(quinceYard);
    await job.settled(quinceYard);
  }

  expect(await cast.db.selectFrom('plan').select('id').execute()).toHaveLength(4);
});

test('a kept plan is never changed', async () => {
  await planOnce(async () => planned(1));

  // Where rows have an owner's rules, the role that serves may not even try.
  await expect(cast.db.updateTable('plan').set({ facts_version: 99 }).execute()).rejects.toThrow(
    /a plan is a snapshot|permission denied for table plan/,
  );
});

describe('planning that cannot be done', () => {
  test('on a full disk is said as such', async () => {
    await planOnce(() => Promise.reject(new SQLite.SqliteError('database or disk is full', 'SQLITE_FULL')));

    expect(await job.state(quinceYard)).toMatchObject({
      state: 'failed',
      words: expect.stringMatching(/no room on the disk/),
    });
  });

  test('because a household is larger than can be planned is said before anything is begun', () => {
    const year = (items: number, recipes: number) =>
      ({ items: Array(items).fill({}), recipes: Array(recipes).fill({}) }) as unknown as PlanningYear;

    expect(tooLargeWords(year(494, 312))).toMatch(/494 things and 312 recipes.*no plan was begun/);
    expect(tooLargeWords(year(280, 160))).toBeNull();
    expect(largeWords(year(280, 160))).toBeNull();
    expect(largeWords(year(400, 250))).toMatch(/it may take minutes/);
    expect(noPlanInTimeWords(year(400, 250))).not.toMatch(/pinned/);
  });
});
