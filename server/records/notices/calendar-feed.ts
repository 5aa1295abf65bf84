import { createHash } from 'node:crypto';
import type { HouseholdId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import { forgetTokens, keepToken } from '../../access/household-tokens.ts';
import { newToken } from '../../access/tokens.ts';
import type { Database } from '../../database/database.ts';
import { holdHousehold } from '../../database/hold-household.ts';
import { type CalendarKind, calendarKinds } from '../../queries/notices/calendar-feed.ts';
import { type Recording, record } from '../record.ts';

/** Gives the calendar a new secret address; the one before, if any, stops working at once. */
export const openCalendarFeed = (recording: Recording): Promise<Outcome<{ readonly token: string }>> =>
  record(
    recording,
    'open calendar',
    {},
    async ({ trx, householdId, at }) => {
      const token = newToken();
      await trx
        .insertInto('calendar_feed')
        .values({ household_id: householdId, token, created_at: at })
        .onConflict((same) => same.column('household_id').doUpdateSet({ token, created_at: at }))
        .execute();
      await forgetTokens(trx, householdId, 'calendar');
      await keepToken(trx, householdId, 'calendar', token);
      return found({ token });
    },
    'no facts',
  );

/** Takes the address back; programs that read it find nothing any more. */
export const closeCalendarFeed = (recording: Recording): Promise<Outcome<true>> =>
  record(
    recording,
    'close calendar',
    {},
    async ({ trx, householdId }) => {
      await trx.deleteFrom('calendar_feed').where('household_id', '=', householdId).execute();
      await forgetTokens(trx, householdId, 'calendar');
      return found(true);
    },
    'no facts',
  );

/** Chooses what the calendar shows. */
export const chooseCalendarKinds = (
  recording: Recording,
  kinds: readonly CalendarKind[],
): Promise<Outcome<true>> =>
  record(
    recording,
    'choose calendar',
    { kinds },
    async ({ trx, householdId }) => {
      const flags = Object.fromEntries(
        calendarKinds.map((kind) => [kind, kinds.includes(kind) ? 1 : 0]),
      ) as Record<CalendarKind, number>;
      await trx.updateTable('calendar_feed').set(flags).where('household_id', '=', householdId).execute();
      return found(true);
    },
    'no facts',
  );

/** An entry's place among its own versions, as RFC 5545 counts them. */
export interface EntryVersion {
  /** 0 at first, one more with every change. */
  readonly sequence: number;
  readonly createdAt: number;
  readonly changedAt: number;
}

/**
 * Keeps which version of each entry is out there: a new entry starts at 0, one whose content differs from the last time
 * counts one up, the others stay as they are.
 */
export async function entryVersions(
  db: Database,
  householdId: HouseholdId,
  entries: readonly { readonly uid: string; readonly content: string }[],
  at: number,
): Promise<ReadonlyMap<string, EntryVersion>> {
  const hashed = entries.map(({ uid, content }) => ({
    uid,
    hash: createHash('sha256').update(content).digest('base64url'),
  }));
  const before = await keptEntries(db, householdId);
  // Most readings find nothing changed, and then nothing is held.
  if (hashed.every(({ uid, hash }) => before.get(uid)?.hash === hash)) return before;
  return db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    const versions = new Map(await keptEntries(trx, householdId));
    for (const { uid, hash } of hashed) {
      const known = versions.get(uid);
      if (known?.hash === hash) continue;
      const version = {
        sequence: known === undefined ? 0 : known.sequence + 1,
        createdAt: known?.createdAt ?? at,
        changedAt: at,
      };
      await trx
        .insertInto('calendar_entry')
        .values({
          household_id: householdId,
          uid,
          content_hash: hash,
          sequence: version.sequence,
          created_at: at,
          changed_at: at,
        })
        .onConflict((same) =>
          same
            .columns(['household_id', 'uid'])
            .doUpdateSet({ content_hash: hash, sequence: version.sequence, changed_at: at }),
        )
        .execute();
      versions.set(uid, { ...version, hash });
    }
    return versions;
  });
}

async function keptEntries(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<string, EntryVersion & { readonly hash: string }>> {
  const rows = await db
    .selectFrom('calendar_entry')
    .selectAll()
    .where('household_id', '=', householdId)
    .execute();
  return new Map(
    rows.map((row) => [
      row.uid,
      {
        sequence: row.sequence,
        createdAt: row.created_at,
        changedAt: row.changed_at,
        hash: row.content_hash,
      },
    ]),
  );
}
