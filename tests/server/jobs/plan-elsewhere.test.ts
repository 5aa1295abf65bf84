import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { leaseMs } from '../../../server/jobs/job-table.ts';
import { openPlanJob, openPlanJobElsewhere, planRunners } from '../../../server/jobs/plan-job.ts';
import { openPlanMaker, type PlanMakerParts } from '../../../server/jobs/plan-maker.ts';
import { AskerLeft, PlannerBusy } from '../../../server/jobs/questions.ts';
import { newestPlan } from '../../../server/queries/year/plans.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { RecipeId } from '../../../shared/ids.ts';
import { asWeek } from '../../../shared/week.ts';
import type { PlanningAnswer, PlanYear } from '../../../src/planning/make-plan.ts';
import type { AimSetting } from '../../../src/planning/simulation/aimed-plan.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import { planCosting, planned } from '../../builders/plan-answers.ts';
import { type Cast, quinceYard, quinceYardHousehold, today } from '../../builders/quince-yard.ts';

// Pages are served by one process, and another works for them: they meet in the table of jobs alone.

const reference = loadReferenceTables();
const noon = Date.parse(`${today}T18:00:00Z`);

const stopped: PlanningAnswer = {
  outcome: 'cancelled',
  detail: '',
  fallback: { plan: planCosting(1), paths: [] },
};

let cast: Cast;
let at: number;
const opened: { close(): Promise<void> }[] = [];
beforeEach(async () => {
  cast = await quinceYardHousehold();
  at = noon;
});
afterEach(async () => {
  for (const one of opened.splice(0)) await one.close();
  await cast.db.destroy();
});

const partsOf = (planYear: PlanYear, aim?: AimSetting, now = () => at): PlanMakerParts => ({
  aim,
  db: cast.db,
  reference,
  now,
  planYear,
  solve: async () => ({ status: 'solver crashed', detail: 'no solver here' }),
  saidEveryMs: 5,
});

/** A process that works, and one that serves pages. */
const worker = (planYear: PlanYear, aim?: AimSetting, now = () => at) => {
  const parts = partsOf(planYear, aim, now);
  const maker = openPlanMaker(parts);
  const runners = planRunners({ ...parts, maker, answers: true, atOnce: 4 });
  const both = {
    wake: runners.wake,
    close: async () => {
      const ending = runners.close();
      await maker.close();
      await ending;
    },
  };
  opened.push(both);
  return both;
};
const pages = () => openPlanJobElsewhere({ db: cast.db, now: () => at });

/** The clock of a machine that stands still: by it a lease is never over, and what was lost is not taken up again. */
const standsStill = () => noon;

/** A plan that is worked on until the test says how it ends, or until nobody wants it. */
function heldPlan(): {
  readonly planYear: PlanYear;
  readonly begun: Promise<void>;
  finish: (answer: PlanningAnswer) => void;
  isStopped: boolean;
} {
  let begins = () => {};
  const held = {
    begun: new Promise<void>((resolve) => {
      begins = resolve;
    }),
    finish: (_: PlanningAnswer) => {},
    isStopped: false,
    planYear: ((_, options) =>
      new Promise((resolve) => {
        if (options?.signal?.aborted) resolve(stopped);
        held.finish = resolve;
        options?.signal?.addEventListener('abort', () => {
          held.isStopped = true;
          resolve(stopped);
        });
        options?.onProgress?.({ incumbent: 500, bound: 450, gap: 0.1, seconds: 1 });
        begins();
      })) as PlanYear,
  };
  return held;
}

const until = async (isSo: () => Promise<boolean> | boolean) => {
  while (!(await isSo())) await new Promise((resolve) => setTimeout(resolve, 5));
};
const newest = () => newestPlan(cast.db, quinceYard);
const plans = () => cast.db.selectFrom('plan').select('id').execute();

describe('a plan asked for by one process and made by another', () => {
  test('is seen by both: asked for, how far it is, and done', async () => {
    const held = heldPlan();
    const serves = pages();
    await serves.start(quinceYard);
    await serves.start(quinceYard);
    expect(await serves.state(quinceYard)).toMatchObject({ state: 'running', startedAt: noon, best: null });

    worker(held.planYear).wake();
    await held.begun;
    await until(async () => {
      const state = await serves.state(quinceYard);
      return state.state === 'running' && state.best === 500;
    });
    held.finish(planned(700));
    await serves.settled(quinceYard);

    expect(await serves.state(quinceYard)).toEqual({ state: 'idle' });
    expect((await newest())?.plan.objective.total).toBe(700);
    expect(await plans()).toHaveLength(1);
  });

  test('is stopped by a third, and the last good plan stays', async () => {
    const held = heldPlan();
    const serves = pages();
    const works = worker(held.planYear);
    await serves.start(quinceYard);
    works.wake();
    await held.begun;

    await pages().cancel(quinceYard);
    await serves.settled(quinceYard);

    expect(held.isStopped).toBe(true);
    expect(await serves.state(quinceYard)).toEqual({ state: 'idle' });
    expect(await plans()).toEqual([]);
  });

  test('that nobody has begun yet is stopped at once', async () => {
    const serves = pages();
    await serves.start(quinceYard);
    await serves.cancel(quinceYard);
    await serves.settled(quinceYard);
    let begun = 0;
    const works = worker(async () => {
      begun += 1;
      return planned(1);
    });
    works.wake();
    await works.close();

    expect(await serves.state(quinceYard)).toEqual({ state: 'idle' });
    expect(begun).toBe(0);
  });

  test('fails in words that every process says, until it is asked for again', async () => {
    const serves = pages();
    await serves.start(quinceYard);
    worker(async () => ({
      outcome: 'infeasible',
      detail: '',
      fallback: { plan: planCosting(1), paths: [] },
    })).wake();
    await serves.settled(quinceYard);

    expect(await pages().state(quinceYard)).toMatchObject({
      state: 'failed',
      words: expect.stringContaining('No plan was found that keeps all limits'),
    });
    await serves.start(quinceYard);
    expect((await serves.state(quinceYard)).state).toBe('running');
  });

  test('is made by another when the one that made it has gone, and kept once', async () => {
    const first = heldPlan();
    const serves = pages();
    await serves.start(quinceYard);
    worker(first.planYear, undefined, standsStill).wake();
    await first.begun;
    // The machine of the first stands still: it renews nothing, and does not know.
    await cast.db.updateTable('job').set({ leased_by: 'whoever stood still' }).execute();
    at += leaseMs + 1;
    const second = heldPlan();
    worker(second.planYear).wake();
    await second.begun;
    await until(() => first.isStopped);

    second.finish(planned(222));
    await serves.settled(quinceYard);

    expect((await newest())?.plan.objective.total).toBe(222);
    expect(await plans()).toHaveLength(1);
  });

  test('that was kept by one that then went away is made anew in its place, not beside it', async () => {
    const serves = pages();
    await serves.start(quinceYard);
    // It checks the plan for as long as it is let.
    worker(async () => planned(111), { years: 1_000_000, rounds: 0 }, standsStill).wake();
    await until(async () => (await serves.state(quinceYard)).state === 'checking');
    expect(await plans()).toHaveLength(1);
    await cast.db.updateTable('job').set({ leased_by: 'whoever stood still' }).execute();
    at += leaseMs + 1;

    worker(async () => planned(222)).wake();
    await serves.settled(quinceYard);

    expect((await newest())?.plan.objective.total).toBe(222);
    expect(await plans()).toHaveLength(1);
  });

  test('that comes too late is not kept: the facts of its household are another’s to plan by then', async () => {
    const first = heldPlan();
    const serves = pages();
    await serves.start(quinceYard);
    const works = worker((year, options) => {
      const { signal: _, ...rest } = options ?? {};
      return first.planYear(year, rest);
    });
    works.wake();
    await first.begun;
    await cast.db
      .updateTable('job')
      .set({ leased_by: 'another runner', leased_until: at + leaseMs })
      .execute();

    first.finish(planned(111));
    await works.close();

    expect(await plans()).toEqual([]);
  });

  test('is taken up by another when the one that makes it ends, as if it had not been begun', async () => {
    const first = heldPlan();
    const serves = pages();
    await serves.start(quinceYard);
    const ends = worker(first.planYear);
    ends.wake();
    await first.begun;
    await ends.close();
    expect((await serves.state(quinceYard)).state).toBe('running');

    worker(async () => planned(333)).wake();
    await serves.settled(quinceYard);

    expect((await newest())?.plan.objective.total).toBe(333);
  });

  test('is begun at once where pages and planner are one process', async () => {
    const job = openPlanJob(partsOf(async () => planned(5)));
    opened.push(job);
    await job.start(quinceYard);
    await job.planned(quinceYard);

    expect((await newest())?.plan.objective.total).toBe(5);
  });
});

describe('a question asked by one process and answered by another', () => {
  const aPlan = async (): Promise<StoredPlan> => {
    const job = openPlanJob(partsOf(async () => planned(5)));
    await job.start(quinceYard);
    await job.settled(quinceYard);
    await job.close();
    return (await newest()) as StoredPlan;
  };
  const moved = {
    about: 'batch moved',
    recipe: 'plum-jam-half-pints' as RecipeId,
    week: asWeek('2026-W35'),
  } as const;
  const answering = async (ask: () => Promise<unknown>, planYear: PlanYear = async () => planned(1)) => {
    const works = worker(planYear);
    const answer = ask();
    const waking = setInterval(works.wake, 5);
    try {
      return await answer;
    } finally {
      clearInterval(waking);
    }
  };

  test('comes back as it would be answered at once', async () => {
    const plan = await aPlan();
    const here = openPlanJob(partsOf(async () => planned(1)));
    opened.push(here);

    const elsewhere = await answering(() => pages().ask(quinceYard, plan, moved));

    expect(elsewhere).toEqual(await here.ask(quinceYard, plan, moved));
    expect(elsewhere).toMatchObject({ earlier: { outcome: expect.any(String) } });
  });

  test('about a plan that another has replaced has no answer', async () => {
    const old = await aPlan();
    at += 1000;
    await aPlan();

    expect(await answering(() => pages().ask(quinceYard, old, moved))).toBeNull();
  });

  test('beyond three that wait is refused', async () => {
    const plan = await aPlan();
    const leaving = new AbortController();
    const asked = [1, 2, 3, 4].map(() => pages().ask(quinceYard, plan, moved, leaving.signal));
    const settled = Promise.allSettled(asked);
    await until(async () => {
      const open = await cast.db
        .selectFrom('job')
        .select('seq')
        .where('kind', '=', 'question')
        .where('finished_at', 'is', null)
        .execute();
      return open.length === 4;
    });

    await expect(pages().ask(quinceYard, plan, moved)).rejects.toThrow(PlannerBusy);
    leaving.abort();
    for (const answer of await settled)
      expect(answer).toMatchObject({ status: 'rejected', reason: expect.any(AskerLeft) });
  });

  test('is let go when its asker leaves', async () => {
    const plan = await aPlan();
    const leaving = new AbortController();
    const held = heldPlan();
    const without = {
      about: 'without harvest',
      source: plan.year.sources[0]?.id ?? ('' as never),
      season: { beginsOn: today, endsOn: today },
    } as const;
    const asked = answering(() => pages().ask(quinceYard, plan, without, leaving.signal), held.planYear);
    const settled = Promise.allSettled([asked]);
    await held.begun;
    leaving.abort();

    expect(await settled).toMatchObject([{ status: 'rejected', reason: expect.any(AskerLeft) }]);
    await until(() => held.isStopped);
  });
});
