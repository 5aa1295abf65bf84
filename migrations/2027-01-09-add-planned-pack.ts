import { type Kysely, sql } from 'kysely';

// What a store asks for something that is put up here may be written down to compare, without the plan ever buying it.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE shop_pack ADD COLUMN is_planned INTEGER NOT NULL DEFAULT 1 CHECK (is_planned IN (0, 1))`.execute(
    db,
  );
}
