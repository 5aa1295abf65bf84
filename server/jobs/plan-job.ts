import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { PlanningAnswer, PlanProgress, PlanYear } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { type AimSetting, aimedPlan, reachedBy } from '../../src/planning/simulation/aimed-plan.ts';
import type { Solve } from '../../src/planning/solving/solving.ts';
import { largeWords, noPlanInTimeWords, tooLargeWords } from '../../src/planning/year/planner-size.ts';
import { type Clock, momentIn } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { faultWords } from '../faults.ts';
import { householdById } from '../queries/household/household.ts';
import type { PlanJobState } from '../queries/year/plan-job-state.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { type PlannedHousehold, planHousehold } from '../year/plan-household.ts';
import { servedBetween } from '../year/remembered-outlooks.ts';
import { type Lease, LeaseLost } from './job-table.ts';
import { keepPlan } from './keep-plan.ts';

/** Why there is no plan, and whether planning the same once more may go better. */
interface PlanFailure {
  readonly words: string;
  readonly mayPass: boolean;
}

export interface PlanJob {
  state(householdId: string): PlanJobState;
  /**
   * Starts a plan unless one is being made; returns at once. A plan that is only being checked is let go for it. One that is made
   * under a lease is kept only while that stands.
   */
  start(householdId: string, lease?: Lease): void;
  /** Stops a running plan; the last good plan stays. */
  cancel(householdId: string): void;
  /**
   * Works out an answer with the planner; the questions of a household are worked out one after the other. A question ends
   * when its asker leaves, and one too many is refused: both throw.
   */
  ask<Answer>(
    householdId: string,
    question: (planner: Planner) => Promise<Answer>,
    left?: AbortSignal,
  ): Promise<Answer>;
  /** Settles when the first plan of a run is kept, before it is checked. */
  planned(householdId: string): Promise<void>;
  /** Settles when nothing is running for the household. */
  settled(householdId: string): Promise<void>;
  /** Whether it stops everything. */
  isClosing(): boolean;
  /** Stops everything and waits for it. */
  close(): Promise<void>;
}

/** What works out questions, in another process. */
export interface Planner {
  readonly planYear: PlanYear;
  readonly solve: Solve;
}

export interface PlanJobParts extends Planner {
  readonly db: Database;
  readonly reference: ReferenceTables;
  readonly now: Clock;
  /** The planner in a household's own turn; without it all households wait in one line. */
  readonly plannerOf?: (householdId: string) => Planner;
  /** How a plan is played against sampled years once it is kept; without it no plan is. */
  readonly aim?: AimSetting;
  /** Told of what went wrong in our own code. */
  readonly onError?: (cause: unknown) => void;
}

/** So many questions of one household wait behind the one that is worked out. */
const questionsWaiting = 3;

/** Thrown when a household has as many questions waiting as it may. */
export class PlannerBusy extends ShelfwardError {
  constructor() {
    super('planner-busy', `expected at most ${questionsWaiting} questions waiting for the planner`);
  }
}

/** Thrown when whoever asked has gone; nobody reads it. */
export class AskerLeft extends ShelfwardError {
  constructor() {
    super('asker-left', 'whoever asked the planner has gone');
  }
}

interface Running {
  phase: 'planning' | 'checking';
  readonly startedAt: number;
  readonly cancelling: AbortController;
  progress: PlanProgress | null;
  note: string | null;
  readonly lease: Lease | undefined;
  planned: Promise<unknown>;
  done: Promise<void>;
}

/** A plan that was kept, to be checked. */
interface ToCheck {
  readonly planned: PlannedHousehold;
  readonly planId: string;
}

/** Makes plans in the background, one at a time for each household; a plan that fails leaves the last good one as it was. */
export function openPlanJob(parts: PlanJobParts): PlanJob {
  const running = new Map<string, Running>();
  const failed = new Map<string, PlanFailure>();
  const asked = new Map<string, Promise<unknown>>();
  const unanswered = new Map<string, number>();
  let closing = false;
  const plannerOf = parts.plannerOf ?? (() => parts);

  const makePlan = async (householdId: HouseholdId, run: Running): Promise<ToCheck | null> => {
    const { db, reference, now } = parts;
    const { planYear } = plannerOf(householdId);
    const { signal } = run.cancelling;
    const household = await householdById(db, householdId);
    const { today } = momentIn(household.timeZone, now);
    const planIfNotTooLarge: PlanYear = (year, options) => {
      const tooLarge = tooLargeWords(year);
      if (tooLarge !== null) throw new TooLarge(tooLarge);
      run.note = largeWords(year);
      return planYear(year, options);
    };
    const planned = await planHousehold(db, householdId, today, reference, planIfNotTooLarge, {
      signal,
      onProgress: (progress) => {
        run.progress = progress;
      },
    });
    const { loaded, answer } = planned;
    if (signal.aborted || answer.outcome === 'cancelled') return null;
    const planId = await keepPlan(db, householdId, {
      year: loaded.year,
      factsVersion: loaded.facts.household.factsVersion,
      answer,
      at: now(),
      hold: run.lease?.hold,
    });
    if (answer.outcome !== 'planned') failed.set(householdId, failureOf(answer.outcome, loaded.year));
    return planId === null || answer.outcome !== 'planned' ? null : { planned, planId };
  };

  /** Puts the plan that was checked, corrected or not, in place of the kept one; unless something else came meanwhile. */
  const checkPlan = async (householdId: HouseholdId, run: Running, made: ToCheck, aim: AimSetting) => {
    const { db, now } = parts;
    const { planYear } = plannerOf(householdId);
    const { signal } = run.cancelling;
    const { loaded, answer } = made.planned;
    const aimed = await aimedPlan(loaded, answer, planYear, aim, { ...servedBetween(loaded), signal });
    if (signal.aborted || aimed.answer.outcome !== 'planned') return;
    const newest = await newestPlan(db, householdId);
    if (newest?.id !== made.planId) return;
    await keepPlan(db, householdId, {
      year: aimed.year,
      factsVersion: loaded.facts.household.factsVersion,
      answer: aimed.answer,
      at: now(),
      reached: reachedBy(aimed, loaded),
      replaces: made.planId,
      hold: run.lease?.hold,
    });
  };

  return {
    state: (householdId) => {
      const run = running.get(householdId);
      if (run?.phase === 'checking') return { state: 'checking' };
      if (run) {
        const { incumbent = null, bound = null, gap = null, soFar = null } = run.progress ?? {};
        return {
          state: 'running',
          startedAt: run.startedAt,
          best: incumbent,
          bound,
          gap,
          soFar,
          note: run.note,
        };
      }
      const failure = failed.get(householdId);
      return failure === undefined ? { state: 'idle' } : { state: 'failed', ...failure };
    },
    start: (householdId, lease) => {
      const before = running.get(householdId);
      if (before?.phase === 'planning') return;
      before?.cancelling.abort();
      failed.delete(householdId);
      const run: Running = {
        phase: 'planning',
        startedAt: parts.now(),
        cancelling: new AbortController(),
        progress: null,
        note: null,
        lease,
        planned: Promise.resolve(),
        done: Promise.resolve(),
      };
      running.set(householdId, run);
      lease?.lost.addEventListener('abort', () => run.cancelling.abort());
      const id = householdId as HouseholdId;
      const planned = (before?.done ?? Promise.resolve()).then(() => makePlan(id, run));
      run.planned = planned.catch(() => {});
      run.done = planned
        .then((made) => {
          if (made === null || parts.aim === undefined || run.cancelling.signal.aborted) return;
          run.phase = 'checking';
          return checkPlan(id, run, made, parts.aim);
        })
        .catch((cause: unknown) => {
          if (run.cancelling.signal.aborted || cause instanceof LeaseLost) return;
          // The plan stands even where checking it went wrong.
          if (run.phase === 'planning') failed.set(householdId, brokenBy(cause));
          if (!(cause instanceof TooLarge)) parts.onError?.(cause);
        })
        .finally(() => {
          if (running.get(householdId) === run) running.delete(householdId);
        });
    },
    cancel: (householdId) => running.get(householdId)?.cancelling.abort(),
    ask: (householdId, question, left) => {
      const waiting = unanswered.get(householdId) ?? 0;
      if (waiting > questionsWaiting) return Promise.reject(new PlannerBusy());
      unanswered.set(householdId, waiting + 1);
      const before = asked.get(householdId) ?? Promise.resolve();
      const answer = before
        .then(async () => {
          if (left?.aborted) throw new AskerLeft();
          const answered = await question(plannerUntil(plannerOf(householdId), left));
          if (left?.aborted) throw new AskerLeft();
          return answered;
        })
        .catch((cause: unknown) => {
          // What a solve that was called off led to is no fault.
          throw left?.aborted ? new AskerLeft() : cause;
        })
        .finally(() => {
          const rest = (unanswered.get(householdId) ?? 1) - 1;
          if (rest > 0) unanswered.set(householdId, rest);
          else {
            unanswered.delete(householdId);
            asked.delete(householdId);
          }
        });
      // The next question waits for this one, whether or not it could be answered.
      asked.set(
        householdId,
        answer.catch(() => {}),
      );
      return answer;
    },
    planned: async (householdId) => {
      await running.get(householdId)?.planned;
    },
    settled: async (householdId) => {
      await running.get(householdId)?.done;
    },
    isClosing: () => closing,
    close: async () => {
      closing = true;
      for (const run of running.values()) run.cancelling.abort();
      await Promise.all([...running.values()].map(({ done }) => done));
    },
  };
}

/** The planner for one question: what it solves is called off when the asker leaves. */
const plannerUntil = ({ planYear, solve }: Planner, left: AbortSignal | undefined): Planner =>
  left === undefined
    ? { planYear, solve }
    : {
        planYear: (year, options) => planYear(year, { ...options, signal: left }),
        solve: (model, request) => solve(model, { ...request, signal: left }),
      };

/** Thrown in the place of planning a year that is too large, with what to say. */
class TooLarge extends ShelfwardError {
  constructor(words: string) {
    super('year-too-large', words);
  }
}

const brokenWords =
  'The plan could not be made, because of a fault in the program. The plan before it is still here; try again after the next change.';

const brokenBy = (cause: unknown): PlanFailure =>
  cause instanceof TooLarge
    ? { words: cause.message, mayPass: false }
    : { words: faultWords(cause, brokenWords), mayPass: true };

const failureOf = (
  outcome: Exclude<PlanningAnswer['outcome'], 'planned' | 'cancelled'>,
  year: PlanningYear,
): PlanFailure => {
  switch (outcome) {
    case 'infeasible':
      return {
        words:
          'No plan was found that keeps all limits. Look at pinned batches and the sessions of the coming weeks, then plan again.',
        mayPass: false,
      };
    case 'time limit without plan':
      return { words: noPlanInTimeWords(year), mayPass: true };
    case 'solver crashed':
      return {
        words: 'The planner stopped in the middle. The plan before it is still here. Plan again.',
        mayPass: true,
      };
  }
};
