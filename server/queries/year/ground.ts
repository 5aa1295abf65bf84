import type { HouseholdId } from '../../../shared/ids.ts';
import { noGround, type SeasonLateness, type StatedGround } from '../../../src/household/ground.ts';
import type { Database, Writing } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';

export async function statedGround(db: Database | Writing, householdId: HouseholdId): Promise<StatedGround> {
  const rows = await db.selectFrom('ground').selectAll().where('household_id', '=', householdId).execute();
  const [row] = fittingRows('ground', rows);
  if (row === undefined) return noGround;
  return {
    town: row.town,
    station: row.station,
    state: row.state,
    lastFrost: row.last_frost,
    firstFrost: row.first_frost,
    strawberriesFrom: row.strawberries_from,
  };
}

export async function seasonLateness(
  db: Database | Writing,
  householdId: HouseholdId,
): Promise<readonly SeasonLateness[]> {
  const rows = await db
    .selectFrom('season_lateness')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('year')
    .orderBy('crop')
    .execute();
  return fittingRows('season_lateness', rows).map(({ year, crop, days }) => ({
    year,
    crop: crop === '' ? null : crop,
    days,
  }));
}
