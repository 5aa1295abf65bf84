import type { HouseholdId } from '../../shared/ids.ts';
import type { SeasonTables } from '../../src/harvest/ground.ts';
import { groundOf, type KnownGround } from '../../src/harvest/known-ground.ts';
import type { Database, Writing } from '../database/database.ts';
import { householdById } from '../queries/household/household.ts';
import { statedGround } from '../queries/year/ground.ts';

/** The ground of a household as it stands in the file. */
export const householdGround = async (
  db: Database | Writing,
  householdId: HouseholdId,
  tables: SeasonTables,
): Promise<KnownGround> =>
  groundOf(await householdById(db as Database, householdId), await statedGround(db, householdId), tables);
