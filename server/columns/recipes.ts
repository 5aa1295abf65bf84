import { z } from 'zod';
import { bounds, letters, moneyBounds } from '../../shared/bounds.ts';
import { cropKey } from '../../shared/ids.ts';
import { fallBacks, sourceKinds } from '../../shared/schemas/harvest.ts';
import { tradeMeasures } from '../../shared/trade-measure.ts';
import { stateNames } from '../../shared/us-states.ts';
import { recipeChanges } from '../../src/preserving/recipes/recipe-changes.ts';
import { before, expectThat, firstDayBefore, isSaid, table, together } from './carried-table.ts';
import {
  centsOf,
  crop,
  day,
  dayAfter,
  flag,
  instant,
  jar,
  json,
  key,
  line,
  month,
  monthDay,
  oneOf,
  orNone,
  sequence,
  slug,
  withDefault,
  within,
} from './column-kinds.ts';

// Of recipes and where their crops come from.

const ofRecipe = { recipe_id: 'recipe' } as const;
const ofItem = { item_id: 'item' } as const;

export const recipeColumns = {
  recipe: table(
    'Recipes',
    1000,
    ['id'],
    {
      id: slug,
      item_id: slug,
      name: line(letters.name),
      based_on: line(200),
      process_food: orNone(line(120)),
      process_style: orNone(line(120)),
      process_pack: orNone(line(40)),
      canner_id: orNone(slug),
      jar_kind: orNone(jar),
      yield_low: within(bounds.batchYield),
      yield_high: within(bounds.batchYield),
      hands_on_minutes: within(bounds.handsOnMinutes),
      ready_after_days: withDefault(within(bounds.daysUntilReady)),
      crock_quarts: orNone(within(bounds.crockFilledQuarts)),
      crock_days: orNone(within(bounds.crockDays)),
      season_from_month: orNone(month),
      season_until_month: orNone(month),
      retired_on: orNone(day),
      process_refused: orNone(line(letters.refusal)),
      changes_json: withDefault(
        json('a list of changes of the closed list', z.array(z.enum(recipeChanges)).max(20)),
      ),
    },
    {
      pointsTo: { ...ofItem, canner_id: 'canner' },
      rules: [
        expectThat(
          (row) => Number(row.yield_high) >= Number(row.yield_low),
          'a high yield not below the low one',
        ),
        expectThat(
          (row) =>
            !isSaid(row.canner_id) ||
            [row.process_food, row.process_style, row.process_pack, row.jar_kind].every(isSaid),
          'food, style, pack and jar of a process where there is a canner',
        ),
      ],
    },
  ),
  recipe_produce: table(
    'Produce of recipes',
    5000,
    ['recipe_id', 'crop'],
    { recipe_id: slug, crop, lb: within(bounds.cropLb), may_be_frozen: withDefault(flag) },
    { pointsTo: ofRecipe },
  ),
  supply: table('Supplies', 1000, ['id'], {
    id: line(letters.key),
    name: line(letters.name),
    unit: line(40),
    pack_quantity: within(bounds.packQuantity),
    pack_price_cents: centsOf(moneyBounds.pack),
    on_hand: withDefault(within(bounds.onHand)),
  }),
  recipe_supply: table(
    'Supplies of recipes',
    10_000,
    ['recipe_id', 'supply_id'],
    { recipe_id: slug, supply_id: line(letters.key), quantity: within(bounds.supplyQuantity) },
    { pointsTo: { ...ofRecipe, supply_id: 'supply' } },
  ),
  recipe_stage: table(
    'Stages of recipes',
    5000,
    ['recipe_id', 'position'],
    {
      recipe_id: slug,
      position: within(bounds.stagePosition),
      name: line(200),
      after_days: within(bounds.daysUntilReady),
      hands_on_minutes: within(bounds.stageMinutes),
    },
    { pointsTo: ofRecipe },
  ),
  // Carried, never believed: what a file answers is asked again (recipes-at-the-gate.ts).
  name_denial: table(
    'Answers about names',
    5000,
    ['recipe_id', 'name'],
    {
      recipe_id: slug,
      name: line(500),
      other_food: line(500),
      denied_by: orNone(line(200)),
      denied_at: instant,
    },
    { pointsTo: ofRecipe },
  ),
  recipe_way: table(
    'Ways chosen for recipes',
    10_000,
    ['seq'],
    {
      seq: sequence,
      recipe_id: slug,
      way: line(letters.way),
      chosen_by: orNone(line(letters.person)),
      chosen_at: instant,
    },
    { pointsTo: ofRecipe },
  ),
  material: table('What is left over or waits', 1000, ['id'], {
    id: key,
    name: line(letters.name),
    unit: line(40),
    keeps_days_cold: within(bounds.materialDaysCold),
    keeps_months_frozen: orNone(within(bounds.materialMonthsFrozen)),
    quarts_per_unit: withDefault(within(bounds.quartsPerMaterial)),
  }),
  recipe_material: table(
    'Left-overs of recipes',
    5000,
    ['recipe_id', 'material_id', 'direction'],
    {
      recipe_id: slug,
      material_id: key,
      direction: oneOf(['gives', 'uses']),
      quantity: within(bounds.materialQuantity),
    },
    { pointsTo: { ...ofRecipe, material_id: 'material' } },
  ),
  source: table('Sources', 1000, ['id'], {
    id: slug,
    crop,
    name: line(letters.name),
    kind: oneOf(sourceKinds),
    price_cents_per_lb: withDefault(centsOf(moneyBounds.perLb)),
    price_measure: orNone(oneOf(tradeMeasures)),
    price_measure_cents: orNone(centsOf(moneyBounds.perMeasure)),
    plants: orNone(within(bounds.plants)),
    lb_per_plant: orNone(within(bounds.lbPerPlant)),
    use_by_days: withDefault(within(bounds.useByDays)),
    poor_year_chance: withDefault(within(bounds.share)),
    poor_year_share: withDefault(within(bounds.share)),
    fall_back: withDefault(oneOf(fallBacks)),
    retired_on: orNone(day),
  }),
  harvest_window: table(
    'Harvest windows',
    10_000,
    ['source_id', 'year'],
    {
      source_id: slug,
      year: within(bounds.year),
      begins_on: day,
      ends_on: dayAfter,
      most_active_from: orNone(day),
      most_active_until: orNone(dayAfter),
      lb_per_week: within(bounds.lbPerWeek),
      first_picked_on: orNone(day),
      dates_guessed: withDefault(flag),
      usual_lb_per_week: orNone(within(bounds.usualLbPerWeek)),
    },
    {
      pointsTo: { source_id: 'source' },
      rules: [
        firstDayBefore('begins_on', 'ends_on'),
        together('most_active_from', 'most_active_until'),
        expectThat(
          (row) =>
            !isSaid(row.most_active_from) ||
            (before(row.most_active_from, row.most_active_until) &&
              !before(row.most_active_from, row.begins_on) &&
              !before(row.ends_on, row.most_active_until)),
          'the most active days within the window',
        ),
      ],
    },
  ),
  garden_yield: table(
    'What the garden gave',
    10_000,
    ['source_id', 'year'],
    {
      source_id: slug,
      year: within(bounds.year),
      lb: within(bounds.lbGiven),
      plants: orNone(within(bounds.plants)),
    },
    { pointsTo: { source_id: 'source' } },
  ),
  ground: table('Where you grow', 1, [], {
    town: orNone(line(letters.town)),
    station: orNone({
      ...line(20),
      expected: 'a weather station like “USC00050848”',
      schema: z.string().regex(/^[A-Z0-9]{1,20}$/),
    }),
    state: orNone(oneOf(Object.keys(stateNames))),
    last_frost: orNone(monthDay),
    first_frost: orNone(monthDay),
    strawberries_from: orNone(monthDay),
  }),
  season_lateness: table('Early and late years', 2000, ['year', 'crop'], {
    year: within(bounds.year),
    crop: {
      ...crop,
      expected: 'a crop in small letters and hyphens, or an empty text for all crops',
      schema: z.union([z.literal(''), cropKey]),
    },
    days: within(bounds.lateDays),
  }),
} as const;
