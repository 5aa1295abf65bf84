import { type Kysely, sql } from 'kysely';

// What a household does otherwise than the tested recipe says: names from a closed list, checked when they are written.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE recipe ADD COLUMN changes_json TEXT NOT NULL DEFAULT '[]'
    CHECK (json_valid(changes_json) AND json_type(changes_json) = 'array')`.execute(db);
}
