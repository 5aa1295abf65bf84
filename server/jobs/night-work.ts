import { basename, join } from 'node:path';
import { ShelfwardError } from '../../shared/problems.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { type Clock, momentIn } from '../clock.ts';
import { backUpFile, backupFolder } from '../database/backup.ts';
import type { Database } from '../database/database.ts';
import { rotateBackups, stampOf } from '../database/rotation.ts';
import { type Household, households } from '../queries/household.ts';
import { newestPlan } from '../queries/plans.ts';
import { noticesNow } from '../year/standing-notices.ts';
import type { JobWork } from './job-table.ts';
import type { NightKind } from './nightly.ts';
import type { PlanJob } from './plan-job.ts';

export interface NightParts {
  readonly db: Database;
  readonly file: string;
  readonly reference: ReferenceTables;
  readonly now: Clock;
  readonly planJob: PlanJob;
}

/** What is done each night: a backup, the notices of the new day, and a plan that starts from it. */
export function nightWork({
  db,
  file,
  reference,
  now,
  planJob,
}: NightParts): Readonly<Record<NightKind, JobWork>> {
  /** A household that is gone by now asks for nothing. */
  const householdOf = async (subject: string): Promise<Household | undefined> =>
    (await households(db)).find(({ id }) => id === subject);
  return {
    backup: async () => {
      const folder = backupFolder(file);
      const to = join(folder, `${basename(file).replace(/\.sqlite$/, '')}-${stampOf(now())}.sqlite`);
      const made = await backUpFile(file, to);
      if (!made.ok)
        throw new ShelfwardError('backup-failed', made.problems.map(({ message }) => message).join(' '));
      rotateBackups(folder);
    },
    notices: async (subject) => {
      const household = await householdOf(subject);
      if (household) await noticesNow(db, household.id, momentIn(household.timeZone, now), reference);
    },
    replan: async (subject) => {
      const household = await householdOf(subject);
      if (!household) return;
      const { today } = momentIn(household.timeZone, now);
      const before = await newestPlan(db, household.id);
      if (before !== null && !before.isOutOfDate && before.asOf === today) return;
      planJob.start(household.id);
      await planJob.settled(household.id);
    },
  };
}
