import { createHash } from 'node:crypto';
import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { found, type Outcome, refused, ShelfwardError } from '../../shared/problems.ts';
import { faultWords } from '../faults.ts';
import { makeFolder } from './folder.ts';
import { isAddress, shownPlace } from './place.ts';
import { SQLite, type SQLiteDatabase } from './sqlite.ts';
import { toDisk } from './to-disk.ts';

// A backup is one SQLite file that needs nothing beside it, and a line as `sha256sum` writes it, because SQLite itself
// does not notice a changed letter in a row.

/** Backups stand in this folder beside the household's file. */
export const backupFolder = (file: string): string => join(dirname(resolve(file)), 'backups');

/** `pantry.sqlite` marked `2026-11-25T023000Z` is `pantry-2026-11-25T023000Z.sqlite`. */
export const backupName = (file: string, mark: string): string =>
  `${basename(file).replace(/\.sqlite$/, '')}-${mark}.sqlite`;

export const checksumFile = (backup: string): string => `${backup}.sha256`;

export const checksumOf = (file: string): string =>
  createHash('sha256').update(readFileSync(file)).digest('hex');

/** The whole file in one step, so that writers elsewhere never make the copy start over. */
const allPages = () => 0x7fffffff;

/** Copies an open database into the folder while it is being used; the mark in its name says what the backup is for. */
export async function backUpOpen(sqlite: SQLiteDatabase, folder: string, mark: string): Promise<string> {
  makeFolder(folder);
  let to = join(folder, backupName(sqlite.name, mark));
  // A copy from before an earlier try is never replaced.
  for (let again = 2; existsSync(to); again += 1)
    to = join(folder, backupName(sqlite.name, `${mark}-${again}`));
  await copyWhole(sqlite, to);
  return to;
}

/** Copies a household's file, in use or not, to a new file. */
export async function backUpFile(file: string, to: string): Promise<Outcome<{ readonly backup: string }>> {
  const database = [file, to].find(isAddress);
  if (database !== undefined)
    return refuse(
      'not-a-file',
      `${shownPlace(database)} is a PostgreSQL database, and backup copies a file into a file. pg_dump copies the database; move --from ${shownPlace(database)} --to FILE makes a file of all it holds.`,
    );
  if (!existsSync(file))
    return refuse('file-missing', `There is no file at ${file}. Name another with --database.`);
  if (existsSync(to))
    return refuse('backup-exists', `${to} is there already. Choose another name for the backup.`);
  try {
    makeFolder(dirname(resolve(to)));
    const sqlite = new SQLite(file, { readonly: true });
    try {
      await copyWhole(sqlite, to);
    } finally {
      sqlite.close();
    }
  } catch (cause) {
    const said = cause instanceof Error ? cause.message : String(cause);
    const why = cause instanceof ShelfwardError ? said : faultWords(cause, said);
    return refuse('backup-failed', `No backup was made at ${to}. ${why}`);
  }
  return found({ backup: to });
}

const refuse = (code: string, message: string): Outcome<never> => refused({ code, path: ['file'], message });

/**
 * Nothing stands under the name before it is whole, found sound, and on the disk; then it is read again, so that nobody
 * relies on, or lets an older copy go for, bytes that did not arrive. What could not be finished leaves nothing behind.
 */
async function copyWhole(sqlite: SQLiteDatabase, to: string): Promise<void> {
  const unfinished = `${to}.unfinished`;
  rmSync(unfinished, { force: true });
  let isWhole = false;
  try {
    await sqlite.backup(unfinished, { progress: allPages });
    settle(unfinished);
    const sum = checksumOf(unfinished);
    writeFileSync(checksumFile(to), `${sum}  ${basename(to)}\n`);
    toDisk(unfinished);
    toDisk(checksumFile(to));
    // The checksum has its name before the copy has: a disk may keep the later of two names alone.
    toDisk(dirname(resolve(to)));
    renameSync(unfinished, to);
    toDisk(dirname(resolve(to)));
    isWhole = checksumOf(to) === sum && readFileSync(checksumFile(to), 'utf8').startsWith(sum);
    if (!isWhole) throw new Error('what was written could not be read again as it was');
  } finally {
    rmSync(unfinished, { force: true });
    if (!isWhole) for (const left of [to, checksumFile(to)]) rmSync(left, { force: true });
  }
}

/** Needs nothing beside it from now on, and is sound by SQLite's own check. */
function settle(copy: string): void {
  const sqlite = new SQLite(copy);
  try {
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('journal_mode = DELETE');
    const health: unknown = sqlite.pragma('integrity_check(1)', { simple: true });
    if (health !== 'ok') throw new Error(`the copy is not sound: ${String(health)}`);
    forgetThings(sqlite);
  } finally {
    sqlite.close();
  }
}

/**
 * A copy opens to no connected thing: it may lie or be served elsewhere, and what was withdrawn since must not live on in it. What
 * is let go of leaves no trace in the file.
 */
function forgetThings(sqlite: SQLiteDatabase): void {
  const has = (table: string): boolean =>
    sqlite.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?").get(table) !== undefined;
  if (!has('connected_thing')) return;
  sqlite.pragma('secure_delete = ON');
  sqlite.exec('DELETE FROM connected_thing');
  if (has('household_token')) sqlite.exec("DELETE FROM household_token WHERE opens = 'interface'");
}
