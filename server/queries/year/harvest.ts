import { groupedBy } from '../../../shared/grouped-by.ts';
import type { CropKey, HouseholdId, SourceId } from '../../../shared/ids.ts';
import type { Cents } from '../../../shared/money.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { GardenYield } from '../../../src/household/garden-yield.ts';
import type { Source } from '../../../src/household/source.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';

/** Where each crop comes from, with the dates of every year written down so far. */
export async function sourcesOf(db: Database, householdId: HouseholdId): Promise<readonly Source[]> {
  const [rows, windows] = await Promise.all([
    db
      .selectFrom('source')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('retired_on', 'is', null)
      .orderBy('name')
      .orderBy('id')
      .execute(),
    db
      .selectFrom('harvest_window')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('year')
      .execute(),
  ]);
  const windowsBySource = groupedBy(fittingRows('harvest_window', windows), (row) => row.source_id);
  return fittingRows('source', rows).map((row) => ({
    id: row.id as SourceId,
    crop: row.crop as CropKey,
    name: row.name,
    kind: row.kind,
    pricePerLb: row.price_cents_per_lb as Cents,
    pricedIn:
      row.price_measure === null || row.price_measure_cents === null
        ? null
        : { measure: row.price_measure, cents: row.price_measure_cents as Cents },
    plants: row.plants,
    lbPerPlant: row.lb_per_plant,
    useByDays: row.use_by_days,
    poorYearChance: row.poor_year_chance,
    poorYearShare: row.poor_year_share,
    fallBack: row.fall_back,
    windows: (windowsBySource.get(row.id) ?? []).map((window) => ({
      year: window.year,
      beginsOn: window.begins_on as CalendarDate,
      endsOn: window.ends_on as CalendarDate,
      mostActive:
        window.most_active_from === null || window.most_active_until === null
          ? null
          : {
              fromOn: window.most_active_from as CalendarDate,
              untilOn: window.most_active_until as CalendarDate,
            },
      lbPerWeek: window.lb_per_week,
      usualLbPerWeek: window.usual_lb_per_week,
      datesGuessed: window.dates_guessed === 1,
      firstPickedOn: window.first_picked_on as CalendarDate | null,
    })),
  }));
}

/** What garden sources gave year by year, as far as it was weighed; sources no longer used are left out. */
export async function gardenYieldsOf(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly GardenYield[]> {
  const rows = await db
    .selectFrom('garden_yield')
    .innerJoin('source', (join) =>
      join
        .onRef('source.household_id', '=', 'garden_yield.household_id')
        .onRef('source.id', '=', 'garden_yield.source_id'),
    )
    .selectAll('garden_yield')
    .where('garden_yield.household_id', '=', householdId)
    .where('source.retired_on', 'is', null)
    .orderBy('garden_yield.source_id')
    .orderBy('garden_yield.year')
    .execute();
  return fittingRows('garden_yield', rows).map((row) => ({
    sourceId: row.source_id as SourceId,
    year: row.year,
    lb: row.lb,
    plants: row.plants,
  }));
}
