import { DateTime } from 'luxon';
import type { CalendarDate } from '../../shared/week.ts';
import type { Clock } from '../clock.ts';
import type { Database } from '../database/database.ts';
import type { JobTable } from '../database/tables.ts';
import { households } from '../queries/household.ts';
import { wholeFile } from '../queries/jobs.ts';
import { type Repeating, repeating } from './repeating.ts';

export type JobKind = JobTable['kind'];

/** What a job does; it may be done again, so a second time must do no harm. */
export type JobWork = (subject: string, forOn: CalendarDate) => Promise<void>;

export interface NightlyParts {
  readonly db: Database;
  readonly now: Clock;
  readonly work: Readonly<Record<JobKind, JobWork>>;
  readonly onError?: (cause: unknown) => void;
}

/** Half past two where the household lives. */
const nightHour = { hour: 2, minute: 30 } as const;
const leaseMs = 15 * 60_000;
const mostAttempts = 4;
/** Wait before the second, third and fourth attempt. */
const waitMs = [60_000, 10 * 60_000, 60 * 60_000] as const;
const keptMs = 90 * 24 * 60 * 60_000;

/** The night's work from a table: each job once for its day, taken under a lease, tried again when it fails. */
export function openNightly({ db, now, work, onError }: NightlyParts): Repeating {
  return repeating(async (goesOn) => {
    await noteLastNight(db, now());
    while (goesOn()) {
      const job = await lease(db, now());
      if (job === null) return;
      try {
        await work[job.kind](job.subject, job.forOn);
        await db
          .updateTable('job')
          .set({ finished_at: now(), leased_until: null, failure: null })
          .where('seq', '=', job.seq)
          .execute();
      } catch (cause) {
        onError?.(cause);
        await db
          .updateTable('job')
          .set({
            leased_until: null,
            failure: 'It stopped because of a fault in the program.',
            due_at: now() + (waitMs[job.attempts - 1] ?? 0),
          })
          .where('seq', '=', job.seq)
          .execute();
      }
    }
  }, onError);
}

/** The night that is past, in the household's zone: several nights missed ask for the last one only. */
function lastNight(at: number, zone: string): { readonly dueAt: number; readonly forOn: CalendarDate } {
  const here = DateTime.fromMillis(at, { zone });
  const tonight = here.set({ ...nightHour, second: 0, millisecond: 0 });
  const night = tonight <= here ? tonight : tonight.minus({ days: 1 });
  return { dueAt: night.toMillis(), forOn: night.toFormat('yyyy-MM-dd') as CalendarDate };
}

async function noteLastNight(db: Database, at: number): Promise<void> {
  const all = await households(db);
  const zone = all.find(({ isDemo }) => !isDemo)?.timeZone ?? all[0]?.timeZone ?? 'UTC';
  const wanted: { kind: JobKind; subject: string; zone: string }[] = [
    { kind: 'backup', subject: wholeFile, zone },
    ...all.flatMap(({ id, timeZone }) => [
      { kind: 'notices' as const, subject: id as string, zone: timeZone },
      { kind: 'replan' as const, subject: id as string, zone: timeZone },
    ]),
  ];
  for (const { kind, subject, zone: where } of wanted) {
    const { dueAt, forOn } = lastNight(at, where);
    await db
      .insertInto('job')
      .values({
        kind,
        subject,
        for_on: forOn,
        due_at: dueAt,
        leased_until: null,
        finished_at: null,
        failure: null,
      })
      .onConflict((same) => same.columns(['kind', 'subject', 'for_on']).doNothing())
      .execute();
  }
  await db
    .deleteFrom('job')
    .where('due_at', '<', at - keptMs)
    .execute();
}

interface Leased {
  readonly seq: number;
  readonly kind: JobKind;
  readonly subject: string;
  readonly forOn: CalendarDate;
  readonly attempts: number;
}

/** Takes the next due job, unless another runner has one under a lease that still stands. */
async function lease(db: Database, at: number): Promise<Leased | null> {
  return db.transaction().execute(async (trx) => {
    const elsewhere = await trx
      .selectFrom('job')
      .select('seq')
      .where('leased_until', '>', at)
      .executeTakeFirst();
    if (elsewhere) return null;
    const next = await trx
      .selectFrom('job')
      .selectAll()
      .where('finished_at', 'is', null)
      .where('due_at', '<=', at)
      .where('attempts', '<', mostAttempts)
      .orderBy('due_at')
      .orderBy('seq')
      .executeTakeFirst();
    if (!next) return null;
    const attempts = next.attempts + 1;
    await trx
      .updateTable('job')
      .set({ leased_until: at + leaseMs, attempts })
      .where('seq', '=', next.seq)
      .execute();
    return {
      seq: next.seq,
      kind: next.kind,
      subject: next.subject,
      forOn: next.for_on as CalendarDate,
      attempts,
    };
  });
}
