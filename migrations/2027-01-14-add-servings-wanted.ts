import { type Kysely, sql } from 'kysely';

// What an item counts as in meals (nothing: by its kind), and servings a household wants for each person and week.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE item ADD COLUMN counts_as TEXT CHECK (counts_as IN ('fruit', 'vegetable', 'protein', 'sweet', 'none'))`.execute(
    db,
  );
  for (const kind of ['fruit', 'vegetable', 'protein', 'sweet'])
    await sql`ALTER TABLE household ADD COLUMN ${sql.raw(`${kind}_servings REAL CHECK (${kind}_servings >= 0)`)}`.execute(
      db,
    );
}
