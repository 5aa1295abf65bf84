import { type Kysely, sql } from 'kysely';

// Whether a household says who took a jar, and the name beside each take; a name, so that it outlasts a membership.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE household ADD COLUMN says_who_took INTEGER NOT NULL DEFAULT 0 CHECK (says_who_took IN (0, 1))`.execute(
    db,
  );
  await sql`ALTER TABLE jar_event ADD COLUMN taken_by TEXT`.execute(db);
}
