import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { sql } from 'kysely';
import {
  backUpFile,
  backupFolder,
  backupName,
  checksumFile,
  checksumOf,
} from '../../server/database/backup.ts';
import { openDatabase } from '../../server/database/database.ts';
import { stepsInFolder } from '../../server/database/migrate.ts';
import { backupsToRemove, stampOf } from '../../server/database/rotation.ts';
import { SQLite } from '../../server/database/sqlite.ts';
import { householdText } from '../../server/files/household-file.ts';
import { recordDeclaredUse } from '../../server/records/year/targets.ts';
import { declaredUseForm } from '../../shared/schemas/declared-use.ts';
import { worked } from '../builders/outcomes.ts';
import { plumJam, quinceYard, quinceYardHousehold, shelve } from '../builders/quince-yard.ts';

// What each act of one-act.ts is given, and what has to be true of the files after it was broken off: by a kill, or by a cut
// of the power. The file must open, be sound, and be wholly old or wholly new; what was acknowledged is there.

export const acts = ['backup', 'restore', 'migration', 'planning', 'import', 'night', 'first start'] as const;
export type Act = (typeof acts)[number];

export interface Stage {
  /** Puts the files as they are before the act; answers what the act is given. */
  readonly set: () => readonly string[];
  /** What is amiss after it was broken off. */
  readonly look: (acknowledged: string | null) => Promise<string | null>;
}

const besides = ['', '-wal', '-shm', '-journal'];
const put = (from: string, to: string): void => {
  for (const end of besides) rmSync(`${to}${end}`, { force: true });
  copyFileSync(from, to);
};

/** A settled copy of Quince Yard with so many batches on the shelf and a use declared. */
async function yard(file: string, batches: number): Promise<void> {
  const { db, writer } = await quinceYardHousehold(`${file}.making`);
  worked(
    await recordDeclaredUse(writer(), declaredUseForm.parse({ itemId: plumJam, amount: '0.5', per: 'week' })),
  );
  for (let batch = 0; batch < batches; batch += 1)
    await shelve(db, {
      id: `lot-${batch}`,
      itemId: plumJam,
      units: 3,
      madeOn: '2026-08-01',
      bestQualityUntil: '2027-08-01',
    });
  await db.destroy();
  worked(await backUpFile(`${file}.making`, file));
  for (const end of besides) rmSync(`${file}.making${end}`, { force: true });
}

/** Opens the file as the program would, and counts its batches. */
async function batchesIn(file: string): Promise<number> {
  const db = await openDatabase(file);
  try {
    const health = await sql<{ integrity_check: string }>`PRAGMA integrity_check`.execute(db);
    if (health.rows[0]?.integrity_check !== 'ok') throw new Error('the file is not sound');
    const { n } = await db
      .selectFrom('lot')
      .select((row) => row.fn.countAll<number>().as('n'))
      .executeTakeFirstOrThrow();
    return n;
  } finally {
    await db.destroy();
  }
}

export const stages: Readonly<Record<Act, (folder: string) => Promise<Stage>>> = {
  backup: async (folder) => {
    const file = join(folder, 'pantry.sqlite');
    const to = join(folder, 'copy.sqlite');
    await yard(file, 400);
    return {
      set: () => {
        for (const left of [to, checksumFile(to)]) rmSync(left, { force: true });
        return [file, to];
      },
      look: async (acknowledged) => {
        if (!existsSync(to)) return acknowledged === null ? null : 'an acknowledged backup is not there';
        if (!readFileSync(checksumFile(to), 'utf8').startsWith(checksumOf(to)))
          return 'a backup stands under its name and is not whole';
        return (await batchesIn(to)) === 400 ? null : 'a backup holds less than the file';
      },
    };
  },
  restore: async (folder) => {
    const [before, backup, file] = ['before', 'backup', 'pantry'].map((name) =>
      join(folder, `${name}.sqlite`),
    ) as [string, string, string];
    await yard(before, 300);
    await yard(backup, 200);
    return {
      set: () => {
        put(before, file);
        for (const left of ['pantry-before-restore-kill', 'pantry-before-restore-kill-2'])
          rmSync(join(folder, `${left}.sqlite`), { force: true });
        return [file, backup];
      },
      look: async (acknowledged) => {
        const batches = await batchesIn(file);
        if (acknowledged === null)
          return batches === 300 || batches === 200 ? null : `${batches} batches, neither old nor new`;
        if (batches !== 200) return 'an acknowledged restore is not there';
        return (await batchesIn(acknowledged)) === 300 ? null : 'what stood there before was not kept';
      },
    };
  },
  migration: async (folder) => {
    const old = join(folder, 'old.sqlite');
    const file = join(folder, 'pantry.sqlite');
    const steps = Object.entries(await stepsInFolder.getMigrations());
    const db = await openDatabase(`${old}.making`, {
      getMigrations: async () => Object.fromEntries(steps.slice(0, 8)),
    });
    await sql`INSERT INTO household (id, name, time_zone, created_at) VALUES ('old', 'Old Lane', 'UTC', 0)`.execute(
      db,
    );
    await db.destroy();
    worked(await backUpFile(`${old}.making`, old));
    return {
      set: () => {
        rmSync(join(folder, 'backups'), { recursive: true, force: true });
        put(old, file);
        return [file];
      },
      look: async (acknowledged) => {
        const sqlite = new SQLite(file);
        const taken = (sqlite.prepare('SELECT count(*) AS n FROM kysely_migration').get() as { n: number }).n;
        sqlite.close();
        if (taken !== 8 && taken !== steps.length) return `${taken} of ${steps.length} steps were taken`;
        if (acknowledged !== null && taken !== steps.length) return 'an acknowledged migration is not there';
        const again = await openDatabase(file);
        const names = await again.selectFrom('household').select('name').execute();
        await again.destroy();
        return names[0]?.name === 'Old Lane' ? null : 'the household is gone';
      },
    };
  },
  planning: async (folder) => {
    const before = join(folder, 'before.sqlite');
    const file = join(folder, 'pantry.sqlite');
    await yard(before, 5);
    return {
      set: () => {
        put(before, file);
        return [file];
      },
      look: async (acknowledged) => {
        await batchesIn(file);
        const db = await openDatabase(file);
        const plans = await db.selectFrom('plan').select(['id', 'result_json']).execute();
        await db.destroy();
        for (const { result_json } of plans) JSON.parse(result_json);
        if (acknowledged === null) return plans.length <= 1 ? null : `${plans.length} plans`;
        return plans.length === 1 && plans[0]?.id === acknowledged
          ? null
          : 'an acknowledged plan is not there once';
      },
    };
  },
  import: async (folder) => {
    const [before, other, file] = ['before', 'other', 'pantry'].map((name) =>
      join(folder, `${name}.sqlite`),
    ) as [string, string, string];
    await yard(before, 100);
    await yard(other, 300);
    const saved = join(folder, 'household.json');
    const db = await openDatabase(other);
    writeFileSync(saved, await householdText(db, quinceYard));
    await db.destroy();
    return {
      set: () => {
        put(before, file);
        return [file, saved];
      },
      look: async (acknowledged) => {
        const batches = await batchesIn(file);
        if (acknowledged !== null)
          return batches === 300 ? null : `an acknowledged import is not there: ${batches} batches`;
        return batches === 100 || batches === 300 ? null : `${batches} batches, neither old nor new`;
      },
    };
  },
  night: async (folder) => {
    const before = join(folder, 'before.sqlite');
    const file = join(folder, 'pantry.sqlite');
    const nights = [8, 9, 10, 11, 12, 13, 14, 15, 16, 17].map((day) =>
      backupName(file, stampOf(Date.UTC(2026, 7, day, 8, 30))),
    );
    const [tonight = ''] = nights.slice(-1);
    const goes = new Set(backupsToRemove(nights));
    await yard(before, 20);
    const within = backupFolder(file);
    return {
      set: () => {
        put(before, file);
        rmSync(within, { recursive: true, force: true });
        mkdirSync(within);
        for (const name of nights.slice(0, -1)) {
          copyFileSync(before, join(within, name));
          writeFileSync(checksumFile(join(within, name)), `${checksumOf(before)}  ${name}\n`);
        }
        return [file];
      },
      look: async (acknowledged) => {
        await batchesIn(file);
        const there = new Set(readdirSync(within));
        for (const name of nights) {
          const copy = join(within, name);
          if (there.has(name) && there.has(`${name}.sha256`) && (await batchesIn(copy)) !== 20)
            return `${name} is not whole`;
          if (!there.has(name) && !goes.has(name) && name !== tonight) return `${name} is gone`;
        }
        if (there.has(tonight))
          return there.has(`${tonight}.sha256`) ? null : 'tonight’s backup has no checksum';
        if (acknowledged !== null) return 'an acknowledged backup is not there';
        return [...goes].every((name) => there.has(name))
          ? null
          : 'an old backup went before the new one was there';
      },
    };
  },
  'first start': async (folder) => {
    const file = join(folder, 'of', 'ours', 'pantry.sqlite');
    return {
      set: () => {
        rmSync(join(folder, 'of'), { recursive: true, force: true });
        return [file];
      },
      look: async (acknowledged) => {
        const wasThere = existsSync(file);
        mkdirSync(dirname(file), { recursive: true });
        const db = await openDatabase(file);
        const { length } = await db.selectFrom('household').select('id').execute();
        await db.destroy();
        if (acknowledged === null) return null;
        return length === 1
          ? null
          : wasThere
            ? 'an acknowledged household is not there'
            : 'the file is not there';
      },
    };
  },
};
