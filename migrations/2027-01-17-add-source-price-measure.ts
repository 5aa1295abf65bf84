import { type Kysely, sql } from 'kysely';

// The trade measure a source's price was said in, and what one costs, so that $32 a bushel stays $32 a bushel.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE source ADD COLUMN price_measure TEXT CHECK (price_measure IN ('bushel', 'half-bushel', 'peck', 'lug', 'crate'))`.execute(
    db,
  );
  await sql`ALTER TABLE source ADD COLUMN price_measure_cents INTEGER CHECK (price_measure_cents >= 0)`.execute(
    db,
  );
}
