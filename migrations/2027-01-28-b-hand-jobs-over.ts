import { type Kysely, PostgresAdapter, sql } from 'kysely';

// What somebody waits for is handed over in its row: what exactly is asked, and what whoever works on it says of it, to the
// answer.
export async function up(db: Kysely<unknown>): Promise<void> {
  const text = db.getExecutor().adapter instanceof PostgresAdapter ? 'text COLLATE "C"' : 'TEXT';
  for (const column of ['asked', 'said'])
    await sql.raw(`ALTER TABLE job ADD COLUMN ${column} ${text}`).execute(db);
}
