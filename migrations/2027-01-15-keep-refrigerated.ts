import { type Kysely, sql } from 'kysely';

// What no tested process covers may be kept in the refrigerator: one more way of keeping an item. A check cannot be changed, so
// the column is made anew beside the old one.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE item ADD COLUMN kept TEXT NOT NULL DEFAULT 'canned' CHECK (kept IN ('canned', 'frozen', 'dried',
    'fermented', 'cellar', 'refrigerated', 'bought'))`.execute(db);
  await sql`UPDATE item SET kept = keeping`.execute(db);
  await sql`ALTER TABLE item DROP COLUMN keeping`.execute(db);
  await sql`ALTER TABLE item RENAME COLUMN kept TO keeping`.execute(db);
}
