import { createHash } from 'node:crypto';
import type { HouseholdId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import { forgetTokens, keepToken } from '../../access/household-tokens.ts';
import { newToken } from '../../access/tokens.ts';
import type { Database } from '../../database/database.ts';
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
  return db.transaction().execute(async (trx) => {
    const kept = await trx
      .selectFrom('calendar_entry')
      .selectAll()
      .where('household_id', '=', householdId)
      .execute();
    const keptByUid = new Map(kept.map((row) => [row.uid, row]));
    const versions = new Map<string, EntryVersion>();
    for (const { uid, content } of entries) {
      const hash = createHash('sha256').update(content).digest('base64url');
      const before = keptByUid.get(uid);
      if (before === undefined) {
        await trx
          .insertInto('calendar_entry')
          .values({ household_id: householdId, uid, content_hash: hash, created_at: at, changed_at: at })
          .execute();
        versions.set(uid, { sequence: 0, createdAt: at, changedAt: at });
      } else if (before.content_hash === hash) {
        const { sequence, created_at, changed_at } = before;
        versions.set(uid, { sequence, createdAt: created_at, changedAt: changed_at });
      } else {
        const sequence = before.sequence + 1;
        await trx
          .updateTable('calendar_entry')
          .set({ content_hash: hash, sequence, changed_at: at })
          .where('household_id', '=', householdId)
          .where('uid', '=', uid)
          .execute();
        versions.set(uid, { sequence, createdAt: before.created_at, changedAt: at });
      }
    }
    return versions;
  });
}
