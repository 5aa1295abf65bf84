import { type Kysely, sql } from 'kysely';

// What somebody paid for a line teaches its price: the price as it was before, so that taking the line back gives it back,
// and the price it was taught.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE bought ADD COLUMN price_before_cents INTEGER CHECK (price_before_cents >= 0)`.execute(
    db,
  );
  await sql`ALTER TABLE bought ADD COLUMN price_taught_cents INTEGER CHECK (price_taught_cents > 0)`.execute(
    db,
  );
}
