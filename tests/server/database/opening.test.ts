import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { backUpFile, backupFolder, backupName } from '../../../server/database/backup.ts';
import { openDatabase } from '../../../server/database/database.ts';
import { openingFault } from '../../../server/database/opening.ts';
import { newestBackup, newestBackupAt, rotateBackups, stampOf } from '../../../server/database/rotation.ts';
import { lockForServing } from '../../../server/database/serving-lock.ts';
import { SQLite } from '../../../server/database/sqlite.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { quinceYardHousehold } from '../../builders/quince-yard.ts';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'pantry-'));
  file = join(folder, 'quince-yard.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const noon = Date.UTC(2026, 7, 17, 18);
const scheduled = (at: number, of = file): string => join(backupFolder(of), backupName(of, stampOf(at)));

/** Quince Yard in its file, and a backup of the night before. */
const backedUp = async (): Promise<string> => {
  const { db } = await quinceYardHousehold(file);
  const backup = scheduled(noon - 86_400_000);
  worked(await backUpFile(file, scheduled(noon - 2 * 86_400_000)));
  worked(await backUpFile(file, backup));
  await db.destroy();
  return backup;
};

const emptied = {
  'emptied to no bytes': () => truncateSync(file, 0),
  gone: () => rmSync(file),
  'emptied of all tables': () => {
    rmSync(file);
    const sqlite = new SQLite(file);
    sqlite.pragma('journal_mode = WAL');
    sqlite.close();
  },
  'cut off': () => truncateSync(file, 5_000),
  'written over': () => writeFileSync(file, 'nothing of a pantry '.repeat(1000)),
} as const;

describe('a file that was lost never becomes a new one', () => {
  test.each(Object.entries(emptied))(
    '%s: the newest backup is named, and how to put it in place',
    async (_, lose) => {
      const backup = await backedUp();
      lose();
      const before = existsSync(file) ? readFileSync(file) : null;

      const opening = openDatabase(file);

      await expect(opening).rejects.toThrow(`npm run -s shelfward -- restore ${backup} --database ${file}`);
      expect(existsSync(file) ? readFileSync(file) : null).toEqual(before);
    },
  );

  test('an empty file without a backup is refused too', async () => {
    writeFileSync(file, '');

    await expect(openDatabase(file)).rejects.toThrow(
      /is empty, as a crash.*No backup stands beside it.*remove the empty file/,
    );
    expect(statSync(file).size).toBe(0);
  });

  test('backups of another file in the folder are none of this one', async () => {
    await backedUp();
    const other = join(folder, 'quince-yard-2.sqlite');

    const db = await openDatabase(other);

    expect(newestBackup(other)).toBeNull();
    await db.destroy();
  });
});

describe('what stands in the way is said in words', () => {
  test('a file of a newer version', async () => {
    const db = await openDatabase(file);
    await sql`INSERT INTO kysely_migration (name, timestamp) VALUES ('2199-01-01-add-teleport', 'later')`.execute(
      db,
    );
    await db.destroy();

    await expect(openDatabase(file)).rejects.toThrow(
      /written by a newer version of the program \(it has the step “2199-01-01-add-teleport”\)/,
    );
  });

  test('a file of another program, which is left alone', async () => {
    const sqlite = new SQLite(file);
    sqlite.exec('CREATE TABLE bees (id TEXT)');
    sqlite.close();
    const before = readFileSync(file);

    await expect(openDatabase(file)).rejects.toThrow(/a file of another program/);
    expect(readFileSync(file)).toEqual(before);
  });

  test('a folder in the place of the file, and a place where nothing can be made', async () => {
    mkdirSync(file);

    await expect(openDatabase(file)).rejects.toThrow(/is a folder/);
    await expect(openDatabase('/proc/shelfward/pantry.sqlite')).rejects.toThrow(
      /The folder \/proc\/shelfward could not be made/,
    );
  });

  // The tests may run as root, whom no folder stops: the codes are those SQLite gives.
  test.each([
    ['SQLITE_READONLY_DIRECTORY', /Allow it, or name another file/],
    ['SQLITE_CANTOPEN', /Allow it, or name another file/],
    ['SQLITE_FULL', /Make room/],
    ['SQLITE_BUSY', /Another program holds/],
    ['SQLITE_CORRUPT', /damaged or something else.*It was left as it is/],
  ])('%s', (code, words) => {
    const said = openingFault(file, new SQLite.SqliteError('as SQLite says', code));

    expect(said.message).toMatch(words);
  });
});

test('a new file has its name only when it is whole, and leaves nothing beside it', async () => {
  const broken = openDatabase(file, {
    getMigrations: async () => ({
      '2026-01-01-break': {
        up: async () => {
          throw new Error('power cut');
        },
      },
    }),
  });

  await expect(broken).rejects.toThrow(/power cut/);
  expect(existsSync(file)).toBe(false);
});

describe('two servers', () => {
  test('of one file: the second is told, by whatever name it calls the file', async () => {
    const db = await openDatabase(file);
    const first = worked(lockForServing(file));

    expect(refusalOf(lockForServing(join(folder, '.', 'quince-yard.sqlite'))).message).toContain(
      'Another server',
    );
    first.release();
    worked(lockForServing(file)).release();
    await db.destroy();
  });

  test('a server that was killed leaves no lock behind', async () => {
    const db = await openDatabase(file);
    await db.destroy();
    const script = `import { lockForServing } from '${resolve('server/database/serving-lock.ts')}';
      const lock = lockForServing(${JSON.stringify(file)});
      console.log(lock.ok ? 'locked' : 'refused');
      setInterval(() => lock.value.release.length, 1000);`;
    const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let said = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    while (!said.includes('\n')) await once(child.stdout, 'data');
    expect(said).toBe('locked\n');
    expect(lockForServing(file).ok).toBe(false);

    const exit = once(child, 'exit');
    child.kill('SIGKILL');
    await exit;

    worked(lockForServing(file)).release();
  });
});

describe('the rotation', () => {
  test('looks at backups of its own file only, and those of a clock that was ahead take no place', async () => {
    await backedUp();
    const other = join(folder, 'other.sqlite');
    const years = 2 * 365 * 86_400_000;
    const made = [
      ...Array.from({ length: 9 }, (_, day) => scheduled(noon + years + day * 86_400_000)),
      scheduled(noon - 3_600_000),
    ];
    const ofOther = scheduled(noon - 1_800_000, other);
    for (const path of [...made, ofOther]) writeFileSync(path, 'a copy');

    rotateBackups(file, noon);

    expect(existsSync(scheduled(noon - 3_600_000))).toBe(true);
    expect(existsSync(scheduled(noon - 86_400_000))).toBe(true);
    expect(existsSync(ofOther)).toBe(true);
    expect(newestBackupAt(file, noon)).toBe(noon - 3_600_000);
  });
});

describe('a backup that cannot be finished', () => {
  test('because the folder cannot be made is one plain refusal, and leaves nothing', async () => {
    await backedUp();

    const refusal = refusalOf(await backUpFile(file, '/proc/shelfward/copy.sqlite'));

    expect(refusal.message).toMatch(/^No backup was made at \/proc\/shelfward\/copy.sqlite\. /);
  });

  test('because the file is damaged leaves neither copy nor checksum, and the older copies stand', async () => {
    const backup = await backedUp();
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 8192, 16_384);
    writeFileSync(file, bytes);
    const to = scheduled(noon);

    const refusal = refusalOf(await backUpFile(file, to));

    expect(refusal.code).toBe('backup-failed');
    expect(existsSync(to)).toBe(false);
    expect(existsSync(`${to}.sha256`)).toBe(false);
    expect(existsSync(backup)).toBe(true);
  });
});
