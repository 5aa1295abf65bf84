import { type Kysely, sql } from 'kysely';

// So many units of an item always stay for an emergency; no plan uses them up.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE item ADD COLUMN emergency_units INTEGER CHECK (emergency_units > 0)`.execute(db);
}
