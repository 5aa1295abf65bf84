import type { HouseholdId } from '../../shared/ids.ts';
import { type Outcome, type Problem, refused } from '../../shared/problems.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { SteadyReading } from '../../src/preserving/day/process-clock.ts';
import type { Moment } from '../clock.ts';
import type { Database, Writing } from '../database/database.ts';
import { holdHousehold } from '../database/hold-household.ts';
import { once } from './once.ts';

/** Who writes, when, and under which key: the same key never writes twice. */
export interface Recording extends Moment {
  readonly db: Database;
  readonly householdId: HouseholdId;
  readonly key: string;
  readonly by?: string | null;
  /** By a clock that is never set; null where none is asked. */
  readonly steady?: SteadyReading | null;
}

/** The same inside a running transaction. */
export interface Recorder extends Moment {
  readonly trx: Writing;
  readonly householdId: HouseholdId;
  readonly by: string | null;
  readonly steady: SteadyReading | null;
}

/** The household as a rule looks at it, before anything is written. */
export interface Reader {
  readonly trx: Database;
  readonly householdId: HouseholdId;
  readonly today: CalendarDate;
}

/**
 * What a record holds against what was asked for, beside what its schema does. It takes the fields that can be read, so that a form
 * tells it also while others cannot; a rule whose fields are missing says nothing.
 */
export type Rules<Asked> = (
  reader: Reader,
  asked: Readonly<Partial<Asked>>,
) => Promise<readonly Problem[]> | readonly Problem[];

/** The problems of an outcome; none where it went well. */
export const problemsIn = (...outcomes: readonly Outcome<unknown>[]): readonly Problem[] =>
  outcomes.flatMap((outcome) => (outcome.ok ? [] : outcome.problems));

/** Ends the transaction without a trace and carries the answer out of it. */
class NothingWritten<T> extends Error {
  readonly outcome: Outcome<T>;
  constructor(outcome: Outcome<T>) {
    super('nothing was written');
    this.outcome = outcome;
  }
}

/**
 * Every write of a household's facts goes through here: one transaction, one repeat-safe key, one step of the household's
 * facts version. A refusal writes nothing at all; a repetition gives the first answer again and writes nothing either.
 * The version is stepped first so that the write lock is held before anything is read; what touches no facts of the year
 * (a notice put to sleep) steps it by nothing.
 */
export async function record<T>(
  recording: Recording,
  verb: string,
  request: unknown,
  work: (recorder: Recorder) => Promise<Outcome<T>>,
  touches: 'facts' | 'no facts' = 'facts',
): Promise<Outcome<T>> {
  const { db, householdId, key, at, today, by = null, steady = null } = recording;
  try {
    return await db.transaction().execute(async (trx) => {
      await holdHousehold(trx, householdId, touches === 'facts' ? 1 : 0);
      const { outcome, repeated } = await once(trx, { householdId, key, at }, { verb, request }, () =>
        work({ trx, householdId, at, today, by, steady }),
      );
      if (repeated || !outcome.ok) throw new NothingWritten(outcome);
      return outcome;
    });
  } catch (cause) {
    if (cause instanceof NothingWritten) return cause.outcome as Outcome<T>;
    throw cause;
  }
}

export const problem = (code: string, field: string, message: string): Problem => ({
  code,
  path: [field],
  message,
});

export const refuse = <T = never>(code: string, field: string, message: string): Outcome<T> =>
  refused(problem(code, field, message));
