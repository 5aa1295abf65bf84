import { createHash } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import SQLite from 'better-sqlite3';
import { found, type Outcome, refused } from '../../shared/problems.ts';

// A backup is one SQLite file that needs nothing beside it, and a line as `sha256sum` writes it, because SQLite itself
// does not notice a changed letter in a row.

/** Backups stand in this folder beside the household's file. */
export const backupFolder = (file: string): string => join(dirname(resolve(file)), 'backups');

export const checksumFile = (backup: string): string => `${backup}.sha256`;

export const checksumOf = (file: string): string =>
  createHash('sha256').update(readFileSync(file)).digest('hex');

/** The whole file in one step, so that writers elsewhere never make the copy start over. */
const allPages = () => 0x7fffffff;

/** Copies an open database into the folder while it is being used; the name says what the backup is for. */
export async function backUpOpen(sqlite: SQLite.Database, folder: string, name: string): Promise<string> {
  mkdirSync(folder, { recursive: true });
  const to = join(folder, `${basename(sqlite.name).replace(/\.sqlite$/, '')}-${name}.sqlite`);
  await copyWhole(sqlite, to);
  return to;
}

/** Copies a household's file, in use or not, to a new file. */
export async function backUpFile(file: string, to: string): Promise<Outcome<{ readonly backup: string }>> {
  if (!existsSync(file))
    return refuse(
      'file-missing',
      `Expected a household's file at ${file}; there is none. Name another with --database.`,
    );
  if (existsSync(to))
    return refuse(
      'backup-exists',
      `Expected a new file for the backup; ${to} is already there. Choose another name.`,
    );
  mkdirSync(dirname(resolve(to)), { recursive: true });
  const sqlite = new SQLite(file, { readonly: true });
  try {
    await copyWhole(sqlite, to);
  } finally {
    sqlite.close();
  }
  return found({ backup: to });
}

const refuse = (code: string, message: string): Outcome<never> => refused({ code, path: ['file'], message });

/** Nothing stands under the name before it is whole and on the disk. */
async function copyWhole(sqlite: SQLite.Database, to: string): Promise<void> {
  const unfinished = `${to}.unfinished`;
  rmSync(unfinished, { force: true });
  try {
    await sqlite.backup(unfinished, { progress: allPages });
    const copy = new SQLite(unfinished);
    copy.pragma('journal_mode = DELETE');
    copy.close();
    writeFileSync(checksumFile(to), `${checksumOf(unfinished)}  ${basename(to)}\n`);
    toDisk(unfinished);
    toDisk(checksumFile(to));
    renameSync(unfinished, to);
    toDisk(dirname(resolve(to)));
  } finally {
    rmSync(unfinished, { force: true });
  }
}

/** Waits until the disk has it. */
export function toDisk(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
