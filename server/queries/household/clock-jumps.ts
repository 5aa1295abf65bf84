import type { Database } from '../../database/database.ts';

/** The clock of the machine had been ahead, and went back. */
export interface ClockJump {
  readonly seq: number;
  /** When that was noticed, by the clock that is right again. */
  readonly noticedAt: number;
  /** The latest instant it had shown. */
  readonly aheadUntil: number;
}

/** The last time the clock went back; null while it never did. */
export async function latestClockJump(db: Database): Promise<ClockJump | null> {
  const row = await db.selectFrom('clock_jump').selectAll().orderBy('seq', 'desc').executeTakeFirst();
  return row ? { seq: row.seq, noticedAt: row.noticed_at, aheadUntil: row.ahead_until } : null;
}
