import { type ExpressionBuilder, sql } from 'kysely';
import { compare } from '../../../shared/compare.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { ShelfwardError } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { StoredHousehold } from '../../../src/household/household.ts';
import type { Database } from '../../database/database.ts';
import type { HouseholdTable, Tables } from '../../database/tables.ts';
import type { Row } from '../row.ts';
import { fitting, fittingRows } from './fitting.ts';

const fromRow = (row: Row<HouseholdTable>): StoredHousehold => ({
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

const isNotDeleted = ({ not, exists, selectFrom }: ExpressionBuilder<Tables, 'household'>) =>
  not(
    exists(
      selectFrom('household_deletion')
        .select('household_deletion.household_id')
        .whereRef('household_deletion.household_id', '=', 'household.id'),
    ),
  );

/** Those that were deleted are seen by nobody, though they may come back. */
const standing = (db: Database) => db.selectFrom('household').selectAll().where(isNotDeleted);

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
    .groupBy(['household.id', 'household.name', 'deletion.deleted_at', 'deletion.by_name'])
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
export const fittingHousehold = (row: Row<HouseholdTable>): StoredHousehold => ({
  ...fromRow(fittingRows('household', [row])[0] ?? row),
  storedTimeZone: row.time_zone,
});

export async function householdById(db: Database, id: HouseholdId): Promise<StoredHousehold> {
  const household = await findHousehold(db, id);
  if (household === null) throw new ShelfwardError('household-unknown', `householdById: no household ${id}`);
  return household;
}

/** Null where there is none, or it was deleted. */
export async function findHousehold(db: Database, id: string): Promise<StoredHousehold | null> {
  const row = await standing(db).where('id', '=', id).limit(1).executeTakeFirst();
  return row === undefined ? null : fittingHousehold(row);
}

/** The household a file was made for: one's own before the invented one, the oldest first; null in an empty file. */
export async function firstHousehold(db: Database): Promise<StoredHousehold | null> {
  const row = await inOrder(standing(db)).limit(1).executeTakeFirst();
  return row === undefined ? null : fittingHousehold(row);
}

/** The invented household; null where there is none. */
export async function demoHousehold(db: Database): Promise<StoredHousehold | null> {
  const row = await inOrder(standing(db).where('is_demo', '=', 1))
    .limit(1)
    .executeTakeFirst();
  return row === undefined ? null : fittingHousehold(row);
}

/** Which households somebody may look at. */
export interface Visible {
  readonly household: StoredHousehold;
  /** It has no owner yet, and belongs to whoever sits at the machine. */
  readonly isOpen: boolean;
}

/**
 * Those of the ids, and with `open` those that nobody owns yet: one's own before the invented one, the oldest first. Found
 * by index, however many others the file holds.
 */
export async function visibleHouseholds(
  db: Database,
  { ids, open }: { readonly ids: readonly string[]; readonly open: boolean },
): Promise<readonly Visible[]> {
  const [own, others] = await Promise.all([
    ids.length === 0 ? [] : standing(db).where('id', 'in', ids).execute(),
    open ? openRows(db).execute() : [],
  ]);
  const rows = [
    ...own.map((row) => ({ row, isOpen: false })),
    ...others.filter(({ id }) => !ids.includes(id)).map((row) => ({ row, isOpen: true })),
  ];
  return rows
    .toSorted(
      ({ row: one }, { row: other }) =>
        one.is_demo - other.is_demo || one.created_at - other.created_at || compare(one.id, other.id),
    )
    .map(({ row, isOpen }) => ({ household: fittingHousehold(row), isOpen }));
}

/** Whether nobody is a member is asked of the members; the mark only keeps the others from being looked at. */
const openRows = (db: Database) =>
  standing(db)
    .where(sql<boolean>`is_open = 1`)
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('membership')
            .select('person_id')
            .whereRef('membership.household_id', '=', 'household.id'),
        ),
      ),
    );

const inOrder = (rows: ReturnType<typeof standing>) =>
  rows.orderBy('is_demo').orderBy('created_at').orderBy('id');

/** Zones that households live in. */
export async function zonesLivedIn(db: Database): Promise<readonly string[]> {
  // Each zone is found behind the one before it: the households between are not looked at.
  const { rows } = await sql<{ zone: string }>`WITH RECURSIVE lived (zone) AS (
    SELECT min(time_zone) FROM household
    UNION ALL
    SELECT (SELECT min(time_zone) FROM household WHERE time_zone > lived.zone) FROM lived WHERE lived.zone IS NOT NULL
  ) SELECT zone FROM lived WHERE zone IS NOT NULL`.execute(db);
  return rows.map(({ zone }) => zone);
}

/** Households of a zone whose work of that night is not written down yet. */
export async function notNotedFor(
  db: Database,
  zone: string,
  night: CalendarDate,
): Promise<readonly HouseholdId[]> {
  const rows = await db
    .selectFrom('household')
    .select('id')
    .where('time_zone', '=', zone)
    .where(sql<boolean>`coalesce(noted_night, '') < ${night}`)
    .where(isNotDeleted)
    .execute();
  return rows.map(({ id }) => id as HouseholdId);
}
