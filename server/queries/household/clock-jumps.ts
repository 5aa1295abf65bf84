import type { ClockJump } from '../../../src/household/clock-jump.ts';
import type { Database } from '../../database/database.ts';

/** The last time the clock went back; null while it never did. */
export async function latestClockJump(db: Database): Promise<ClockJump | null> {
  const row = await db
    .selectFrom('clock_jump')
    .selectAll()
    .orderBy('seq', 'desc')
    .limit(1)
    .executeTakeFirst();
  return row ? { seq: row.seq, noticedAt: row.noticed_at, aheadUntil: row.ahead_until } : null;
}
