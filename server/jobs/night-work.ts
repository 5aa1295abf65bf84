import { join } from 'node:path';
import { IANAZone } from 'luxon';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { Household } from '../../src/household/household.ts';
import { pageNames } from '../../views/words/page-names.ts';
import { type Clock, momentIn } from '../clock.ts';
import { backUpFile, backupFolder, backupName } from '../database/backup.ts';
import type { Database } from '../database/database.ts';
import { isAddress } from '../database/place.ts';
import { rotateBackups, stampOf } from '../database/rotation.ts';
import { findHousehold } from '../queries/household/household.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { noticesNow } from '../records/notices/standing-notices.ts';
import type { JobWork } from './job-table.ts';
import { NightFailure, type NightKind } from './nightly.ts';
import type { PlanMaker } from './plan-maker.ts';

export interface NightParts {
  readonly db: Database;
  readonly file: string;
  readonly reference: ReferenceTables;
  readonly now: Clock;
  readonly maker: Pick<PlanMaker, 'make'>;
}

/** What is done each night: a backup, the notices of the new day, and a plan that starts from it. */
export function nightWork({
  db,
  file,
  reference,
  now,
  maker,
}: NightParts): Readonly<Record<NightKind, JobWork>> {
  /** A household that is gone by now asks for nothing. */
  const householdOf = async (subject: string): Promise<Household | null> => {
    const household = await findHousehold(db, subject);
    if (household && !IANAZone.isValidZone(household.storedTimeZone))
      throw new NightFailure(
        `“${household.storedTimeZone.slice(0, 60)}” is no time zone; one is America/Denver. Choose it under ${pageNames.kitchen}.`,
        { triedAgain: false },
      );
    return household;
  };
  return {
    backup: async () => {
      // A database is backed up by whoever runs its server.
      if (isAddress(file)) return;
      const made = await backUpFile(file, join(backupFolder(file), backupName(file, stampOf(now()))));
      if (!made.ok)
        throw new NightFailure(made.problems.map(({ message }) => message).join(' '), { triedAgain: true });
      rotateBackups(file, now());
    },
    notices: async (subject) => {
      const household = await householdOf(subject);
      if (household) await noticesNow(db, household.id, momentIn(household.timeZone, now), reference);
    },
    replan: async (subject, _forOn, lease) => {
      const household = await householdOf(subject);
      if (!household) return;
      const { today } = momentIn(household.timeZone, now);
      const before = await newestPlan(db, household.id);
      if (before !== null && !before.isOutOfDate && before.asOf === today) return;
      const failure = await maker.make(household.id, lease, 'overnight');
      if (failure !== null) throw new NightFailure(failure.words, { triedAgain: failure.mayPass });
    },
  };
}
