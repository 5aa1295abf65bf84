import { DateTime } from 'luxon';
import type { CalendarDate } from '../../shared/week.ts';
import type { Clock } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { households } from '../queries/household.ts';
import { wholeFile } from '../queries/jobs.ts';
import { doDueJobs, type JobKind, type JobRule, type JobWork } from './job-table.ts';
import { type Repeating, repeating } from './repeating.ts';

/** Kinds of the night's work. */
export type NightKind = Exclude<JobKind, 'letter'>;

export interface NightlyParts {
  readonly db: Database;
  readonly now: Clock;
  readonly work: Readonly<Record<NightKind, JobWork>>;
  readonly onError?: (cause: unknown) => void;
}

/** Half past two where the household lives. */
const nightHour = { hour: 2, minute: 30 } as const;
const nightRule: JobRule = {
  kinds: ['backup', 'notices', 'replan'],
  leaseMs: 15 * 60_000,
  waitsMs: [60_000, 10 * 60_000, 60 * 60_000],
  failureWords: () => 'It stopped because of a fault in the program.',
};
const keptMs = 90 * 24 * 60 * 60_000;

/** The night's work from a table: each job once for its day, taken under a lease, tried again when it fails. */
export function openNightly({ db, now, work, onError }: NightlyParts): Repeating {
  return repeating(async (goesOn) => {
    await noteLastNight(db, now());
    await doDueJobs({
      db,
      now,
      rule: nightRule,
      work: (kind) => work[kind as NightKind],
      goesOn,
      onFailure: onError,
    });
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
  const wanted: { kind: NightKind; subject: string; zone: string }[] = [
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
