import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { PlanningAnswer } from '../../src/planning/make-plan.ts';
import type { Solve, SolveProgress } from '../../src/planning/solving.ts';
import { type Clock, momentIn } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { householdById } from '../queries/household.ts';
import { type PlanYear, planHousehold } from '../year/plan-household.ts';
import { keepPlan } from './keep-plan.ts';

/** What is being done about a household's plan. */
export type PlanJobState =
  | { readonly state: 'idle' }
  | {
      readonly state: 'running';
      readonly startedAt: number;
      /** Cents of the best plan so far and what no plan can be below; null before the first. */
      readonly best: number | null;
      readonly bound: number | null;
      /** 0 to 1. */
      readonly gap: number | null;
    }
  | { readonly state: 'failed'; readonly words: string };

export interface PlanJob {
  state(householdId: string): PlanJobState;
  /** Starts a plan unless one is running; returns at once. */
  start(householdId: string): void;
  /** Stops a running plan; the last good plan stays. */
  cancel(householdId: string): void;
  /** Works out an answer with the planner; the questions of a household are worked out one after the other. */
  ask<Answer>(householdId: string, question: (planner: Planner) => Promise<Answer>): Promise<Answer>;
  /** Settles when nothing is running for the household. */
  settled(householdId: string): Promise<void>;
  /** Stops everything and waits for it. */
  close(): Promise<void>;
}

/** What works out questions, in another thread. */
export interface Planner {
  readonly planYear: PlanYear;
  readonly solve: Solve;
}

export interface PlanJobParts extends Planner {
  readonly db: Database;
  readonly reference: ReferenceTables;
  readonly now: Clock;
  /** Told of what went wrong in our own code. */
  readonly onError?: (cause: unknown) => void;
}

interface Running {
  readonly startedAt: number;
  readonly cancelling: AbortController;
  progress: SolveProgress | null;
  done: Promise<void>;
}

/** Makes plans in the background, one at a time for each household; a plan that fails leaves the last good one as it was. */
export function openPlanJob(parts: PlanJobParts): PlanJob {
  const running = new Map<string, Running>();
  const failed = new Map<string, string>();
  const asked = new Map<string, Promise<unknown>>();

  const makePlan = async (householdId: HouseholdId, run: Running): Promise<void> => {
    const { db, reference, now, planYear } = parts;
    const household = await householdById(db, householdId);
    const { today } = momentIn(household.timeZone, now);
    const { loaded, answer } = await planHousehold(db, householdId, today, reference, planYear, {
      signal: run.cancelling.signal,
      onProgress: (progress) => {
        run.progress = progress;
      },
    });
    if (run.cancelling.signal.aborted || answer.outcome === 'cancelled') return;
    await keepPlan(db, householdId, {
      year: loaded.year,
      factsVersion: loaded.facts.household.factsVersion,
      answer,
      at: now(),
    });
    if (answer.outcome !== 'planned') failed.set(householdId, failureWords[answer.outcome]);
  };

  return {
    state: (householdId) => {
      const run = running.get(householdId);
      if (run) {
        const { incumbent = null, bound = null, gap = null } = run.progress ?? {};
        return { state: 'running', startedAt: run.startedAt, best: incumbent, bound, gap };
      }
      const words = failed.get(householdId);
      return words === undefined ? { state: 'idle' } : { state: 'failed', words };
    },
    start: (householdId) => {
      if (running.has(householdId)) return;
      failed.delete(householdId);
      const run: Running = {
        startedAt: parts.now(),
        cancelling: new AbortController(),
        progress: null,
        done: Promise.resolve(),
      };
      running.set(householdId, run);
      run.done = makePlan(householdId as HouseholdId, run)
        .catch((cause: unknown) => {
          failed.set(householdId, brokenWords);
          parts.onError?.(cause);
        })
        .finally(() => running.delete(householdId));
    },
    cancel: (householdId) => running.get(householdId)?.cancelling.abort(),
    ask: (householdId, question) => {
      const before = asked.get(householdId) ?? Promise.resolve();
      const answer = before.then(() => question({ planYear: parts.planYear, solve: parts.solve }));
      // The next question waits for this one, whether or not it could be answered.
      asked.set(
        householdId,
        answer.catch(() => {}),
      );
      return answer;
    },
    settled: async (householdId) => {
      await running.get(householdId)?.done;
    },
    close: async () => {
      for (const run of running.values()) run.cancelling.abort();
      await Promise.all([...running.values()].map(({ done }) => done));
    },
  };
}

const brokenWords =
  'The plan could not be made, because of a fault in the program. The plan before it is still here; try again after the next change.';

const failureWords: Readonly<Record<Exclude<PlanningAnswer['outcome'], 'planned' | 'cancelled'>, string>> = {
  infeasible:
    'No plan was found that keeps all limits. Look at pinned batches and the sessions of the coming weeks, then plan again.',
  'time limit without plan':
    'No plan was found in the time allowed. Plan again; if it happens twice, take back some pinned batches.',
  'solver crashed': 'The planner stopped in the middle. The plan before it is still here. Plan again.',
};
