import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Clock } from '../clock.ts';
import type { Database, Writing } from '../database/database.ts';
import { engineOf } from '../database/engine-of.ts';
import type { JobTable } from '../database/tables.ts';
import { machineFault, ruleFault } from '../faults.ts';
import { type Lane, lanes } from '../records/job-row.ts';

export type JobKind = JobTable['kind'];

/** A job is a runner's for so long; while the work goes on the lease is renewed, and once it is over another may have the job. */
export const leaseMs = 30_000;
/** Three times within a lease. */
const renewedEveryMs = leaseMs / 3;
/** So often a lease may run out over one job: a program that ends over it each time is not begun once more. */
const mostLapses = 20;

/** What a runner has while its work goes on. */
export interface Lease {
  /** Ends when another runner may have the job, or when nobody wants it any more. */
  readonly lost: AbortSignal;
  /** Renews the lease, and notices when it was lost. */
  renew(): Promise<void>;
  /** Says how far the work is, for whoever waits for it; the lease is renewed by that. */
  say(words: string): Promise<void>;
  /**
   * Within the transaction that keeps what came of the work: nobody else takes the job until it ends, and what is said stands only
   * with what is kept.
   * @throws LeaseLost when somebody else has it already; nothing is to be kept then
   */
  hold(trx: Writing, said?: string): Promise<void>;
  /** What a runner that had the job before said last; null where nothing was said. */
  readonly saidBefore: string | null;
}

/** Another runner has the job by now, and what this one made of it is not kept. */
export class LeaseLost extends ShelfwardError {
  constructor() {
    super('lease-lost', 'another runner has the job by now');
  }
}

/** The runner ends before its work was done: somebody else takes it up, as if it had not been begun. */
export class LetGo extends ShelfwardError {
  constructor() {
    super('job-let-go', 'the runner ended before its work was done');
  }
}

/** What a job does; it may be done again, so a second time must do no harm. */
export type JobWork = (subject: string, forOn: CalendarDate, lease: Lease) => Promise<void>;

/** How jobs of some kinds are done: each by one runner under a lease, again when it fails. */
export interface JobRule {
  readonly kinds: readonly JobKind[];
  /** Where they are looked for, in this order. */
  readonly lanes: readonly Lane[];
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
  /** Told that a job has ended, however it did. */
  readonly onEnd?: (() => void) | undefined;
  /** Renews the lease again and again until told to stop. */
  readonly keepUp?: (renew: () => Promise<void>) => () => void;
}

/** Kinds that solve: no household has two of them at once. */
const solving: readonly JobKind[] = ['replan', 'plan', 'question'];

/**
 * Does the jobs that are due until there are none for this runner: lane by lane, and in each the household first that was served
 * longest ago. Several runners may do so at once.
 */
export async function doDueJobs(parts: DueJobs): Promise<void> {
  while (parts.goesOn()) {
    const job = await claim(parts.db, parts.rule, parts.now());
    if (job === null) return;
    await doJob(parts, job);
  }
}

async function doJob(
  { db, now, rule, work, onFailure, onEnd, keepUp = everyTenSeconds }: DueJobs,
  job: Claimed,
): Promise<void> {
  /** The job's row while this runner has it. */
  const own = (trx: Database = db) =>
    trx
      .updateTable('job')
      .where('bucket', '=', job.bucket)
      .where('seq', '=', job.seq)
      .where('leased_by', '=', job.by)
      .where('finished_at', 'is', null);
  const losing = new AbortController();
  const renewWith = async (set: { readonly said?: string }): Promise<void> => {
    const until = now() + leaseMs;
    const { numUpdatedRows } = await own()
      .set({ leased_until: until, turn_at: until, ...set })
      .executeTakeFirstOrThrow();
    if (numUpdatedRows !== 1n) losing.abort();
  };
  const hold = async (trx: Writing, said?: string): Promise<void> => {
    const { numUpdatedRows } = await own(trx)
      .set({ leased_by: job.by, ...(said === undefined ? {} : { said }) })
      .executeTakeFirstOrThrow();
    if (numUpdatedRows === 1n) return;
    losing.abort();
    throw new LeaseLost();
  };
  const say = (said: string) => renewWith({ said });
  const renew = () => renewWith({}).catch((cause: unknown) => onFailure?.(cause));
  const stop = keepUp(renew);
  try {
    if (job.lapses > mostLapses) throw new Lapsed();
    await work(job.kind)(job.subject, job.forOn, {
      lost: losing.signal,
      hold,
      renew,
      say,
      saidBefore: job.saidBefore,
    });
    await own()
      .set({ ...ended, finished_at: now(), turn_at: now(), failure: null })
      .execute();
  } catch (cause) {
    const again = now();
    if (cause instanceof LeaseLost) return;
    if (cause instanceof LetGo) {
      await own()
        .set({ ...ended, attempts: job.attempts - 1, turn_at: again })
        .execute();
      return;
    }
    onFailure?.(
      new ShelfwardError('job-failed', `job ${job.seq} (${job.kind} of ${job.subject}) failed`, { cause }),
    );
    const wait = cause instanceof Lapsed ? undefined : rule.waitsMs[job.attempts - 1];
    await own()
      .set({
        ...ended,
        failure: cause instanceof Lapsed ? cause.message : rule.failureWords(cause),
        ...(rule.isFinal?.(cause) === true ? { finished_at: again } : {}),
        due_at: again + (wait ?? 0),
        turn_at: wait === undefined ? null : again + wait,
      })
      .execute();
  } finally {
    stop();
    await handBack(db, job);
    onEnd?.();
  }
}

const ended = { leased_until: null, leased_by: null, solves_for: null } as const;

/** A job that nobody wants any more was the runner's until here: nothing else was solved for its household. */
const handBack = (db: Database, job: Claimed): Promise<unknown> =>
  db
    .updateTable('job')
    .set(ended)
    .where('bucket', '=', job.bucket)
    .where('seq', '=', job.seq)
    .where('leased_by', '=', job.by)
    .where('finished_at', 'is not', null)
    .execute();

const everyTenSeconds = (renew: () => Promise<void>): (() => void) => {
  const timer = setInterval(() => void renew(), renewedEveryMs);
  timer.unref();
  return () => clearInterval(timer);
};

/** Every runner that had the job went away over it. */
class Lapsed extends ShelfwardError {
  constructor() {
    super('job-lapsed', 'The program ended each time this was done, so it is not done again.');
  }
}

interface Claimed {
  readonly seq: number;
  readonly bucket: number;
  readonly kind: JobKind;
  readonly subject: string;
  readonly forOn: CalendarDate;
  readonly attempts: number;
  readonly lapses: number;
  readonly saidBefore: string | null;
  readonly by: string;
}

/** The next job there is for this runner, taken; null without one. */
async function claim(db: Database, rule: JobRule, at: number): Promise<Claimed | null> {
  for (const lane of rule.lanes) {
    const passed: number[] = [];
    for (;;) {
      const next = await ready(db, rule, lane, at)
        .select('bucket')
        .$if(passed.length > 0, (query) => query.where('bucket', 'not in', passed))
        .executeTakeFirst();
      if (next === undefined) break;
      const job = await claimIn(db, next.bucket, rule, lane, at);
      if (job !== null) return job;
      // Another runner took it meanwhile; there may be others.
      passed.push(next.bucket);
    }
  }
  return null;
}

async function claimIn(
  db: Database,
  bucket: number,
  rule: JobRule,
  lane: Lane,
  at: number,
): Promise<Claimed | null> {
  const by = randomUUID();
  const until = at + leaseMs;
  const choice = ready(db, rule, lane, at).where('bucket', '=', bucket).select('seq');
  const take = () =>
    db
      .updateTable('job')
      .set((row) => ({
        leased_until: until,
        turn_at: until,
        leased_by: by,
        served_at: at,
        attempts: row
          .case()
          .when('leased_by', 'is', null)
          .then(row('attempts', '+', 1))
          .else(row.ref('attempts'))
          .end(),
        lapses: row
          .case()
          .when('leased_by', 'is', null)
          .then(row.ref('lapses'))
          .else(row('lapses', '+', 1))
          .end(),
        solves_for: row
          .case()
          .when('kind', 'in', [...solving])
          .then(row.ref('household_id'))
          .end(),
      }))
      .where('bucket', '=', bucket)
      .where('seq', '=', engineOf(db).claim(choice))
      .returningAll()
      .executeTakeFirst();
  const takenUnlessSolving = () =>
    take().catch((cause: unknown) => {
      if (ruleFault(cause) !== 'unique') throw cause;
      return null;
    });
  let taken = await takenUnlessSolving();
  if (taken === null) {
    // The household's solve is another runner's; or it is one's that has gone, and then it stands in nobody's way any more.
    await db
      .updateTable('job')
      .set({ solves_for: null })
      .where('bucket', '=', bucket)
      .where('solves_for', 'is not', null)
      .where((row) => row.or([row('leased_until', '<=', at), row('leased_until', '>', until)]))
      .execute();
    taken = await takenUnlessSolving();
  }
  if (taken === undefined || taken === null) return null;
  await standBehind(db, taken.household_id as HouseholdId | null, bucket, at);
  return {
    seq: taken.seq,
    bucket,
    kind: taken.kind,
    subject: taken.subject,
    forOn: taken.for_on as CalendarDate,
    attempts: taken.attempts,
    lapses: taken.lapses,
    saidBefore: taken.said,
    by,
  };
}

/** What else waits for a household that was served now comes after all who were served before. */
const standBehind = async (db: Database, household: HouseholdId | null, bucket: number, at: number) =>
  household === null
    ? null
    : await db
        .updateTable('job')
        .set({ turn_at: at })
        .where('household_id', '=', household)
        .where('bucket', '=', bucket)
        .where('finished_at', 'is', null)
        .where('turn_at', '<', at)
        .execute()
        .catch((cause: unknown) => {
          // Another runner is doing just this.
          if (machineFault(cause) !== 'busy') throw cause;
        });

/**
 * Jobs of a lane that a runner may take, in the order of their turns. A lease that ends later than one taken now would was
 * written by a clock that was ahead, and holds nobody up; and nothing is taken for a household that has a solve under way.
 */
const ready = (db: Database, { kinds }: JobRule, lane: Lane, at: number) =>
  db
    .selectFrom('job')
    .where('lane', '=', lanes[lane])
    .where('finished_at', 'is', null)
    .where('turn_at', '<=', at)
    .where('kind', 'in', [...kinds])
    .where((row) =>
      row.or([
        row('leased_until', 'is', null),
        row('leased_until', '<=', at),
        row('leased_until', '>', at + leaseMs),
      ]),
    )
    .where(({ or, eb, not, exists, selectFrom }) =>
      or([
        eb('kind', 'not in', [...solving]),
        not(
          exists(
            selectFrom('job as other')
              .select('other.seq')
              .whereRef('other.bucket', '=', 'job.bucket')
              .whereRef('other.solves_for', '=', 'job.household_id')
              .where('other.leased_until', '>', at)
              .where('other.leased_until', '<=', at + leaseMs),
          ),
        ),
      ]),
    )
    .orderBy('turn_at')
    .orderBy('seq')
    .limit(1);
