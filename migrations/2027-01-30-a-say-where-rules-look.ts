import { type Kysely, PostgresAdapter, sql } from 'kysely';

// A rule of PostgreSQL that asks another function or a table says in which schema that is: whoever brings back a dump looks in
// none, and the rows were refused.

const askingOthers = [
  'is_minute(text)',
  'append_only()',
  'never_below_zero()',
  'reverses_exactly()',
  'forget_denial_of_item()',
  'forget_denial_of_recipe()',
];

export async function up(db: Kysely<unknown>): Promise<void> {
  if (!(db.getExecutor().adapter instanceof PostgresAdapter)) return;
  const { rows } = await sql<{ name: string }>`SELECT current_schema() AS name`.execute(db);
  for (const rule of askingOthers)
    await sql`ALTER FUNCTION ${sql.raw(rule)} SET search_path = ${sql.id(rows[0]?.name ?? 'public')}`.execute(
      db,
    );
}
