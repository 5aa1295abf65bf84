import { existsSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { ShelfwardError } from '../../shared/problems.ts';
import { machineFault } from '../faults.ts';
import { checksumFile } from './backup.ts';
import { newestBackup } from './rotation.ts';

// What stands in the way of opening a household's file, in words: what was expected, what was found, and how to go back to the
// newest backup. Nothing here changes a file.

/** How to put the newest backup in place; says so too when there is none. */
export function wayBack(file: string): string {
  const backup = newestBackup(file);
  if (backup === null) return 'No backup stands beside it.';
  const without = existsSync(checksumFile(backup)) ? '' : ' --without-checksum';
  return `The newest backup is ${backup}; to put it in place: npm run -s shelfward -- restore ${quoted(backup)} --database ${quoted(file)}${without}`;
}

/** As a shell takes it for one word. */
export const quoted = (path: string): string =>
  /^[\w@%+=:,./-]+$/.test(path) ? path : `'${path.replaceAll("'", "'\\''")}'`;

/**
 * Refuses what must not become a new household's file: an empty one, which was made so by a crash or a full disk, and a missing one
 * of which there are backups.
 */
export function requireNoLoss(file: string): void {
  const there = statSync(file, { throwIfNoEntry: false });
  if (there === undefined) {
    if (newestBackup(file) !== null)
      throw new ShelfwardError(
        'database-missing',
        `There is no file at ${file}, though backups of it are there. ${wayBack(file)}. To begin anew instead, name another file with --database.`,
      );
    return;
  }
  if (there.isDirectory())
    throw new ShelfwardError(
      'database-unreadable',
      `${file} is a folder. Name a file in it with --database.`,
    );
  if (there.isFile() && there.size === 0)
    throw new ShelfwardError(
      'database-empty',
      `${file} is empty, as a crash or a full disk leaves a file behind. ${wayBack(file)}${newestBackup(file) === null ? ' To begin anew, remove the empty file.' : ''}`,
    );
}

/** The same for whatever SQLite or the system said while the file was opened. */
export function openingFault(file: string, cause: unknown): ShelfwardError {
  if (cause instanceof ShelfwardError) return cause;
  const said = cause instanceof Error ? cause.message : String(cause);
  const place = resolve(file);
  switch (machineFault(cause)) {
    case 'disk-full':
      return new ShelfwardError(
        'disk-full',
        `The disk has no room to open ${place}. Make room, then start again; what was recorded is safe.`,
        { cause },
      );
    case 'read-only':
    case 'not-allowed':
    case 'missing':
      return new ShelfwardError(
        'database-not-writable',
        `The system does not let this user read and write ${place} and the folder it is in (${said}). Allow it, or name another file with --database.`,
        { cause },
      );
    case 'busy':
      return new ShelfwardError(
        'database-busy',
        `Another program holds ${place}. Wait until it is done, or stop it.`,
        { cause },
      );
    default:
      return new ShelfwardError(
        'database-unreadable',
        `openDatabase: expected a sound SQLite file at ${place}; it is damaged or something else (${said}). It was left as it is. ${wayBack(file)}`,
        { cause },
      );
  }
}
