import { type Kysely, sql } from 'kysely';

// What was written down belongs to the canning day it was written on, though that day was begun before or after its date.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE batch_result ADD COLUMN session_on TEXT CHECK (session_on IS date(session_on))`.execute(
    db,
  );
  await sql`UPDATE batch_result SET session_on = made_on WHERE EXISTS (
    SELECT 1 FROM canning_session AS day
    WHERE day.household_id = batch_result.household_id AND day.session_on = batch_result.made_on
  )`.execute(db);
}
