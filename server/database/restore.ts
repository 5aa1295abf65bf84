import { copyFileSync, existsSync, linkSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { sql } from 'kysely';
import { counted } from '../../shared/counting.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import { checksumFile, checksumOf } from './backup.ts';
import { openDatabase } from './database.ts';
import { makeFolder } from './folder.ts';
import { stepsInFolder } from './migrate.ts';
import { isAddress, shownPlace } from './place.ts';
import { SQLite, type SQLiteDatabase } from './sqlite.ts';
import { toDisk } from './to-disk.ts';

export interface Restored {
  /** Where the file that stood there before is kept; null when there was none. */
  readonly keptAs: string | null;
  readonly households: number;
  readonly events: number;
}

export interface RestoreWish {
  readonly backup: string;
  readonly file: string;
  /** Takes a backup that has no checksum beside it on SQLite's own check alone. */
  readonly withoutChecksum: boolean;
  /** Written into the name of the file that is kept, `2026-11-25T023000Z`. */
  readonly stamp: string;
}

/**
 * Puts a backup in the place of a household's file. The backup is checked first (checksum, SQLite's integrity, foreign
 * keys, schema); the present file is only moved aside once all of that holds, and it is kept.
 */
export async function restore(wish: RestoreWish): Promise<Outcome<Restored>> {
  const { backup, file, stamp } = wish;
  const database = [file, backup].find(isAddress);
  if (database !== undefined)
    return refuse(
      'not-a-file',
      `${shownPlace(database)} is a PostgreSQL database, and restore puts a file in the place of a file. pg_restore brings back what pg_dump copied; move --from FILE --to ${shownPlace(database)} fills an empty database from a file.`,
    );
  const sound = checkBytes(wish);
  if (!sound.ok) return sound;

  makeFolder(dirname(resolve(file)));
  const newcomer = `${file}.restoring`;
  clear(newcomer);
  try {
    copyFileSync(backup, newcomer);
    const checked = await checkContents(newcomer, backup);
    if (!checked.ok) return checked;
    toDisk(newcomer);
    const alone = existsSync(file) ? settlePresent(file) : found(true);
    if (!alone.ok) return alone;
    const keptAs = existsSync(file)
      ? keepPresent(file, freeName(`${file.replace(/\.sqlite$/, '')}-before-restore-${stamp}`))
      : null;
    renameSync(newcomer, file);
    toDisk(dirname(resolve(file)));
    return found({ keptAs, ...checked.value });
  } finally {
    clear(newcomer);
  }
}

const besides = ['', '-wal', '-shm', '-journal'];

const clear = (file: string): void => {
  for (const end of besides) rmSync(`${file}${end}`, { force: true });
};

const refuse = (code: string, message: string): Outcome<never> =>
  refused({ code, path: ['file'], message: `${message} The present data was left as it is.` });

function checkBytes({ backup, withoutChecksum }: RestoreWish): Outcome<true> {
  if (!existsSync(backup))
    return refuse('backup-missing', `There is no backup at ${backup}. Look at its name.`);
  const beside = checksumFile(backup);
  if (!existsSync(beside)) {
    return withoutChecksum
      ? found(true)
      : refuse(
          'checksum-missing',
          `${basename(beside)} is missing beside the backup, so a change in the file would go unnoticed. Fetch it too, or repeat with --without-checksum.`,
        );
  }
  const [said = ''] = readFileSync(beside, 'utf8').split(/\s/);
  return said === checksumOf(backup)
    ? found(true)
    : refuse(
        'backup-altered',
        `${basename(backup)} is cut off or was changed: its sha256 is ${checksumOf(backup).slice(0, 12)}…, and ${said.slice(0, 12)}… was backed up. Take another backup.`,
      );
}

/** Opens a copy as the program would, migrations and all, so that what is put in place is known to work. */
async function checkContents(
  copy: string,
  backup: string,
): Promise<Outcome<{ readonly households: number; readonly events: number }>> {
  const soundness = checkFile(copy);
  if (soundness !== null)
    return refuse(
      'backup-damaged',
      `${basename(backup)} is no sound SQLite file: ${soundness}. Take another backup.`,
    );
  const newer = await unknownStep(copy);
  if (newer !== null)
    return refuse(
      'backup-newer',
      `${basename(backup)} has the step “${newer}”, which this version does not know. Bring the program up to date first.`,
    );
  const fresh = await openDatabase(':memory:');
  const wanted = await schemaOf(fresh);
  await fresh.destroy();
  const db = await openDatabase(copy);
  try {
    const there = await schemaOf(db);
    const differing = [...wanted].find(([name, text]) => there.get(name) !== text)?.[0];
    if (differing !== undefined)
      return refuse(
        'backup-schema',
        `${basename(backup)} is not of this program, or was changed: its “${differing}” is another. Take another backup.`,
      );
    // A copy made by other means may still know what was connected then.
    await db.deleteFrom('connected_thing').execute();
    await db.deleteFrom('household_token').where('opens', '=', 'interface').execute();
    const count = async (table: 'household' | 'jar_event') =>
      (
        await db
          .selectFrom(table)
          .select((row) => row.fn.countAll<number>().as('n'))
          .executeTakeFirstOrThrow()
      ).n;
    return found({ households: await count('household'), events: await count('jar_event') });
  } finally {
    await sql`PRAGMA journal_mode = DELETE`.execute(db);
    await db.destroy();
  }
}

/** What is wrong with the file, or null. */
function checkFile(file: string): string | null {
  let sqlite: SQLiteDatabase | undefined;
  try {
    sqlite = new SQLite(file, { readonly: true });
    const health: unknown = sqlite.pragma('integrity_check(1)', { simple: true });
    if (health !== 'ok') return String(health);
    const strays = sqlite.pragma('foreign_key_check') as readonly unknown[];
    if (strays.length > 0) return `${counted(strays.length, 'row belongs', 'rows belong')} to nothing`;
    return sqlite.prepare("SELECT 1 FROM sqlite_master WHERE name = 'household'").get() === undefined
      ? 'it holds no table of households'
      : null;
  } catch (cause) {
    return cause instanceof Error ? cause.message : String(cause);
  } finally {
    sqlite?.close();
  }
}

async function unknownStep(file: string): Promise<string | null> {
  const known = Object.keys(await stepsInFolder.getMigrations());
  const sqlite = new SQLite(file, { readonly: true });
  const seen = sqlite.prepare('SELECT name FROM kysely_migration ORDER BY name').all() as { name: string }[];
  sqlite.close();
  return seen.find(({ name }) => !known.includes(name))?.name ?? null;
}

async function schemaOf(db: Awaited<ReturnType<typeof openDatabase>>): Promise<ReadonlyMap<string, string>> {
  const { rows } = await sql<{ name: string; text: string }>`
    SELECT name, sql AS text FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%'`.execute(
    db,
  );
  return new Map(rows.map(({ name, text }) => [name, text]));
}

/**
 * Writes what is still in the log into the present file. SQLite only lets the last connection leave the log behind, so
 * this also notices a program that has the file open. A damaged file is taken as it stands.
 */
function settlePresent(file: string): Outcome<true> {
  let sqlite: SQLiteDatabase | undefined;
  try {
    sqlite = new SQLite(file, { timeout: 2_000 });
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('journal_mode = DELETE');
    return found(true);
  } catch (cause) {
    const code = cause instanceof Error && 'code' in cause ? String(cause.code) : '';
    return code.startsWith('SQLITE_BUSY')
      ? refuse('file-in-use', `A program has ${file} open. Stop the server, then restore.`)
      : found(true);
  } finally {
    sqlite?.close();
  }
}

/** Two restores within a second keep both files. */
const freeName = (stem: string, again = 1): string => {
  const name = again === 1 ? `${stem}.sqlite` : `${stem}-${again}.sqlite`;
  return existsSync(name) ? freeName(stem, again + 1) : name;
};

/** Gives the present file a second name, so that at no moment there is no file; a log that could not be settled goes along. */
function keepPresent(file: string, keptAs: string): string {
  linkSync(file, keptAs);
  for (const end of besides.slice(1))
    if (existsSync(`${file}${end}`)) renameSync(`${file}${end}`, `${keptAs}${end}`);
  return keptAs;
}
