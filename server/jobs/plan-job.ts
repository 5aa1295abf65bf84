import { EventEmitter, once } from 'node:events';
import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { StoredPlan } from '../../src/planning/stored-plan.ts';
import type { Clock } from '../clock.ts';
import type { Database } from '../database/database.ts';
import type { JobRule, JobWork } from './job-table.ts';
import { brokenBy, openPlanMaker, type PlanMaker, type PlanMakerParts } from './plan-maker.ts';
import { type PlanRequests, planRequests } from './plan-requests.ts';
import { type AnswerTo, answerTo, type Question } from './questions.ts';
import { askElsewhere, questionWork } from './questions-elsewhere.ts';
import { questionsHere } from './questions-here.ts';
import { openRunners, type Runners } from './runners.ts';

/** The planner as pages have it: in this process, or in another one that works for it. */
export interface PlanJob extends Omit<PlanRequests, 'close'> {
  /**
   * Works out an answer about a plan; the questions of a household are worked out one after the other. A question ends
   * when its asker leaves, and one too many is refused: both throw. Null where another plan has come meanwhile.
   */
  ask<Asked extends Question>(
    householdId: string,
    plan: StoredPlan,
    question: Asked,
    left?: AbortSignal,
  ): Promise<AnswerTo<Asked> | null>;
  /** Stops everything and waits for it. */
  close(): Promise<void>;
}

/** One that plans in this process. */
export interface PlanJobHere extends PlanJob {
  /** Makes the plans, those of the night as well. */
  readonly maker: PlanMaker;
  /** Something may wait for the planner. */
  wake(): void;
}

/** So many households have a plan under way in one process; they take turns at the solver. */
const plansAtOnce = 8;
/** How often it is looked for what was asked elsewhere, or was left behind. */
const lookedEveryMs = 5000;

/** Plans what is asked for, at once, and answers questions. */
export function openPlanJob(parts: PlanMakerParts): PlanJobHere {
  const { db, now } = parts;
  const kept = new EventEmitter();
  const maker = openPlanMaker({ ...parts, onKept: (householdId) => void kept.emit(householdId) });
  const runners = planRunners({ ...parts, maker, answers: false, atOnce: plansAtOnce });
  const requests = planRequests({ db, now, onAsked: runners.wake, onStopped: maker.stop });
  const questions = questionsHere(parts.plannerOf ?? (() => parts));
  runners.start(lookedEveryMs);
  return {
    ...requests,
    maker,
    wake: runners.wake,
    planned: (householdId) => {
      const leaving = new AbortController();
      return Promise.race([
        once(kept, householdId, { signal: leaving.signal }).catch(() => {}),
        requests.planned(householdId),
      ])
        .then(() => {})
        .finally(() => leaving.abort());
    },
    ask: (householdId, plan, question, left) =>
      questions.ask(householdId, (planner) => answerTo(question, plan, planner), left),
    close: async () => {
      requests.close();
      const ending = runners.close();
      await maker.close();
      await ending;
    },
  };
}

/** Asks for plans and answers that another process works out. */
export function openPlanJobElsewhere(parts: { readonly db: Database; readonly now: Clock }): PlanJob {
  const requests = planRequests(parts);
  return {
    ...requests,
    ask: (householdId, plan, question, left) =>
      askElsewhere(parts, householdId as HouseholdId, plan, question, left),
    close: async () => requests.close(),
  };
}

export interface PlanRunnersParts extends PlanMakerParts {
  readonly maker: PlanMaker;
  /** Whether questions are answered too. */
  readonly answers: boolean;
  readonly atOnce: number;
}

/** Does what somebody waits for. */
export function planRunners({ answers, ...parts }: PlanRunnersParts): Runners {
  const { db, now, maker, onError } = parts;
  const plan: JobWork = async (subject, _, lease) => {
    const [household = ''] = subject.split(' ');
    const failure = await maker.make(household as HouseholdId, lease);
    if (failure !== null) throw new NoPlan(failure.words);
  };
  const question = questionWork(db, parts.plannerOf ?? (() => parts));
  const rule: JobRule = {
    kinds: answers ? ['plan', 'question'] : ['plan'],
    lanes: ['now', 'soon'],
    // Whoever asked is told, and asks again.
    waitsMs: [],
    isFinal: () => true,
    failureWords: (cause) => (cause instanceof NoPlan ? cause.message : brokenBy(cause)),
  };
  return openRunners({
    db,
    now,
    rule,
    work: (kind) => (kind === 'question' ? question : plan),
    atOnce: parts.atOnce,
    onError,
    onFailure: (cause) => {
      // What could not be planned is told to the household, and is no fault of the program.
      if (!(cause instanceof Error && cause.cause instanceof NoPlan)) onError?.(cause);
    },
  });
}

/** There is no plan, and that is said in words. */
class NoPlan extends ShelfwardError {
  constructor(words: string) {
    super('no-plan', words);
  }
}
