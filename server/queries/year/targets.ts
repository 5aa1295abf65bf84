import { groupedBy } from '../../../shared/grouped-by.ts';
import type { GroupId, HouseholdId, ItemId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type {
  DeclaredUseSetting,
  ItemGroup,
  OccasionSetting,
  ShopPackSetting,
} from '../../../src/household/appetite.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';

/** The declaration in force for each item on a date: the newest that does not begin later. */
export async function declaredUsesOf(
  db: Database,
  householdId: HouseholdId,
  on: CalendarDate,
): Promise<ReadonlyMap<ItemId, DeclaredUseSetting>> {
  const rows = await db
    .selectFrom('declared_use')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('since_on', '<=', on)
    .orderBy('since_on')
    .orderBy('recorded_at')
    .execute();
  return new Map(
    fittingRows('declared_use', rows).map((row) => [
      row.item_id as ItemId,
      {
        itemId: row.item_id as ItemId,
        sinceOn: row.since_on as CalendarDate,
        amount: row.amount,
        per: row.per,
        countedIn: row.counted_in,
        people: row.people,
        mealsPerWeek: row.meals_per_week,
        restartsFilter: row.restarts_filter === 1,
      },
    ]),
  );
}

/** Twelve multipliers, January first, for the items that have any; months not named are as usual. */
export async function seasonMultipliersOf(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<ItemId, readonly number[]>> {
  const rows = await db
    .selectFrom('season_multiplier')
    .selectAll()
    .where('household_id', '=', householdId)
    .execute();
  return new Map(
    [...groupedBy(fittingRows('season_multiplier', rows), (row) => row.item_id as ItemId)].map(
      ([itemId, months]) => [
        itemId,
        Array.from({ length: 12 }, (_, at) => months.find((row) => row.month === at + 1)?.multiplier ?? 1),
      ],
    ),
  );
}

export async function occasionsOf(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly OccasionSetting[]> {
  const rows = await db
    .selectFrom('occasion')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('on_date')
    .orderBy('id')
    .execute();
  return fittingRows('occasion', rows).map((row) => ({
    id: row.id,
    itemId: row.item_id as ItemId,
    kind: row.kind,
    on: row.on_date as CalendarDate,
    units: row.units,
    note: row.note,
    isYearly: row.yearly === 1,
  }));
}

/** Yearly targets that a person set, by item; the others follow from use. */
export async function handTargetsOf(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<ItemId, { readonly units: number; readonly setOn: CalendarDate }>> {
  const rows = await db
    .selectFrom('hand_target')
    .selectAll()
    .where('household_id', '=', householdId)
    .execute();
  return new Map(
    fittingRows('hand_target', rows).map((row) => [
      row.item_id as ItemId,
      { units: row.units, setOn: row.set_on as CalendarDate },
    ]),
  );
}

export async function itemGroupsOf(db: Database, householdId: HouseholdId): Promise<readonly ItemGroup[]> {
  const [groups, members] = await Promise.all([
    db.selectFrom('item_group').selectAll().where('household_id', '=', householdId).orderBy('id').execute(),
    db
      .selectFrom('item_group_member as member')
      .innerJoin('item', (join) =>
        join
          .onRef('item.household_id', '=', 'member.household_id')
          .onRef('item.id', '=', 'member.item_id')
          .on('item.retired_on', 'is', null),
      )
      .where('member.household_id', '=', householdId)
      .orderBy('member.item_id')
      .select(['member.group_id', 'member.item_id'])
      .execute(),
  ]);
  const membersByGroup = groupedBy(members, (row) => row.group_id);
  return fittingRows('item_group', groups).map((row) => ({
    id: row.id as GroupId,
    name: row.name,
    totalUnits: row.total_units,
    unitJar: row.unit_jar as JarKind | null,
    leastKinds: row.least_kinds,
    largestShare: row.largest_share,
    members: (membersByGroup.get(row.id) ?? []).map((member) => member.item_id as ItemId),
  }));
}

export async function shopPacksOf(
  db: Database,
  householdId: HouseholdId,
): Promise<ReadonlyMap<ItemId, readonly ShopPackSetting[]>> {
  const rows = await db
    .selectFrom('shop_pack')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('item_id')
    .orderBy('units')
    .orderBy('id')
    .execute();
  const packs = fittingRows('shop_pack', rows).map(
    (row): ShopPackSetting => ({
      itemId: row.item_id as ItemId,
      id: row.id,
      units: row.units,
      price: row.price_cents as Cents,
      buyAtOrBelow: row.buy_at_or_below_cents as Cents | null,
      sale:
        row.sale_from_month === null || row.sale_until_month === null || row.sale_price_cents === null
          ? null
          : {
              fromMonth: row.sale_from_month,
              untilMonth: row.sale_until_month,
              price: row.sale_price_cents as Cents,
            },
      isPlanned: row.is_planned === 1,
    }),
  );
  return groupedBy(packs, (pack) => pack.itemId);
}

/** Those of some packs that the plan may buy. */
export const plannedPacks = (
  packs: ReadonlyMap<ItemId, readonly ShopPackSetting[]>,
): ReadonlyMap<ItemId, readonly ShopPackSetting[]> =>
  new Map(
    [...packs].flatMap(([item, of]) => {
      const planned = of.filter(({ isPlanned }) => isPlanned);
      return planned.length === 0 ? [] : [[item, planned] as const];
    }),
  );
