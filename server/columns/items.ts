import { bounds, letters, moneyBounds, scaled } from '../../shared/bounds.ts';
import { families } from '../../shared/family.ts';
import { countsAsKinds } from '../../shared/meal-kinds.ts';
import { usePeriods } from '../../shared/schemas/declared-use.ts';
import { occasionKinds } from '../../shared/schemas/occasion.ts';
import { expectThat, isSaid, table, together } from './carried-table.ts';
import {
  centsOf,
  day,
  flag,
  instant,
  jar,
  key,
  line,
  month,
  oneOf,
  orNone,
  size,
  slug,
  withDefault,
  within,
} from './column-kinds.ts';

// Of what is kept, how much of it is eaten and wanted.

const ofItem = { item_id: 'item' } as const;

export const itemColumns = {
  item: table(
    'Items',
    1000,
    ['id'],
    {
      id: slug,
      name: line(letters.name),
      kind: oneOf(['preserve', 'staple']),
      keeping: withDefault(
        oneOf(['canned', 'frozen', 'dried', 'fermented', 'cellar', 'refrigerated', 'bought']),
      ),
      family: oneOf(families),
      unit: oneOf(['jar', 'bag', 'lb', 'bin', 'each']),
      usual_jar: orNone(jar),
      servings_per_unit: orNone(within(bounds.servingsPerUnit)),
      shelf_life_key: orNone(line(120)),
      best_quality_days: withDefault(within(bounds.bestQualityDays)),
      keep_cold_days: orNone(within(bounds.keepColdDays)),
      freezer_quarts: orNone(within(bounds.freezerQuartsOfOne)),
      chance_wanted: withDefault(within(scaled(bounds.yearsInTwenty, { of: 20 }))),
      family_minimum_units: orNone(within(bounds.yearlyUnits)),
      emergency_units: orNone(within(bounds.emergencyUnits)),
      counts_as: orNone(oneOf(countsAsKinds)),
      retired_on: orNone(day),
    },
    {
      rules: [
        expectThat(
          (row) => (row.unit === 'jar') === isSaid(row.usual_jar),
          'a usual jar exactly where the unit is “jar”',
        ),
      ],
    },
  ),
  item_group: table('Groups', 200, ['id'], {
    id: slug,
    name: line(letters.name),
    total_units: within(bounds.yearlyUnits),
    unit_jar: orNone(jar),
    least_kinds: withDefault(within(bounds.leastKinds)),
    largest_share: withDefault(within(scaled(bounds.largestSharePercent, { of: 100 }))),
  }),
  item_group_member: table(
    'Members of groups',
    2000,
    ['group_id', 'item_id'],
    { group_id: slug, item_id: slug },
    { pointsTo: { group_id: 'item_group', ...ofItem } },
  ),
  declared_use: table(
    'How much you eat',
    5000,
    ['item_id', 'since_on'],
    {
      item_id: slug,
      since_on: day,
      amount: within(bounds.useAmount),
      per: oneOf(usePeriods),
      counted_in: oneOf(['units', 'servings']),
      people: orNone(within(bounds.eaters)),
      meals_per_week: orNone(within(bounds.mealsPerWeek)),
      restarts_filter: withDefault(flag),
      recorded_at: instant,
    },
    { pointsTo: ofItem },
  ),
  season_multiplier: table(
    'Use through the year',
    12_000,
    ['item_id', 'month'],
    { item_id: slug, month, multiplier: within(scaled(bounds.seasonPercent, { of: 100 })) },
    { pointsTo: ofItem },
  ),
  occasion: table(
    'Occasions, gifts and promises',
    5000,
    ['id'],
    {
      id: key,
      item_id: slug,
      kind: oneOf(occasionKinds),
      on_date: day,
      units: within(bounds.occasionUnits),
      note: withDefault(line(letters.note, 0)),
      yearly: withDefault(flag),
    },
    { pointsTo: ofItem },
  ),
  ordinary_use: table(
    'Weeks and years called ordinary',
    5000,
    ['item_id', 'kind', 'on_date'],
    { item_id: slug, kind: oneOf(['week', 'year']), on_date: day },
    { pointsTo: ofItem },
  ),
  hand_target: table(
    'Targets set by hand',
    1000,
    ['item_id'],
    { item_id: slug, units: within(bounds.yearlyUnits), set_on: day },
    {
      pointsTo: ofItem,
    },
  ),
  jar_wish: table(
    'Wishes for jars',
    1000,
    ['item_id'],
    {
      item_id: slug,
      meal_servings: orNone(within(bounds.mealServings)),
      gift_size: orNone(size),
      gift_jars: orNone(within(bounds.jarsOfTheirOwn)),
      lunch_size: orNone(size),
      lunch_jars: orNone(within(bounds.jarsOfTheirOwn)),
    },
    { pointsTo: ofItem, rules: [together('gift_size', 'gift_jars'), together('lunch_size', 'lunch_jars')] },
  ),
  shop_pack: table(
    'Packs in shops',
    3000,
    ['item_id', 'id'],
    {
      item_id: slug,
      id: key,
      units: within(bounds.unitsInPack),
      price_cents: centsOf(moneyBounds.pack),
      buy_at_or_below_cents: orNone(centsOf(moneyBounds.pack)),
      sale_from_month: orNone(month),
      sale_until_month: orNone(month),
      sale_price_cents: orNone(centsOf(moneyBounds.pack)),
      is_planned: withDefault(flag),
    },
    { pointsTo: ofItem },
  ),
} as const;
