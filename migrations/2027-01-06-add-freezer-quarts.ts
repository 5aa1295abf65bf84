import { type Kysely, sql } from 'kysely';

// What one bag or box of something frozen takes up, so that the freezer is planned as full as it is.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE item ADD COLUMN freezer_quarts REAL CHECK (freezer_quarts > 0)`.execute(db);
}
