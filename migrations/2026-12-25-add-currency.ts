import { type Kysely, sql } from 'kysely';

// The money of a household: an ISO 4217 code. What was written down before is in US dollars.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE household ADD COLUMN currency TEXT NOT NULL DEFAULT 'USD' CHECK (currency GLOB '[A-Z][A-Z][A-Z]')`.execute(
    db,
  );
}
