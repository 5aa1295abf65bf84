import type { HouseholdId } from '../../../shared/ids.ts';
import { ShelfwardError } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Household } from '../../../src/household/household.ts';
import type { Database } from '../../database/database.ts';
import type { HouseholdTable } from '../../database/tables.ts';
import type { Row } from '../row.ts';
import { fitting, fittingRows } from './fitting.ts';

const fromRow = (row: Row<HouseholdTable>): Household => ({
  id: row.id as HouseholdId,
  name: row.name,
  people: row.people,
  timeZone: row.time_zone,
  storedTimeZone: row.time_zone,
  locale: row.locale,
  currency: row.currency,
  units: row.units,
  weekStartsOn: row.week_starts_on,
  region: row.region,
  altitudeFt: row.altitude_ft,
  storageTemperatureF: row.storage_temperature_f,
  crockQuarts: row.crock_quarts,
  freezerQuartsPerDay: row.freezer_quarts_per_day,
  discardCeilingMonths: row.discard_ceiling_months,
  recordedSince: fitting('household', 'recorded_since', row.recorded_since, null) as CalendarDate | null,
  emergencyDays: fitting('household', 'emergency_days', row.emergency_days, null),
  waterGallons: fitting('household', 'water_gallons', row.water_gallons, null),
  waterFilledOn: fitting('household', 'water_filled_on', row.water_filled_on, null) as CalendarDate | null,
  servingsWanted: {
    fruit: fitting('household', 'fruit_servings', row.fruit_servings, null),
    vegetable: fitting('household', 'vegetable_servings', row.vegetable_servings, null),
    protein: fitting('household', 'protein_servings', row.protein_servings, null),
    sweet: fitting('household', 'sweet_servings', row.sweet_servings, null),
  },
  saysWhoTook: row.says_who_took === 1,
  isDemo: row.is_demo === 1,
  factsVersion: row.facts_version,
});

/** Those that were deleted are seen by nobody, though they may come back. */
const standing = (db: Database) =>
  db
    .selectFrom('household')
    .selectAll()
    .where('id', 'not in', (deleted) => deleted.selectFrom('household_deletion').select('household_id'));

export interface DeletedHousehold {
  readonly id: HouseholdId;
  readonly name: string;
  readonly by: string;
  readonly at: number;
  readonly hasMembers: boolean;
}

/** The households that were deleted and are still kept. */
export async function deletedHouseholds(db: Database): Promise<readonly DeletedHousehold[]> {
  const rows = await db
    .selectFrom('household_deletion as deletion')
    .innerJoin('household', 'household.id', 'deletion.household_id')
    .leftJoin('membership', 'membership.household_id', 'household.id')
    .select(['household.id', 'household.name', 'deletion.deleted_at', 'deletion.by_name'])
    .select((row) => row.fn.count<number>('membership.person_id').as('members'))
    .groupBy('household.id')
    .orderBy('deletion.deleted_at')
    .execute();
  return rows.map(({ id, name, deleted_at, by_name, members }) => ({
    id: id as HouseholdId,
    name,
    by: by_name,
    at: deleted_at,
    hasMembers: members > 0,
  }));
}

/** What no form takes is shown on Settings, and breaks no other page. */
const fittingHousehold = (row: Row<HouseholdTable>): Household => ({
  ...fromRow(fittingRows('household', [row])[0] ?? row),
  storedTimeZone: row.time_zone,
});

export async function householdById(db: Database, id: HouseholdId): Promise<Household> {
  const row = await standing(db).where('id', '=', id).executeTakeFirst();
  if (!row) throw new ShelfwardError('household-unknown', `householdById: no household ${id}`);
  return fittingHousehold(row);
}

/** Every household of the file: one's own before the invented one, the oldest first. */
export async function households(db: Database): Promise<readonly Household[]> {
  const rows = await standing(db).orderBy('is_demo').orderBy('created_at').orderBy('id').execute();
  return rows.map(fittingHousehold);
}
