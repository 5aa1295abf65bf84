import { type RawBuilder, sql } from 'kysely';
import type { HouseholdId } from '../../../shared/ids.ts';
import { halfSignInLastsMs } from '../../access/half-sign-ins.ts';
import type { Database, Writing } from '../../database/database.ts';

const minute = 60_000;
const day = 24 * 60 * minute;

/** Clocks are put right by little all the time; only what is more than this is a clock that was wrong. */
const clockToleranceMs = 10 * minute;
/** A clock that shows a day before this was not set yet (a machine that begins in 1970): nothing is judged by it. */
const earliestPlausible = Date.UTC(2026, 0, 1);
/** A reading is written down at most so often while the clock goes as it should. */
const readingEveryMs = 5 * minute;
/** How long what was begun under a wrong clock may still last: an invitation, a link to a new passphrase. */
const longest = { invitationMs: 7 * day, resetMs: 60 * minute, leaseMs: minute / 2, waitMs: day } as const;
const codeStepMs = 30_000;

/** What came of looking at the clock. */
export interface ClockLook {
  /** Until when it had been ahead; null when it goes as it should. */
  readonly aheadUntil: number | null;
  /** Households whose plan was made for days that have not come, and was let go. */
  readonly toPlan: readonly HouseholdId[];
}

/**
 * Holds the clock against the latest instant on record. When it has gone back, it had been ahead: what was dated later
 * than now is given the time it is now, or let go where it only held for a while, so that a wrong clock harms nobody once it
 * is right. The ledger is left as it was written. One jump is told once.
 */
export async function keepClock(db: Database, now: number): Promise<ClockLook> {
  if (now < earliestPlausible) return { aheadUntil: null, toPlan: [] };
  const kept = await db.selectFrom('clock_reading').select('latest_at').executeTakeFirst();
  const latest = Math.max(kept?.latest_at ?? 0, await newestOnRecord(db));
  if (latest <= now + clockToleranceMs) {
    if (kept === undefined || now - kept.latest_at >= readingEveryMs) await keepReading(db, now);
    return { aheadUntil: null, toPlan: [] };
  }
  const toPlan = await db.transaction().execute(async (trx) => {
    await trx.insertInto('clock_jump').values({ noticed_at: now, ahead_until: latest }).execute();
    await keepReading(trx, now);
    await setSignInsRight(trx, now);
    await setNoticesRight(trx, now);
    await setJobsRight(trx, now);
    return letPlansGo(trx, now);
  });
  return { aheadUntil: latest, toPlan };
}

const keepReading = (db: Database, now: number) =>
  db
    .insertInto('clock_reading')
    .values({ id: 1, latest_at: now })
    .onConflict((same) => same.column('id').doUpdateSet({ latest_at: now }))
    .execute();

/** The latest instant that rows of this program were given, and the latest day a plan was made for. */
async function newestOnRecord(db: Database): Promise<number> {
  const {
    rows: [latest],
  } = await sql<Readonly<Record<string, number | string | null>>>`SELECT
    (SELECT max(failed_at) FROM sign_in_failure) AS failed, (SELECT max(seen_at) FROM sign_in) AS seen,
    (SELECT max(began_at) FROM sign_in) AS began, (SELECT max(changed_at) FROM notice) AS noticed,
    (SELECT max(written_at) FROM letter) AS written, (SELECT max(finished_at) FROM job) AS finished,
    (SELECT max(at) FROM security_event) AS happened, (SELECT max(as_of) FROM plan) AS planned`.execute(db);
  // Nowhere is a day more than a day before it is in UTC.
  const instantOf = (value: number | string | null): number =>
    typeof value === 'string' ? Date.parse(value) - day : (value ?? 0);
  return Math.max(0, ...Object.values(latest ?? {}).map(instantOf));
}

const atMost = (column: string, now: number): RawBuilder<number> =>
  sql`CASE WHEN ${sql.ref(column)} > ${now} THEN ${now} ELSE ${sql.ref(column)} END`;

async function setSignInsRight(trx: Writing, now: number): Promise<void> {
  await trx.deleteFrom('sign_in_failure').where('failed_at', '>', now).execute();
  await trx
    .updateTable('sign_in')
    .set({ began_at: atMost('began_at', now), seen_at: atMost('seen_at', now) })
    .where((row) => row.or([row('began_at', '>', now), row('seen_at', '>', now)]))
    .execute();
  await trx
    .deleteFrom('half_sign_in')
    .where('expires_at', '>', now + halfSignInLastsMs)
    .execute();
  await trx
    .updateTable('invitation')
    .set({ made_at: now, expires_at: now + longest.invitationMs })
    .where('made_at', '>', now)
    .execute();
  await trx
    .updateTable('passphrase_reset')
    .set({ expires_at: now + longest.resetMs })
    .where('expires_at', '>', now + longest.resetMs)
    .execute();
  // A code that was used under the wrong clock must not bar those of the years between.
  await trx
    .updateTable('second_factor')
    .set({ last_step: Math.floor(now / codeStepMs) })
    .where('last_step', '>', Math.floor(now / codeStepMs))
    .execute();
  await trx.updateTable('security_event').set({ at: now }).where('at', '>', now).execute();
}

/** What was put to sleep under a wrong clock sleeps until a day that is far off: it is open again. */
async function setNoticesRight(trx: Writing, now: number): Promise<void> {
  await trx
    .updateTable('notice')
    .set({ state: 'open', snoozed_until: null })
    .where('state', '=', 'snoozed')
    .where('changed_at', '>', now)
    .execute();
  await trx
    .updateTable('notice')
    .set({
      first_seen_at: atMost('first_seen_at', now),
      changed_at: atMost('changed_at', now),
      sent_at: atMost('sent_at', now),
    })
    .where((row) =>
      row.or([row('first_seen_at', '>', now), row('changed_at', '>', now), row('sent_at', '>', now)]),
    )
    .execute();
  await trx
    .updateTable('letter')
    .set({ written_at: atMost('written_at', now), sent_at: atMost('sent_at', now) })
    .where((row) => row.or([row('written_at', '>', now), row('sent_at', '>', now)]))
    .execute();
}

/** Nights that have not come are still to be worked; letters that wait are tried at once. */
async function setJobsRight(trx: Writing, now: number): Promise<void> {
  await trx.deleteFrom('job').where('kind', '!=', 'letter').where('for_on', '>', dayAfter(now)).execute();
  await trx
    .updateTable('household')
    .set({ noted_night: null })
    .where('noted_night', '>', dayAfter(now))
    .execute();
  await trx
    .updateTable('job')
    .set({ leased_until: null })
    .where('leased_until', '>', now + longest.leaseMs)
    .execute();
  await trx
    .updateTable('job')
    .set({ due_at: now })
    .where('finished_at', 'is', null)
    .where('due_at', '>', now + longest.waitMs)
    .execute();
  await trx
    .updateTable('job')
    .set({ turn_at: now })
    .where('finished_at', 'is', null)
    .where('turn_at', '>', now + longest.waitMs)
    .execute();
  await trx.updateTable('job').set({ finished_at: now }).where('finished_at', '>', now).execute();
}

/** A plan for days that have not come says nothing about this week; the one before it, or a new one, does. */
async function letPlansGo(trx: Writing, now: number): Promise<readonly HouseholdId[]> {
  const gone = await trx
    .deleteFrom('plan')
    .where('as_of', '>', dayAfter(now))
    .returning('household_id')
    .execute();
  return [...new Set(gone.map(({ household_id }) => household_id as HouseholdId))];
}

/** Tomorrow in Greenwich: no place on earth is further ahead. */
const dayAfter = (now: number): string => new Date(now + day).toISOString().slice(0, 10);
