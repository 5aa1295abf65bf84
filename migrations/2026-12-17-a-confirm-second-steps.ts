import { type Kysely, sql } from 'kysely';

// What somebody gives beside a link to a new passphrase when the second factor is lost; kept as a hash.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE passphrase_reset ADD COLUMN second_code_hash TEXT`.execute(db);
}
