import { existsSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { backupFolder, backupName, checksumFile } from './backup.ts';

/** How many scheduled backups stay: the newest of each of so many days, weeks and months that have one. */
const backupsKept = { days: 7, weeks: 5, months: 12 } as const;

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

const stamp = /^(\d{4}-\d{2}-\d{2})T(\d{2})(\d{2})(\d{2})Z$/;

/** What stands between a file's name and the ending in the name of one of its backups; null for backups of other files. */
const markIn = (file: string, name: string): string | null => {
  const [stem = '', ending = ''] = backupName(file, '*').split('*');
  return name.startsWith(stem) && name.endsWith(ending) ? name.slice(stem.length, -ending.length) : null;
};

/** When a scheduled backup of that file was made, by its name, milliseconds since 1970 UTC; null for other names. */
const stampedAt = (file: string, name: string): number | null => {
  const [, day, hour, minute, second] = stamp.exec(markIn(file, name) ?? '') ?? [];
  return day === undefined ? null : Date.parse(`${day}T${hour}:${minute}:${second}Z`);
};

const namesBeside = (file: string): readonly string[] =>
  existsSync(backupFolder(file)) ? readdirSync(backupFolder(file)) : [];

/**
 * Removes what the rotation lets go of that file's scheduled backups, with its checksum; backups of other files in the
 * folder are not looked at. What a clock that was ahead dated later than now takes no place from the others.
 */
export function rotateBackups(file: string, now: number): readonly string[] {
  const own = namesBeside(file).flatMap((name) => {
    const at = stampedAt(file, name);
    return at === null ? [] : [{ name, isAhead: at > now }];
  });
  const namesOf = (isAhead: boolean) => own.filter((one) => one.isAhead === isAhead).map(({ name }) => name);
  const gone = [...backupsToRemove(namesOf(false)), ...backupsToRemove(namesOf(true))];
  for (const name of gone) {
    rmSync(join(backupFolder(file), name), { force: true });
    rmSync(checksumFile(join(backupFolder(file), name)), { force: true });
  }
  return gone;
}

/** When the newest scheduled backup of that file was made, as its name says; null when there is none up to now. */
export function newestBackupAt(file: string, now: number): number | null {
  const times = namesBeside(file)
    .map((name) => stampedAt(file, name))
    .filter((at): at is number => at !== null && at <= now);
  return times.length === 0 ? null : Math.max(...times);
}

/** The newest whole copy of that file beside it, made at night or before its schema changed; null when there is none. */
export function newestBackup(file: string): string | null {
  const copies = namesBeside(file).flatMap((name) => {
    const path = join(backupFolder(file), name);
    const at =
      stampedAt(file, name) ??
      (markIn(file, name)?.startsWith('before-') === true ? statSync(path).mtimeMs : null);
    return at === null ? [] : [{ path, at }];
  });
  return copies.sort((one, other) => other.at - one.at)[0]?.path ?? null;
}
