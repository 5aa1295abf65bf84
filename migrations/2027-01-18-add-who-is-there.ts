import { type Kysely, sql } from 'kysely';

// Who is there when something is canned: names, with commas between; empty where nobody was named.
export async function up(db: Kysely<unknown>): Promise<void> {
  for (const table of ['kitchen_time', 'session_rule'])
    await sql`ALTER TABLE ${sql.raw(table)} ADD COLUMN who TEXT NOT NULL DEFAULT ''`.execute(db);
}
