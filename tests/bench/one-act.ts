import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { wallClock } from '../../server/clock.ts';
import { backUpFile } from '../../server/database/backup.ts';
import { openDatabase } from '../../server/database/database.ts';
import { restore } from '../../server/database/restore.ts';
import { restoreHousehold } from '../../server/files/household-file.ts';
import { keepPlan } from '../../server/jobs/keep-plan.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { closePlanner, planYear } from '../../server/solver/plan-year.ts';
import { planHousehold } from '../../server/year/plan-household.ts';
import { asDate } from '../../shared/week.ts';
import { worked } from '../builders/outcomes.ts';
import { quinceYard } from '../builders/quince-yard.ts';

// One act on a file in a process of its own, to be killed in the middle: says `begins`, then `done` and what it acknowledges.

const today = asDate('2026-08-17');
const [act = '', file = '', other = ''] = process.argv.slice(2);

const acts: Readonly<Record<string, () => Promise<string>>> = {
  backup: async () => worked(await backUpFile(file, other)).backup,
  restore: async () =>
    worked(await restore({ backup: other, file, withoutChecksum: false, stamp: 'kill' })).keptAs ?? '',
  migration: async () => {
    const db = await openDatabase(file);
    await db.destroy();
    return 'opened';
  },
  planning: async () => {
    const db = await openDatabase(file);
    const { loaded, answer } = await planHousehold(db, quinceYard, today, loadReferenceTables(), planYear);
    const { year } = loaded;
    const { factsVersion } = loaded.facts.household;
    const id = await keepPlan(db, quinceYard, { year, factsVersion, answer, at: wallClock() });
    console.log(`done ${id ?? ''}`);
    await closePlanner();
    await db.destroy();
    return id ?? '';
  },
  import: async () => {
    const db = await openDatabase(file);
    const recording = { db, householdId: quinceYard, key: randomUUID(), at: wallClock(), today };
    const { rows } = worked(await restoreHousehold(recording, readFileSync(other, 'utf8')));
    console.log(`done ${rows}`);
    await db.destroy();
    return String(rows);
  },
};

console.log('begins');
console.log(`done ${await acts[act]?.()}`);
