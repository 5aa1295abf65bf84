import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { openDatabase } from '../../server/database/database.ts';
import { move } from '../../server/database/move.ts';
import { openPostgres } from '../../server/database/postgres.ts';
import { householdText } from '../../server/files/household-file.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import { worked } from '../builders/outcomes.ts';
import { programsOfPostgres, startCluster } from '../postgres/cluster.ts';
import { inventedHouseholds } from './invented-households.ts';

// npm run -s bench:move -- [50]: so many invented households, each with a year of its own, go from a file into a PostgreSQL
// database and back into a file; each must be the same to the letter on all three.

const howMany = Number(process.argv[2] ?? 50);
const asOf = asDate('2026-08-12');
const programs = programsOfPostgres();
const folder = mkdtempSync(join(tmpdir(), 'move-'));

async function textsOf(place: string): Promise<ReadonlyMap<string, string>> {
  const db = await openDatabase(place);
  const texts = new Map<string, string>();
  for (const { id } of await db.selectFrom('household').select('id').orderBy('id').execute())
    texts.set(id, await householdText(db, id as HouseholdId));
  await db.destroy();
  return texts;
}

async function fill(file: string): Promise<void> {
  const db = await openDatabase(file);
  await inventedHouseholds(db, howMany, asOf);
  await db.destroy();
}

async function took<T>(what: string, work: () => Promise<T>): Promise<T> {
  const began = performance.now();
  const result = await work();
  const mb = Math.round(process.memoryUsage().rss / 1e6);
  console.log(`${what}: ${((performance.now() - began) / 1000).toFixed(1)} s, ${mb} MB resident after it`);
  return result;
}

if (programs === null) {
  console.log('There is no PostgreSQL on this machine: nothing was run.');
} else {
  const cluster = startCluster(programs);
  try {
    const any = await openPostgres(cluster.address('postgres'), { getMigrations: async () => ({}) });
    await sql`CREATE DATABASE moved`.execute(any);
    await any.destroy();
    const [from, back] = [join(folder, 'from.sqlite'), join(folder, 'back.sqlite')] as const;
    const address = cluster.address('moved');
    await took(`${howMany} households written`, () => fill(from));
    const tables = await took('from the file into the database', async () =>
      worked(await move({ from, to: address })),
    );
    await took('from the database into a file', async () => worked(await move({ from: address, to: back })));
    const [here, there, again] = [await textsOf(from), await textsOf(address), await textsOf(back)];
    const differing = [...here].filter(([id, text]) => there.get(id) !== text || again.get(id) !== text);
    const rows = tables.reduce((sum, table) => sum + table.rows, 0);
    console.log(`${rows} rows; ${here.size} households, ${differing.length} not the same to the letter`);
    process.exitCode = differing.length === 0 && here.size === howMany ? 0 : 1;
  } finally {
    cluster.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}
