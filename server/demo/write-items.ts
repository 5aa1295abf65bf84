import { yearOf } from '../../shared/week.ts';
import { onDay } from './demo-calendar.ts';
import { noonUtc, type Scene } from './scene.ts';

/** What is kept, how much of it is eaten, and what the shops sell. */
export async function writeItems({ db, data, asOf, opensOn, own }: Scene): Promise<void> {
  await db
    .insertInto('item')
    .values(
      data.items.map((item) => ({
        ...own,
        id: item.id,
        name: item.name,
        kind: item.kind,
        keeping: item.keeping,
        family: item.family,
        unit: item.unit,
        usual_jar: item.usual_jar,
        servings_per_unit: item.servings_per_unit,
        shelf_life_key: item.shelf_life_key,
        best_quality_days: item.best_quality_days,
        keep_cold_days: item.keep_cold_days,
        chance_wanted: item.chance_wanted,
        family_minimum_units: item.family_minimum,
        retired_on: null,
      })),
    )
    .execute();
  await db
    .insertInto('declared_use')
    .values(
      data.items.map((item) => ({
        ...own,
        item_id: item.id,
        since_on: opensOn,
        amount: item.says_amount,
        per: item.says_per,
        counted_in: item.says_counted_in,
        people: item.says_people,
        meals_per_week: item.says_meals_per_week,
        recorded_at: noonUtc(opensOn),
      })),
    )
    .execute();
  await db
    .insertInto('season_multiplier')
    .values(
      data.items.flatMap((item) =>
        item.by_month.map((multiplier, at) => ({ ...own, item_id: item.id, month: at + 1, multiplier })),
      ),
    )
    .execute();
  await db
    .insertInto('occasion')
    .values(
      data.occasions.map((due) => {
        const thisYear = onDay(yearOf(asOf), due.month_day);
        return {
          ...own,
          id: due.id,
          item_id: due.item,
          kind: due.kind,
          on_date: thisYear >= asOf ? thisYear : onDay(yearOf(asOf) + 1, due.month_day),
          units: due.units,
          note: due.note,
        };
      }),
    )
    .execute();
  await db
    .insertInto('hand_target')
    .values(
      data.household.handTargets.map((target) => ({
        ...own,
        item_id: target.item,
        units: target.units,
        set_on: opensOn,
      })),
    )
    .execute();
  await db
    .insertInto('shop_pack')
    .values(data.packs.map(({ item, ...pack }) => ({ ...own, item_id: item, ...pack })))
    .execute();
  for (const group of data.household.groups) {
    await db
      .insertInto('item_group')
      .values({
        ...own,
        id: group.id,
        name: group.name,
        total_units: group.totalUnits,
        unit_jar: group.unitJar,
        least_kinds: group.leastKinds,
        largest_share: group.largestShare,
      })
      .execute();
    await db
      .insertInto('item_group_member')
      .values(group.items.map((item) => ({ ...own, group_id: group.id, item_id: item })))
      .execute();
  }
}
