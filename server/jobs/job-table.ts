import { ShelfwardError } from '../../shared/problems.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Clock } from '../clock.ts';
import type { Database } from '../database/database.ts';
import type { JobTable } from '../database/tables.ts';

export type JobKind = JobTable['kind'];

/** What a job does; it may be done again, so a second time must do no harm. */
export type JobWork = (subject: string, forOn: CalendarDate) => Promise<void>;

/** How jobs of some kinds are done: by one runner at a time, each under a lease, again when it fails. */
export interface JobRule {
  /** One runner at a time has jobs of these kinds. */
  readonly kinds: readonly JobKind[];
  readonly leaseMs: number;
  /** Waits before the second attempt and each later one; after the last of them the job is given up. */
  readonly waitsMs: readonly number[];
  /** What the history says of a failure. */
  readonly failureWords: (cause: unknown) => string;
  /** Whether a failure would only come again, so that the job is let go. */
  readonly isFinal?: (cause: unknown) => boolean;
}

export interface DueJobs {
  readonly db: Database;
  readonly now: Clock;
  readonly rule: JobRule;
  readonly work: (kind: JobKind) => JobWork;
  /** Asked before each job whether to go on. */
  readonly goesOn: () => boolean;
  /** Told what went wrong, with the job it was. */
  readonly onFailure?: ((cause: unknown) => void) | undefined;
}

/** Does the jobs that are due, the oldest first, until none is left or another runner has one of these kinds. */
export async function doDueJobs({ db, now, rule, work, goesOn, onFailure }: DueJobs): Promise<void> {
  while (goesOn()) {
    const job = await lease(db, rule, now());
    if (job === null) return;
    try {
      await work(job.kind)(job.subject, job.forOn);
      await change(db, job.seq, { finished_at: now(), leased_until: null, failure: null });
    } catch (cause) {
      onFailure?.(
        new ShelfwardError('job-failed', `job ${job.seq} (${job.kind} of ${job.subject}) failed`, { cause }),
      );
      await change(db, job.seq, {
        leased_until: null,
        failure: rule.failureWords(cause),
        ...(rule.isFinal?.(cause) === true ? { finished_at: now() } : {}),
        due_at: now() + (rule.waitsMs[job.attempts - 1] ?? 0),
      });
    }
  }
}

const change = (
  db: Database,
  seq: number,
  to: Partial<Pick<JobTable, 'finished_at' | 'leased_until' | 'failure' | 'due_at'>>,
): Promise<unknown> => db.updateTable('job').set(to).where('seq', '=', seq).execute();

interface Leased {
  readonly seq: number;
  readonly kind: JobKind;
  readonly subject: string;
  readonly forOn: CalendarDate;
  readonly attempts: number;
}

/**
 * Takes the next due job, unless another runner has one of these kinds under a lease that still stands. A lease that ends
 * later than one taken now would was written by a clock that was ahead, and holds nobody up.
 */
async function lease(db: Database, { kinds, leaseMs, waitsMs }: JobRule, at: number): Promise<Leased | null> {
  const leasedElsewhere = db
    .selectFrom('job as other')
    .select('other.seq')
    .where('other.kind', 'in', [...kinds])
    .where('other.leased_until', '>', at)
    .where('other.leased_until', '<=', at + leaseMs);
  if ((await leasedElsewhere.executeTakeFirst()) !== undefined) return null;
  const next = await db
    .selectFrom('job')
    .selectAll()
    .where('kind', 'in', [...kinds])
    .where('finished_at', 'is', null)
    .where('due_at', '<=', at)
    .where('attempts', '<=', waitsMs.length)
    .orderBy('due_at')
    .orderBy('seq')
    .limit(1)
    .executeTakeFirst();
  if (!next) return null;
  // One statement takes it: of two runners that chose the same job, the second finds it taken.
  const { numUpdatedRows } = await db
    .updateTable('job')
    .set({ leased_until: at + leaseMs, attempts: next.attempts + 1 })
    .where('seq', '=', next.seq)
    .where('attempts', '=', next.attempts)
    .where('finished_at', 'is', null)
    .where((row) => row.not(row.exists(leasedElsewhere)))
    .executeTakeFirstOrThrow();
  if (numUpdatedRows !== 1n) return null;
  return {
    seq: next.seq,
    kind: next.kind,
    subject: next.subject,
    forOn: next.for_on as CalendarDate,
    attempts: next.attempts + 1,
  };
}
