import { type Kysely, sql } from 'kysely';

// What a notice of several things spoke of when it was told: one that is done returns when something new is among them.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE notice ADD COLUMN about_json TEXT NOT NULL DEFAULT '[]'`.execute(db);
}
