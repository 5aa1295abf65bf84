import { type Kysely, sql } from 'kysely';

// For how many days a household wants to be ready, and the water it keeps for them.
export async function up(db: Kysely<unknown>): Promise<void> {
  for (const column of [
    'emergency_days INTEGER CHECK (emergency_days BETWEEN 1 AND 90)',
    'water_gallons REAL CHECK (water_gallons >= 0)',
    'water_filled_on TEXT',
  ])
    await sql`ALTER TABLE household ADD COLUMN ${sql.raw(column)}`.execute(db);
}
