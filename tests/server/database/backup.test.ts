import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { backUpFile, checksumFile, checksumOf } from '../../../server/database/backup.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { stepsInFolder } from '../../../server/database/migrate.ts';
import { type RestoreWish, restore } from '../../../server/database/restore.ts';
import { backupsToRemove, stampOf } from '../../../server/database/rotation.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { plumJam, quinceYardHousehold, shelve } from '../../builders/quince-yard.ts';

let folder: string;
let file: string;
let backup: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'pantry-'));
  file = join(folder, 'quince-yard.sqlite');
  backup = join(folder, 'copy.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const jam = (id: string) => ({
  id,
  itemId: plumJam,
  units: 3,
  madeOn: '2026-08-01',
  bestQualityUntil: '2027-08-01',
});

const lotIds = async (db: Database): Promise<readonly string[]> =>
  (await db.selectFrom('lot').select('id').orderBy('id').execute()).map(({ id }) => id);

const wish = (over: Partial<RestoreWish> = {}): RestoreWish => ({
  backup,
  file,
  withoutChecksum: false,
  stamp: '2026-11-25T023000Z',
  ...over,
});

/** A file with one lot, backed up, and a second lot written since. */
const backedUp = async (): Promise<void> => {
  const { db } = await quinceYardHousehold(file);
  await shelve(db, jam('first'));
  worked(await backUpFile(file, backup));
  await shelve(db, jam('second'));
  await db.destroy();
};

const standing = async (): Promise<readonly string[]> => {
  const db = await openDatabase(file);
  const ids = await lotIds(db);
  await db.destroy();
  return ids;
};

describe('a backup', () => {
  test('taken while jars are being recorded holds everything up to some event and nothing after it', async () => {
    const { db } = await quinceYardHousehold(file);
    let writing = true;
    const writer = (async () => {
      for (let at = 0; writing; at += 1) {
        await shelve(db, jam(`lot-${String(at).padStart(4, '0')}`));
        await new Promise(setImmediate);
      }
    })();

    for (let copy = 0; copy < 3; copy += 1) worked(await backUpFile(file, `${backup}.${copy}`));
    writing = false;
    await writer;

    const inTheEnd = await sql<{
      seq: number;
      lot_id: string;
    }>`SELECT seq, lot_id FROM jar_event ORDER BY seq`.execute(db);
    for (let copy = 0; copy < 3; copy += 1) {
      const taken = await openDatabase(`${backup}.${copy}`);
      const { rows } = await sql<{
        seq: number;
        lot_id: string;
      }>`SELECT seq, lot_id FROM jar_event ORDER BY seq`.execute(taken);
      expect(rows).toEqual(inTheEnd.rows.slice(0, rows.length));
      await taken.destroy();
    }
    expect(inTheEnd.rows.length).toBeGreaterThan(0);
    await db.destroy();
  });

  test('never replaces a file that is already there', async () => {
    const { db } = await quinceYardHousehold(file);
    writeFileSync(backup, 'a letter');

    const refusal = refusalOf(await backUpFile(file, backup));

    expect(refusal.code).toBe('backup-exists');
    expect(readFileSync(backup, 'utf8')).toBe('a letter');
    await db.destroy();
  });
});

describe('restoring', () => {
  test('puts the backed-up state in place and keeps what stood there', async () => {
    await backedUp();

    const restored = worked(await restore(wish()));

    expect(await standing()).toEqual(['first']);
    const kept = await openDatabase(restored.keptAs ?? '');
    expect(await lotIds(kept)).toEqual(['first', 'second']);
    await kept.destroy();
  });

  test('works where no file stands yet', async () => {
    await backedUp();
    rmSync(file);

    const restored = worked(await restore(wish()));

    expect(restored).toEqual({ keptAs: null, households: 1, events: 1 });
    expect(await standing()).toEqual(['first']);
  });

  test('keeps a damaged file too, and takes its place', async () => {
    await backedUp();
    writeFileSync(file, 'ruined. '.repeat(1000));

    const restored = worked(await restore(wish()));

    expect(readFileSync(restored.keptAs ?? '', 'utf8')).toContain('ruined. ');
    expect(await standing()).toEqual(['first']);
  });

  test('refuses while a program has the file open', async () => {
    await backedUp();
    const db = await openDatabase(file);

    const refusal = refusalOf(await restore(wish()));

    expect(refusal.code).toBe('file-in-use');
    expect(await lotIds(db)).toEqual(['first', 'second']);
    await db.destroy();
  });

  const spoiled: readonly {
    readonly what: string;
    readonly spoil: () => void;
    readonly code: string;
    readonly also?: Partial<RestoreWish>;
  }[] = [
    { what: 'cut off', spoil: () => truncateSync(backup, 20_000), code: 'backup-altered' },
    {
      what: 'cut off, without its checksum',
      spoil: () => {
        truncateSync(backup, 20_000);
        rmSync(checksumFile(backup));
      },
      code: 'backup-damaged',
      also: { withoutChecksum: true },
    },
    {
      what: 'changed by one letter in a row, which SQLite itself does not notice',
      spoil: () => {
        const bytes = readFileSync(backup);
        bytes.write('Prune', bytes.indexOf('Plum jam'));
        writeFileSync(backup, bytes);
      },
      code: 'backup-altered',
    },
    { what: 'without its checksum', spoil: () => rmSync(checksumFile(backup)), code: 'checksum-missing' },
    { what: 'missing', spoil: () => rmSync(backup), code: 'backup-missing' },
    {
      what: 'no household’s file',
      spoil: () => {
        writeFileSync(backup, '');
        rmSync(checksumFile(backup));
      },
      code: 'backup-damaged',
      also: { withoutChecksum: true },
    },
  ];

  test.each(spoiled)(
    'refuses a backup that is $what, with the reason, and leaves the present data',
    async ({ spoil, code, also }) => {
      await backedUp();
      spoil();

      const refusal = refusalOf(await restore(wish(also)));

      expect(refusal.code).toBe(code);
      expect(refusal.message).toContain('The present data was left as it is.');
      expect(await standing()).toEqual(['first', 'second']);
      expect(readdirSync(folder).filter((name) => name.includes('restor'))).toEqual([]);
    },
  );

  test('refuses a backup of a newer program or with other tables', async () => {
    await backedUp();
    const change = async (statement: string) => {
      const db = await openDatabase(backup);
      await sql.raw(statement).execute(db);
      await sql`PRAGMA journal_mode = DELETE`.execute(db);
      await db.destroy();
      writeFileSync(checksumFile(backup), `${checksumOf(backup)}  copy.sqlite\n`);
    };
    const untouched = `${backup}.untouched`;
    copyFileSync(backup, untouched);

    await change(
      "INSERT INTO kysely_migration (name, timestamp) VALUES ('2199-01-01-add-teleport', 'later')",
    );
    expect(refusalOf(await restore(wish())).code).toBe('backup-newer');

    copyFileSync(untouched, backup);
    await change('DROP TRIGGER jar_event_never_below_zero');
    expect(refusalOf(await restore(wish())).code).toBe('backup-schema');
    expect(await standing()).toEqual(['first', 'second']);
  });
});

describe('new steps of the schema', () => {
  const withStep = (up: (db: Database) => Promise<void>) => ({
    getMigrations: async () => ({ ...(await stepsInFolder.getMigrations()), '2199-01-01-add-attic': { up } }),
  });

  test('are backed up before, in the state before', async () => {
    const { db } = await quinceYardHousehold(file);
    await db.destroy();

    const newer = await openDatabase(
      file,
      withStep(async (trx) => void (await sql`CREATE TABLE attic (id TEXT) STRICT`.execute(trx))),
    );
    await newer.destroy();

    const kept = join(folder, 'backups', 'quince-yard-before-2199-01-01-add-attic.sqlite');
    expect(existsSync(kept)).toBe(true);
    const before = await openDatabase(kept);
    expect((await sql`SELECT 1 FROM sqlite_master WHERE name = 'attic'`.execute(before)).rows).toEqual([]);
    await before.destroy();
  });

  // Kysely takes SQLite for a database that cannot take back changes of its schema, and used to leave half a step behind.
  test('that break in the middle leave nothing of themselves', async () => {
    const { db } = await quinceYardHousehold(file);
    await db.destroy();

    const broken = openDatabase(
      file,
      withStep(async (trx) => {
        await sql`CREATE TABLE attic (id TEXT) STRICT`.execute(trx);
        await sql`ALTER TABLE place RENAME TO room`.execute(trx);
        throw new Error('power cut');
      }),
    );

    await expect(broken).rejects.toThrow(/step 2199-01-01-add-attic failed: power cut/);
    const after = await openDatabase(file);
    expect(
      (await sql`SELECT name FROM sqlite_master WHERE name IN ('attic', 'room', 'place')`.execute(after))
        .rows,
    ).toEqual([{ name: 'place' }]);
    await after.destroy();
  });
});

describe('the rotation of scheduled backups', () => {
  const nightly = (days: number): string[] =>
    Array.from({ length: days }, (_, back) => `home-${stampOf(Date.UTC(2026, 10, 25 - back, 2, 30))}.sqlite`);

  test('keeps the last 7 days, the newest of 5 weeks and of 12 months', () => {
    const names = nightly(500);
    const gone = new Set(backupsToRemove(names));

    const kept = names.filter((name) => !gone.has(name)).map((name) => name.slice(5, 15));

    // Worked by hand from a calendar: 2026-11-25 is a Wednesday; earlier weeks end on Sundays, months on their last day.
    expect(kept).toEqual([
      '2026-11-25',
      '2026-11-24',
      '2026-11-23',
      '2026-11-22',
      '2026-11-21',
      '2026-11-20',
      '2026-11-19',
      '2026-11-15',
      '2026-11-08',
      '2026-11-01',
      '2026-10-31',
      '2026-09-30',
      '2026-08-31',
      '2026-07-31',
      '2026-06-30',
      '2026-05-31',
      '2026-04-30',
      '2026-03-31',
      '2026-02-28',
      '2026-01-31',
      '2025-12-31',
    ]);
  });

  test('never touches a backup made by hand or before new steps', () => {
    expect(
      backupsToRemove(['by-hand.sqlite', 'home-before-2026-11-27-create-guess.sqlite', 'notes.txt']),
    ).toEqual([]);
  });

  test('is the same after a second look', () => {
    const names = nightly(200);
    const gone = backupsToRemove(names);

    expect(backupsToRemove(names.filter((name) => !gone.includes(name)))).toEqual([]);
  });
});
