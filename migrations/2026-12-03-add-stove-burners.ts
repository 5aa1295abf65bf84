import { type Kysely, sql } from 'kysely';

// How many burners the stove has: canners and pots of one day share them.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE kitchen_time ADD COLUMN stove_burners INTEGER NOT NULL DEFAULT 4
    CHECK (stove_burners BETWEEN 1 AND 20)`.execute(db);
}
