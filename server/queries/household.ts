import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { Database } from '../database/database.ts';
import type { HouseholdTable } from '../database/tables.ts';
import type { Row } from './row.ts';

export interface Household {
  readonly id: HouseholdId;
  readonly name: string;
  readonly people: number;
  readonly timeZone: string;
  readonly locale: string;
  readonly units: 'us' | 'metric';
  readonly weekStartsOn: 'monday' | 'sunday';
  readonly region: string | null;
  /** Null until the household has said it; nothing is processed before. */
  readonly altitudeFt: number | null;
  readonly storageTemperatureF: number | null;
  readonly crockQuarts: number;
  readonly freezerQuartsPerDay: number | null;
  readonly discardCeilingMonths: number;
  readonly isDemo: boolean;
  /** Counts the facts written; a plan made at a lower number is out of date. */
  readonly factsVersion: number;
}

const fromRow = (row: Row<HouseholdTable>): Household => ({
  id: row.id as HouseholdId,
  name: row.name,
  people: row.people,
  timeZone: row.time_zone,
  locale: row.locale,
  units: row.units,
  weekStartsOn: row.week_starts_on,
  region: row.region,
  altitudeFt: row.altitude_ft,
  storageTemperatureF: row.storage_temperature_f,
  crockQuarts: row.crock_quarts,
  freezerQuartsPerDay: row.freezer_quarts_per_day,
  discardCeilingMonths: row.discard_ceiling_months,
  isDemo: row.is_demo === 1,
  factsVersion: row.facts_version,
});

export async function householdById(db: Database, id: HouseholdId): Promise<Household> {
  const row = await db.selectFrom('household').selectAll().where('id', '=', id).executeTakeFirst();
  if (!row) throw new ShelfwardError('household-unknown', `householdById: no household ${id}`);
  return fromRow(row);
}

/** Every household of the file: one's own before the invented one, the oldest first. */
export async function households(db: Database): Promise<readonly Household[]> {
  const rows = await db
    .selectFrom('household')
    .selectAll()
    .orderBy('is_demo')
    .orderBy('created_at')
    .orderBy('id')
    .execute();
  return rows.map(fromRow);
}
