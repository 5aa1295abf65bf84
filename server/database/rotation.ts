import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { checksumFile } from './backup.ts';

/** How many scheduled backups stay: the newest of each of so many days, weeks and months that have one. */
export const backupsKept = { days: 7, weeks: 5, months: 12 } as const;

const scheduled = /-(\d{4}-\d{2}-\d{2})T\d{6}Z\.sqlite$/;

/** `2026-11-25T023000Z`: an instant as part of a file's name. */
export const stampOf = (at: number): string =>
  `${new Date(at).toISOString().slice(0, 19).replaceAll(':', '')}Z`;

/** Of the names of scheduled backups, those that may go. Other names are never among them. */
export function backupsToRemove(names: readonly string[]): readonly string[] {
  const newestFirst = names
    .filter((name) => scheduled.test(name))
    .sort()
    .reverse();
  const dayOf = (name: string): string => scheduled.exec(name)?.[1] ?? '';
  const kept = new Set<string>();
  const keepNewestOf = (periodOf: (day: string) => string, periods: number): void => {
    const seen = new Set<string>();
    for (const name of newestFirst) {
      const period = periodOf(dayOf(name));
      if (seen.size === periods) return;
      if (!seen.has(period)) kept.add(name);
      seen.add(period);
    }
  };
  keepNewestOf((day) => day, backupsKept.days);
  keepNewestOf(weekNumber, backupsKept.weeks);
  keepNewestOf((day) => day.slice(0, 7), backupsKept.months);
  return newestFirst.filter((name) => !kept.has(name));
}

const msInDay = 86_400_000;

/** Counts weeks from Monday to Sunday; day 0 of the count, 1970-01-01, was a Thursday. */
const weekNumber = (day: string): string =>
  String(Math.floor((Date.parse(`${day}T00:00:00Z`) / msInDay + 3) / 7));

/** Removes what the rotation lets go, with its checksum. */
export function rotateBackups(folder: string): readonly string[] {
  const gone = backupsToRemove(readdirSync(folder));
  for (const name of gone) {
    rmSync(join(folder, name), { force: true });
    rmSync(checksumFile(join(folder, name)), { force: true });
  }
  return gone;
}
