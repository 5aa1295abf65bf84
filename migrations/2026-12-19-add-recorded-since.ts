import { type Kysely, sql } from 'kysely';

// "We have recorded since …", said once for all items; null where each item begins with what was first recorded of it.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE household ADD COLUMN recorded_since TEXT CHECK (recorded_since IS date(recorded_since))`.execute(
    db,
  );
}
