import type { HouseholdId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { type Database, fileOf } from '../../database/database.ts';
import { newestBackupAt } from '../../database/rotation.ts';
import { jobsOf, type KindOnRecord, wholeFile } from './jobs.ts';

/** What the program could not do by itself, and somebody should know. */
export type Trouble =
  /** The newest backup was made so long ago; null: there never was one. */
  | { readonly kind: 'backup is old'; readonly madeAt: number | null }
  /** The last job of its kind failed. */
  | {
      readonly kind: 'work failed';
      readonly work: KindOnRecord;
      readonly forOn: CalendarDate;
      readonly words: string;
      readonly isLetGo: boolean;
    };

/** A backup is made every night; one that is older than this was missed twice. */
const backupOldAfterMs = 2 * 24 * 60 * 60_000;

/** Whether the file's newest backup is older than two days; null while it is not, and for what lives in memory only. */
export async function oldBackup(
  db: Database,
  now: number,
): Promise<Extract<Trouble, { kind: 'backup is old' }> | null> {
  const file = await fileOf(db);
  if (file === null) return null;
  const madeAt = newestBackupAt(file, now);
  if (madeAt !== null) return now - madeAt > backupOldAfterMs ? { kind: 'backup is old', madeAt } : null;
  // A file that is new has no backup yet, and that is nothing to tell.
  const first = await db
    .selectFrom('job')
    .select('due_at')
    .where('kind', '=', 'backup')
    .where('subject', '=', wholeFile)
    .orderBy('seq')
    .limit(1)
    .executeTakeFirst();
  return first !== undefined && now - first.due_at > backupOldAfterMs
    ? { kind: 'backup is old', madeAt: null }
    : null;
}

/** What its owner should know of a household's nights and of the file it lives in. */
export async function troublesOf(
  db: Database,
  householdId: HouseholdId,
  now: number,
): Promise<readonly Trouble[]> {
  const [old, jobs] = await Promise.all([oldBackup(db, now), jobsOf(db, householdId)]);
  const lastOfKind = new Map(jobs.toReversed().map((job) => [job.kind, job]));
  const failed = [...lastOfKind.values()].flatMap((job): Trouble[] =>
    job.failure === null
      ? []
      : [
          {
            kind: 'work failed',
            work: job.kind,
            forOn: job.forOn,
            words: job.failure,
            isLetGo: job.finishedAt !== null,
          },
        ],
  );
  return [...(old === null ? [] : [old]), ...failed];
}

/** Households whose last job of a kind failed, and the file's own: how many, for whoever watches over the server. */
export async function failedWork(db: Database): Promise<number> {
  const { n } = await db
    .selectFrom('job')
    .select((row) => row.fn.countAll<number>().as('n'))
    .where('job.failure', 'is not', null)
    .where('job.kind', 'in', ['notices', 'replan', 'backup'])
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('job as later')
            .select('later.seq')
            .whereRef('later.kind', '=', 'job.kind')
            .whereRef('later.subject', '=', 'job.subject')
            .whereRef('later.seq', '>', 'job.seq'),
        ),
      ),
    )
    .executeTakeFirstOrThrow();
  return n;
}
