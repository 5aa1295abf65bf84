import { type Kysely, sql } from 'kysely';

// Guesses at names nobody has are written down like others; of those only the last are kept, and found by this index.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE INDEX security_event_of_nobody ON security_event (seq)
    WHERE person_id IS NULL AND household_id IS NULL`.execute(db);
}
