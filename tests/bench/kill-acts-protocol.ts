import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import SQLite from 'better-sqlite3';
import { sql } from 'kysely';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { backUpFile, checksumFile, checksumOf } from '../../server/database/backup.ts';
import { openDatabase } from '../../server/database/database.ts';
import { stepsInFolder } from '../../server/database/migrate.ts';
import { householdText } from '../../server/files/household-file.ts';
import { declareUse } from '../../server/records/targets.ts';
import { declaredUseForm } from '../../shared/schemas/declared-use.ts';
import { worked } from '../builders/outcomes.ts';
import { plumJam, quinceYard, quinceYardHousehold, shelve } from '../builders/quince-yard.ts';

// Acts on a file are killed with SIGKILL at random, each in a process of its own; then the file is held against what the
// process had acknowledged. After every kill the file must open, be sound, and be wholly old or wholly new.

export const killedActs = ['backup', 'restore', 'migration', 'planning', 'import'] as const;
export type KilledAct = (typeof killedActs)[number];

export interface ActReport {
  readonly kills: number;
  /** Of them, those that came before the act was done. */
  readonly inTheMiddle: number;
  readonly acknowledged: number;
  /** What was found amiss, in words; empty when every acknowledgement is there once and nothing is half done. */
  readonly amiss: readonly string[];
}

const root = resolve(import.meta.dirname, '../..');

interface Ran {
  readonly said: string;
  /** From its beginning to its acknowledgement. */
  readonly ms: number;
}

/** Runs an act and kills it so long after it began; without a time it is let run. */
async function runAct(args: readonly string[], killAfterMs: number | null): Promise<Ran> {
  const child = spawn(process.execPath, ['--import', 'tsx', 'tests/bench/one-act.ts', ...args], {
    cwd: root,
    stdio: ['ignore', 'pipe', killAfterMs === null ? 'inherit' : 'ignore'],
  });
  let said = '';
  let doneAt: number | null = null;
  const exit = once(child, 'exit');
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
    if (said.includes('done ')) doneAt ??= performance.now();
  });
  while (!said.includes('begins') && child.exitCode === null)
    await Promise.race([once(child.stdout, 'data'), exit]);
  const began = performance.now();
  if (killAfterMs !== null) {
    const killing = setTimeout(() => child.kill('SIGKILL'), killAfterMs);
    await exit;
    clearTimeout(killing);
  } else await exit;
  return { said, ms: (doneAt ?? performance.now()) - began };
}

/** What `done` acknowledged; null when it was not said. */
const acknowledgedBy = ({ said }: Ran): string | null => /^done (.*)$/m.exec(said)?.[1] ?? null;

interface Stage {
  /** Puts the files as they are before the act; answers what the act is given. */
  readonly set: () => readonly string[];
  /** What is amiss after a kill. */
  readonly look: (acknowledged: string | null) => Promise<string | null>;
}

export async function killInTheMiddle(
  act: KilledAct,
  { folder, kills, seed }: { readonly folder: string; readonly kills: number; readonly seed: number },
): Promise<ActReport> {
  mkdirSync(folder, { recursive: true });
  const stage = await stages[act](folder);
  const whole = await runAct([act, ...stage.set()], null);
  if (acknowledgedBy(whole) === null) throw new Error(`${act}: expected it to be done when nobody kills it`);
  const random = congruential32(seed);
  const amiss: string[] = [];
  let inTheMiddle = 0;
  let acknowledged = 0;
  for (let kill = 0; kill < kills; kill += 1) {
    const ran = await runAct([act, ...stage.set()], uniformInt(random, 0, Math.ceil(whole.ms * 1.05)));
    const said = acknowledgedBy(ran);
    if (said === null) inTheMiddle += 1;
    else acknowledged += 1;
    const found = await stage.look(said).catch((cause: unknown) => String(cause));
    if (found !== null) amiss.push(found);
  }
  return { kills, inTheMiddle, acknowledged, amiss };
}

const besides = ['', '-wal', '-shm', '-journal'];
const put = (from: string, to: string): void => {
  for (const end of besides) rmSync(`${to}${end}`, { force: true });
  copyFileSync(from, to);
};

/** A settled copy of Quince Yard with so many batches on the shelf and a use declared. */
async function yard(file: string, batches: number): Promise<void> {
  const { db, writer } = await quinceYardHousehold(`${file}.making`);
  worked(await declareUse(writer(), declaredUseForm.parse({ itemId: plumJam, amount: '0.5', per: 'week' })));
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

const stages: Readonly<Record<KilledAct, (folder: string) => Promise<Stage>>> = {
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
};
