import { randomUUID } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { wallClock } from '../../server/clock.ts';
import { backUpFile } from '../../server/database/backup.ts';
import { openDatabase } from '../../server/database/database.ts';
import { restore } from '../../server/database/restore.ts';
import { restoreHousehold } from '../../server/files/household-file.ts';
import type { Lease } from '../../server/jobs/job-table.ts';
import { keepPlan } from '../../server/jobs/keep-plan.ts';
import { nightWork } from '../../server/jobs/night-work.ts';
import { putUp } from '../../server/records/shelf/put-up.ts';
import { take } from '../../server/records/shelf/take.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { closePlanner, planYear } from '../../server/solver/plan-year.ts';
import { planHousehold } from '../../server/year/plan-household.ts';
import { putUpForm } from '../../shared/schemas/shelf/put-up.ts';
import { oneOf } from '../../shared/schemas/shelf/take.ts';
import { asDate } from '../../shared/week.ts';
import { worked } from '../builders/outcomes.ts';
import { plumJam, quinceYard } from '../builders/quince-yard.ts';

// One act on a file in a process of its own, to be broken off in the middle: says `begins`, then `done` and what it
// acknowledges, at once when that is so. Where what it asks of the disk is written down, it says how far the list had come.

const today = asDate('2026-08-17');
/** A backup is made under none. */
const unleased: Lease = {
  lost: new AbortController().signal,
  hold: async () => {},
  renew: async () => {},
  say: async () => {},
  saidBefore: null,
};
const [act = '', file = '', other = ''] = process.argv.slice(2);

const done = (acknowledged: string): void => {
  const { DISK_LOG: list } = process.env;
  if (list !== undefined) console.log(`listed ${statSync(list).size}`);
  console.log(`done ${acknowledged}`);
};

const acts: Readonly<Record<string, () => Promise<void>>> = {
  backup: async () => done(worked(await backUpFile(file, other)).backup),
  restore: async () =>
    done(worked(await restore({ backup: other, file, withoutChecksum: false, stamp: 'kill' })).keptAs ?? ''),
  migration: async () => {
    const db = await openDatabase(file);
    done('opened');
    await db.destroy();
  },
  planning: async () => {
    const db = await openDatabase(file);
    const { loaded, answer } = await planHousehold(db, quinceYard, today, loadReferenceTables(), planYear);
    const { year } = loaded;
    const { version: factsVersion } = loaded.facts;
    done((await keepPlan(db, quinceYard, { year, factsVersion, answer, at: wallClock() })) ?? '');
    await closePlanner();
    await db.destroy();
  },
  import: async () => {
    const db = await openDatabase(file);
    const recording = { db, householdId: quinceYard, key: randomUUID(), at: wallClock(), today };
    done(String(worked(await restoreHousehold(recording, readFileSync(other, 'utf8'))).rows));
    await db.destroy();
  },
  night: async () => {
    const db = await openDatabase(file);
    const work = nightWork({
      db,
      file,
      reference: loadReferenceTables(),
      now: () => Date.UTC(2026, 7, 17, 8, 30),
      maker: { make: async () => null },
    });
    await work.backup('', today, unleased);
    done('backup');
    await db.destroy();
  },
  'first start': async () => {
    const db = await openDatabase(file);
    await db
      .insertInto('household')
      .values({ id: 'first', name: 'First', time_zone: 'UTC', created_at: 0 })
      .execute();
    done('first');
    await db.destroy();
  },
  entries: async () => {
    const db = await openDatabase(file);
    for (let entry = 0; entry < Number(other); entry += 1) {
      const key = `entry-${String(entry).padStart(6, '0')}`;
      const recording = { db, householdId: quinceYard, key, at: wallClock(), today };
      const filled = [{ jarKind: 'half-pint/regular', units: '3' }];
      const written =
        entry % 2 === 0
          ? await putUp(recording, putUpForm.parse({ itemId: plumJam, madeOn: '2026-08-16', filled }))
          : await take(recording, oneOf(plumJam));
      if (!written.ok) throw new Error(written.problems[0]?.message);
      done(key);
    }
    await db.destroy();
  },
};

console.log('begins');
await acts[act]?.();
// Whoever kills it decides when it ends.
if (process.env.STAYS) setInterval(() => undefined, 60_000);
