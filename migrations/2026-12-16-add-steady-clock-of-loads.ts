import { type Kysely, sql } from 'kysely';

// What a clock that is never set said beside the clock of the wall; null for what was written down before.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE load_clock_event ADD COLUMN steady_run TEXT CHECK (length(steady_run) BETWEEN 1 AND 80)`.execute(
    db,
  );
  await sql`ALTER TABLE load_clock_event ADD COLUMN steady_ms INTEGER CHECK (steady_ms >= 0 AND (steady_ms IS NULL) = (steady_run IS NULL))`.execute(
    db,
  );
}
