import { existsSync, realpathSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';
import { machineFault } from '../faults.ts';
import { makeFolder } from './folder.ts';
import { openingFault } from './opening.ts';
import { isAddress } from './place.ts';
import { SQLite, type SQLiteDatabase } from './sqlite.ts';

export interface ServingLock {
  release(): void;
}

/** One file under two names has one place. */
const placeOf = (file: string): string =>
  existsSync(file) ? realpathSync(file) : join(realpathSync(dirname(resolve(file))), basename(file));

/**
 * Says that this process serves the file; another that does so already is told of. The lock is one the system holds for the
 * process on a file of its own beside (`…-serving`), so it ends with the process however that ends, and the file that stays
 * behind means nothing. A file in memory is nobody else's.
 */
export const lockForServing = (file: string): Outcome<ServingLock> =>
  lock(file, 'serving', {
    code: 'served-already',
    path: ['database'],
    message: `Another server of this machine serves ${file}. Stop that one first, or name another file with --database.`,
  });

/** The same for the one process that does a file's work in the background. */
export const lockForWorking = (file: string): Outcome<ServingLock> =>
  lock(file, 'working', {
    code: 'worked-already',
    path: ['database'],
    message: `Another program of this machine does the background work of ${file}. Stop that one first, start this one with --without-work if it is to serve pages alone, or name another file with --database.`,
  });

/** Neither serves nor works meanwhile. */
export function lockForBoth(file: string): Outcome<ServingLock> {
  const serving = lockForServing(file);
  if (!serving.ok) return serving;
  const working = lockForWorking(file);
  if (!working.ok) {
    serving.value.release();
    return working;
  }
  return found({
    release: () => {
      working.value.release();
      serving.value.release();
    },
  });
}

function lock(file: string, part: 'serving' | 'working', problem: Problem): Outcome<ServingLock> {
  // Several programs of one database are told apart by the database; what one remembers by itself is another's to see later.
  if (file === ':memory:' || isAddress(file)) return found({ release: () => {} });
  makeFolder(dirname(resolve(file)));
  let sqlite: SQLiteDatabase | undefined;
  try {
    sqlite = new SQLite(`${placeOf(file)}-${part}`, { timeout: 0 });
    const held = sqlite;
    sqlite.pragma('journal_mode = MEMORY');
    sqlite.exec('BEGIN EXCLUSIVE');
    return found({ release: () => held.close() });
  } catch (cause) {
    sqlite?.close();
    if (machineFault(cause) !== 'busy') throw openingFault(file, cause);
    return refused(problem);
  }
}
