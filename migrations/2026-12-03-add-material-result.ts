import { type Kysely, sql } from 'kysely';

// Which batch a by-product came from, so that it goes again when the batch is undone; null for everything else.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE material_event ADD COLUMN result_id TEXT`.execute(db);
}
