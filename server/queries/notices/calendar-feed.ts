import type { HouseholdId } from '../../../shared/ids.ts';
import { tokenHash } from '../../access/tokens.ts';
import type { Database } from '../../database/database.ts';

export const calendarKinds = ['canning', 'shopping', 'best_quality', 'harvest'] as const;
export type CalendarKind = (typeof calendarKinds)[number];

/** A calendar that programs outside may read by its secret address. */
export interface CalendarFeed {
  readonly householdId: HouseholdId;
  /** The secret part of the address. */
  readonly token: string;
  readonly kinds: readonly CalendarKind[];
  readonly createdAt: number;
}

const fromRow = (row: {
  readonly household_id: string;
  readonly token: string;
  readonly created_at: number;
  readonly canning: number;
  readonly shopping: number;
  readonly best_quality: number;
  readonly harvest: number;
}): CalendarFeed => ({
  householdId: row.household_id as HouseholdId,
  token: row.token,
  kinds: calendarKinds.filter((kind) => row[kind] === 1),
  createdAt: row.created_at,
});

/** Null while the household has no calendar address. */
export async function calendarFeed(db: Database, householdId: HouseholdId): Promise<CalendarFeed | null> {
  const row = await db
    .selectFrom('calendar_feed')
    .selectAll()
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  return row ? fromRow(row) : null;
}

/** The calendar behind a secret address; null for one that was never given or was taken back. */
export async function calendarFeedBy(db: Database, token: string): Promise<CalendarFeed | null> {
  const row = await db
    .selectFrom('household_token as key')
    .innerJoin('calendar_feed', 'calendar_feed.household_id', 'key.household_id')
    .selectAll('calendar_feed')
    .where('key.token_hash', '=', tokenHash(token))
    .where('calendar_feed.token', '=', token)
    .where('key.household_id', 'not in', (deleted) =>
      deleted.selectFrom('household_deletion').select('household_id'),
    )
    .executeTakeFirst();
  return row ? fromRow(row) : null;
}
