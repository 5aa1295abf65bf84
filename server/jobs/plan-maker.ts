import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { PlanningAnswer, PlanYear } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { type AimSetting, aimedPlan, reachedBy } from '../../src/planning/simulation/aimed-plan.ts';
import type { Solve } from '../../src/planning/solving/solving.ts';
import { largeWords, noPlanInTimeWords, tooLargeWords } from '../../src/planning/year/planner-size.ts';
import { type Clock, momentIn } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { faultWords } from '../faults.ts';
import { householdById } from '../queries/household/household.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { type PlanHouseholdOptions, type PlannedHousehold, planHousehold } from '../year/plan-household.ts';
import { servedBetween } from '../year/remembered-outlooks.ts';
import { type Lease, LeaseLost, LetGo } from './job-table.ts';
import { keepPlan } from './keep-plan.ts';
import { type PlanProgressSaid, progressIn, sayProgress } from './plan-progress.ts';

/** Why there is no plan, and whether planning the same once more may go better. */
export interface PlanFailure {
  readonly words: string;
  readonly mayPass: boolean;
}

/** What solves, in another process. */
export interface Planner {
  readonly planYear: PlanYear;
  readonly solve: Solve;
}

/** Makes plans under leases; a plan that fails leaves the last good one as it was. */
export interface PlanMaker {
  /**
   * Makes a household's plan, keeps it and checks it, as long as the lease stands; says how far it is in the job's row. Answers why
   * there is no new plan, or null. Overnight it goes on from the last plan and is given less time: nobody waits for it, and many
   * are made.
   * @throws LetGo when everything stops before the plan is kept
   */
  make(householdId: HouseholdId, lease: Lease, when?: 'overnight'): Promise<PlanFailure | null>;
  /** Ends what is being made here for a household: nobody wants it any more. */
  stop(householdId: string): void;
  /** Ends everything and waits for it. */
  close(): Promise<void>;
}

export interface PlanMakerParts extends Planner {
  readonly db: Database;
  readonly reference: ReferenceTables;
  readonly now: Clock;
  /** The planner in a household's own turn; without it all households wait in one line. */
  readonly plannerOf?: ((householdId: string) => Planner) | undefined;
  /** How a plan is played against sampled years once it is kept; without it no plan is. */
  readonly aim?: AimSetting | undefined;
  /** Told of what went wrong in our own code. */
  readonly onError?: ((cause: unknown) => void) | undefined;
  /** Told that a plan was kept, before it is checked. */
  readonly onKept?: ((householdId: string) => void) | undefined;
  /** How often it is said how far a plan is, and looked whether it is still wanted. */
  readonly saidEveryMs?: number | undefined;
}

/** A plan that was kept, to be checked. */
interface ToCheck {
  readonly planned: PlannedHousehold;
  readonly planId: string;
}

interface Making {
  readonly householdId: HouseholdId;
  readonly lease: Lease;
  readonly cancelling: AbortController;
  readonly said: PlanProgressSaid;
  /** The plan a runner before had kept. */
  readonly keptBefore: string | undefined;
  readonly goesOn: NonNullable<PlanHouseholdOptions['goesOn']> | null;
}

/** A plan made overnight begins from the last one, and is seldom bettered after so many solver seconds. */
export const overnight = { beginsFromEarlier: true, secondsLimit: 15 } as const;

export function openPlanMaker(parts: PlanMakerParts): PlanMaker {
  const { db, reference, now } = parts;
  const plannerOf = parts.plannerOf ?? (() => parts);
  const running = new Map<Making, Promise<unknown>>();
  let closing = false;

  const makePlan = async ({ householdId, ...making }: Making): Promise<ToCheck | PlanFailure | null> => {
    const { planYear } = plannerOf(householdId);
    const { signal } = making.cancelling;
    const household = await householdById(db, householdId);
    const { today } = momentIn(household.timeZone, now);
    const planIfNotTooLarge: PlanYear = (year, options) => {
      const tooLarge = tooLargeWords(year);
      if (tooLarge !== null) throw new TooLarge(tooLarge);
      making.said.change({ note: largeWords(year) });
      return planYear(year, options);
    };
    const planned = await planHousehold(db, householdId, today, reference, planIfNotTooLarge, {
      goesOn: making.goesOn,
      signal,
      onProgress: (progress) => making.said.change({ progress }),
    });
    const { loaded, answer } = planned;
    if (signal.aborted || answer.outcome === 'cancelled') return null;
    const planId = await making.said.whileKeeping((said) =>
      keepPlan(db, householdId, {
        year: loaded.year,
        factsVersion: loaded.facts.version,
        answer,
        at: now(),
        // One that was kept by a runner that has gone is made anew in its place, not beside it.
        ...(making.keptBefore === undefined ? {} : { replaces: making.keptBefore }),
        hold: (trx, id) => making.lease.hold(trx, said({ phase: 'checking', planId: id })),
      }),
    );
    if (answer.outcome !== 'planned') return failureOf(answer.outcome, loaded.year);
    return planId === null ? null : { planned, planId };
  };

  /** Puts the plan that was checked, corrected or not, in place of the kept one; unless something else came meanwhile. */
  const checkPlan = async (making: Making, made: ToCheck, aim: AimSetting): Promise<void> => {
    const { householdId, lease } = making;
    const { planYear } = plannerOf(householdId);
    const { signal } = making.cancelling;
    const { loaded, answer, aimedBefore } = made.planned;
    const aimed = await aimedPlan(loaded, answer, planYear, aim, {
      ...servedBetween(loaded),
      signal,
      ...making.goesOn,
      ...(aimedBefore === undefined ? {} : { aimedBefore }),
    });
    if (signal.aborted || aimed.answer.outcome !== 'planned') return;
    const newest = await newestPlan(db, householdId);
    if (newest?.id !== made.planId) return;
    await making.said.whileKeeping((said) =>
      keepPlan(db, householdId, {
        year: aimed.year,
        factsVersion: loaded.facts.version,
        answer: aimed.answer,
        at: now(),
        reached: reachedBy(aimed, loaded),
        replaces: made.planId,
        hold: (trx, id) => lease.hold(trx, said({ phase: 'checked', planId: id })),
      }),
    );
  };

  const makeAndCheck = async (making: Making): Promise<PlanFailure | null> => {
    const { householdId } = making;
    const { signal } = making.cancelling;
    const made = await makePlan(making).catch((cause: unknown) => {
      if (signal.aborted) return null;
      if (cause instanceof TooLarge) return { words: cause.message, mayPass: false };
      throw cause;
    });
    if (made === null && closing) throw new LetGo();
    if (made === null || 'words' in made) return made;
    parts.onKept?.(householdId);
    if (parts.aim === undefined || signal.aborted) return null;
    await checkPlan(making, made, parts.aim).catch((cause: unknown) => {
      // The plan stands even where checking it went wrong.
      if (!signal.aborted && !(cause instanceof LeaseLost)) parts.onError?.(cause);
    });
    return null;
  };

  return {
    make: async (householdId, lease, when) => {
      if (closing) throw new LetGo();
      const before = progressIn(lease.saidBefore);
      if (before?.phase === 'checked') return null;
      const cancelling = new AbortController();
      const abort = () => cancelling.abort();
      lease.lost.addEventListener('abort', abort);
      const said = sayProgress(lease, now(), parts);
      const making: Making = {
        householdId,
        lease,
        cancelling,
        said,
        keptBefore: before?.planId,
        goesOn: when === 'overnight' ? overnight : null,
      };
      const made = makeAndCheck(making);
      running.set(
        making,
        made.catch(() => {}),
      );
      try {
        return await made;
      } finally {
        running.delete(making);
        lease.lost.removeEventListener('abort', abort);
        await said.stop();
      }
    },
    stop: (householdId) => {
      for (const making of running.keys()) if (making.householdId === householdId) making.cancelling.abort();
    },
    close: async () => {
      closing = true;
      for (const making of running.keys()) making.cancelling.abort();
      await Promise.all(running.values());
    },
  };
}

/** Thrown in the place of planning a year that is too large, with what to say. */
class TooLarge extends ShelfwardError {
  constructor(words: string) {
    super('year-too-large', words);
  }
}

const brokenWords =
  'The plan could not be made, because of a fault in the program. The plan before it is still here; try again after the next change.';

/** What is said of a plan that went wrong. */
export const brokenBy = (cause: unknown): string => faultWords(cause, brokenWords);

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
