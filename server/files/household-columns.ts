import { z } from 'zod';
import { families } from '../../shared/family.ts';
import { recipeId } from '../../shared/ids.ts';
import { mouths } from '../../shared/jar.ts';
import { failedSealChoices } from '../../shared/schemas/canning-session.ts';
import { usePeriods } from '../../shared/schemas/declared-use.ts';
import { fallBacks, sourceKinds } from '../../shared/schemas/harvest.ts';
import { canningMethods, gaugeTypes, isTimeZone, locales, placeKinds } from '../../shared/schemas/kitchen.ts';
import { papers } from '../../shared/schemas/label-grid.ts';
import { occasionKinds } from '../../shared/schemas/occasion.ts';
import { countExplanations } from '../../shared/schemas/shelf-count.ts';
import { calendarDate } from '../../shared/week.ts';
import { noticeKinds } from '../../src/notices/notice.ts';
import { recipeChanges } from '../../src/preserving/recipe-changes.ts';
import type { Tables } from '../database/tables.ts';
import {
  amount,
  type Cell,
  type ColumnKind,
  cents,
  crop,
  day,
  dayAfter,
  flag,
  instant,
  jar,
  json,
  line,
  minuteOfClock,
  oneOf,
  orNone,
  size,
  slug,
  week,
  whole,
  withDefault,
} from './column-kinds.ts';

// What a household file may hold, column by column: the bounds of the forms that fill them. A test holds the declaration
// against the schema of the database, so that a column added there cannot be forgotten here.

export type CarriedRow = Readonly<Record<string, Cell>>;

/** What must be true of a row as a whole; answers what was expected when it is not. */
export type RowRule = (row: CarriedRow) => string | null;

export interface CarriedTable {
  /** As the person knows it. */
  readonly title: string;
  readonly mostRows: number;
  /** Columns that together stand once in the file. */
  readonly key: readonly string[];
  readonly columns: Readonly<Record<string, ColumnKind>>;
  /** The table of the file a column points to, by its last key column. */
  readonly pointsTo: Readonly<Record<string, string>>;
  readonly rules: readonly RowRule[];
}

const table = (
  title: string,
  mostRows: number,
  key: readonly string[],
  columns: Readonly<Record<string, ColumnKind>>,
  more: { readonly pointsTo?: Readonly<Record<string, string>>; readonly rules?: readonly RowRule[] } = {},
): CarriedTable => ({
  title,
  mostRows,
  key,
  columns,
  pointsTo: more.pointsTo ?? {},
  rules: more.rules ?? [],
});

const expectThat =
  (holds: (row: CarriedRow) => boolean, expected: string): RowRule =>
  (row) =>
    holds(row) ? null : expected;

const isSaid = (cell: Cell | undefined): boolean => cell !== null && cell !== undefined;
const before = (one: Cell | undefined, other: Cell | undefined): boolean => String(one) < String(other);
const together = (one: string, other: string): RowRule =>
  expectThat(
    (row) => isSaid(row[one]) === isSaid(row[other]),
    `“${inWords(one)}” and “${inWords(other)}” both or neither`,
  );
const firstDayBefore = (from: string, until: string): RowRule =>
  expectThat((row) => before(row[from], row[until]), `a first day before the last`);

/** A column's name as it is shown. */
export const inWords = (column: string): string => column.replaceAll('_', ' ');

const key = line(300);
const month = whole(1, 12);
const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/);
const settingOfDay = z.strictObject({
  by: z.enum(['start', 'end']),
  time: clock,
  people: z.number().int().min(1).max(20),
  burners: z.number().int().min(1).max(20),
  rows: z.record(z.string().max(300), z.string().max(300)),
});
const workOfDay = z.array(z.strictObject({ recipeId, batches: z.number().int().min(0).max(40) })).max(200);
const basisOfSheet = z
  .array(
    z.looseObject({
      altitudeFt: z.number().min(-1500).max(20_000),
      canner: z.string().max(300),
      gauge: z.string().max(40).nullable(),
      gaugeCheckedOn: calendarDate.nullable(),
      rowKeys: z.array(z.string().max(300)).max(200),
    }),
  )
  .max(200);

/** Of the household itself. */
export const householdRow: CarriedTable = table('The household', 1, [], {
  name: line(120),
  people: withDefault(whole(1, 40)),
  time_zone: {
    ...line(60),
    expected: 'a time zone like “America/Chicago”',
    schema: z.string().max(60).refine(isTimeZone),
  },
  locale: withDefault(oneOf(locales)),
  units: withDefault(oneOf(['us', 'metric'])),
  week_starts_on: withDefault(oneOf(['monday', 'sunday'])),
  region: orNone(line(40)),
  altitude_ft: orNone(amount(-1500, 20_000)),
  storage_temperature_f: orNone(amount(-40, 140)),
  crock_quarts: withDefault(amount(0, 400)),
  freezer_quarts_per_day: orNone(amount(0, 400)),
  discard_ceiling_months: withDefault(whole(12, 60)),
  created_at: instant,
});

const reverses: RowRule = expectThat(
  (row) => (row.kind === 'reversed') === isSaid(row.reverses_seq),
  '“reverses seq” exactly where the kind is “reversed”',
);
const signOf: Readonly<Record<string, (units: number) => boolean>> = {
  'put up': (units) => units > 0,
  bought: (units) => units > 0,
  received: (units) => units > 0,
  taken: (units) => units < 0,
  'given away': (units) => units < 0,
  discarded: (units) => units < 0,
  'seal failed': (units) => units < 0,
  moved: (units) => units === 0,
  finished: (units) => units === 0,
};
const ofItem = { item_id: 'item' } as const;
const ofRecipe = { recipe_id: 'recipe' } as const;
const ofLot = { lot_id: 'lot' } as const;
const ofDay = { session_on: 'canning_session' } as const;

/** Tables a household takes along, each after those it points to. */
export const carried = {
  place: table('Places', 500, ['id'], {
    id: slug,
    name: line(80),
    kind: oneOf(placeKinds),
    capacity_quarts: orNone(amount(0, 10_000)),
  }),
  canner: table(
    'Canners',
    100,
    ['id'],
    {
      id: slug,
      name: line(80),
      method: oneOf(canningMethods),
      gauge: orNone(oneOf(gaugeTypes)),
      gauge_checked_on: orNone(day),
      gauge_off_at_5_psi: orNone(amount(-15, 15)),
      gauge_off_at_10_psi: orNone(amount(-15, 15)),
      gauge_off_at_15_psi: orNone(amount(-15, 15)),
      volume_quarts: orNone(amount(1, 60)),
      quart_jars: whole(0, 40),
      pint_jars: whole(0, 60),
      half_pint_jars: whole(0, 100),
      retired_on: orNone(day),
    },
    {
      rules: [
        expectThat(
          (row) => row.method === 'pressure' || !isSaid(row.gauge),
          'a gauge on a pressure canner alone',
        ),
      ],
    },
  ),
  kitchen_time: table('Kitchen time', 1, [], {
    sessions_per_week: withDefault(whole(0, 4)),
    hours_per_session: withDefault(amount(0.5, 12)),
    set_up_minutes: withDefault(whole(0, 240)),
    stove_burners: withDefault(whole(1, 20)),
    session_weekday: withDefault(whole(1, 7)),
  }),
  week_time: table('Weeks that differ from the usual', 2000, ['week'], {
    week,
    sessions: whole(0, 4),
    hours_per_session: orNone(amount(0.5, 12)),
    reason: orNone(line(120)),
  }),
  away: table(
    'Days away',
    2000,
    ['from_on'],
    { from_on: day, until_on: dayAfter },
    {
      rules: [firstDayBefore('from_on', 'until_on')],
    },
  ),
  school_holiday: table(
    'School holidays',
    2000,
    ['from_on'],
    { from_on: day, until_on: dayAfter },
    {
      rules: [firstDayBefore('from_on', 'until_on')],
    },
  ),
  season_fund: table('Season fund', 1, [], {
    balance_cents: withDefault(cents(100_000)),
    balance_on: day,
    weekly_cents: withDefault(cents(10_000)),
  }),
  jar_holding: table('Jars', 100, ['jar_kind'], {
    jar_kind: jar,
    owned: withDefault(whole(0, 10_000)),
    price_cents: withDefault(cents(1000)),
    pack: withDefault(whole(1, 144)),
    return_share: withDefault(amount(0, 1)),
  }),
  lid_price: table('Lids to buy', 2, ['mouth'], {
    mouth: oneOf(mouths),
    box: withDefault(whole(1, 1000)),
    box_price_cents: cents(1000),
  }),
  lid_box: table('Boxes of lids', 2000, ['id'], {
    id: key,
    mouth: oneOf(mouths),
    lids: whole(0, 10_000),
    bought_on: day,
  }),
  item: table(
    'Items',
    1000,
    ['id'],
    {
      id: slug,
      name: line(120),
      kind: oneOf(['preserve', 'staple']),
      keeping: oneOf(['canned', 'frozen', 'dried', 'fermented', 'cellar', 'bought']),
      family: oneOf(families),
      unit: oneOf(['jar', 'bag', 'lb', 'bin', 'each']),
      usual_jar: orNone(jar),
      servings_per_unit: orNone(amount(0.25, 500)),
      shelf_life_key: orNone(line(120)),
      best_quality_days: withDefault(whole(1, 3650)),
      keep_cold_days: orNone(whole(1, 400)),
      chance_wanted: withDefault(amount(0.5, 0.99)),
      family_minimum_units: orNone(amount(0, 5000)),
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
    name: line(120),
    total_units: amount(0, 5000),
    unit_jar: orNone(jar),
    least_kinds: withDefault(whole(1, 60)),
    largest_share: withDefault(amount(0.01, 1)),
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
      amount: amount(0, 1000),
      per: oneOf(usePeriods),
      counted_in: oneOf(['units', 'servings']),
      people: orNone(amount(0.25, 40)),
      meals_per_week: orNone(amount(0.05, 28)),
      restarts_filter: withDefault(flag),
      recorded_at: instant,
    },
    { pointsTo: ofItem },
  ),
  season_multiplier: table(
    'Use through the year',
    12_000,
    ['item_id', 'month'],
    { item_id: slug, month, multiplier: amount(0, 20) },
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
      units: amount(0.01, 500),
      note: withDefault(line(120, 0)),
      yearly: withDefault(flag),
    },
    { pointsTo: ofItem },
  ),
  hand_target: table(
    'Targets set by hand',
    1000,
    ['item_id'],
    { item_id: slug, units: amount(0, 5000), set_on: day },
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
      meal_servings: orNone(amount(0.25, 100)),
      gift_size: orNone(size),
      gift_jars: orNone(whole(1, 500)),
      lunch_size: orNone(size),
      lunch_jars: orNone(whole(1, 500)),
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
      units: amount(0.01, 1000),
      price_cents: cents(2000),
      buy_at_or_below_cents: orNone(cents(2000)),
      sale_from_month: orNone(month),
      sale_until_month: orNone(month),
      sale_price_cents: orNone(cents(2000)),
    },
    { pointsTo: ofItem },
  ),
  recipe: table(
    'Recipes',
    1000,
    ['id'],
    {
      id: slug,
      item_id: slug,
      name: line(120),
      based_on: line(200),
      process_food: orNone(line(120)),
      process_style: orNone(line(120)),
      process_pack: orNone(line(40)),
      canner_id: orNone(slug),
      jar_kind: orNone(jar),
      yield_low: amount(0.01, 500),
      yield_high: amount(0.01, 500),
      hands_on_minutes: whole(0, 1440),
      ready_after_days: withDefault(whole(0, 400)),
      crock_quarts: orNone(amount(0.01, 400)),
      crock_days: orNone(whole(1, 400)),
      season_from_month: orNone(month),
      season_until_month: orNone(month),
      retired_on: orNone(day),
      process_refused: orNone(line(2000)),
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
    { recipe_id: slug, crop, lb: amount(0.001, 500), may_be_frozen: withDefault(flag) },
    { pointsTo: ofRecipe },
  ),
  supply: table('Supplies', 1000, ['id'], {
    id: line(64),
    name: line(120),
    unit: line(40),
    pack_quantity: amount(0.001, 10_000),
    pack_price_cents: cents(2000),
    on_hand: withDefault(amount(0, 10_000)),
  }),
  recipe_supply: table(
    'Supplies of recipes',
    10_000,
    ['recipe_id', 'supply_id'],
    { recipe_id: slug, supply_id: line(64), quantity: amount(0.0001, 10_000) },
    { pointsTo: { ...ofRecipe, supply_id: 'supply' } },
  ),
  recipe_stage: table(
    'Stages of recipes',
    5000,
    ['recipe_id', 'position'],
    {
      recipe_id: slug,
      position: whole(1, 50),
      name: line(200),
      after_days: whole(0, 400),
      hands_on_minutes: whole(0, 1440),
    },
    { pointsTo: ofRecipe },
  ),
  material: table('What is left over or waits', 1000, ['id'], {
    id: key,
    name: line(120),
    unit: line(40),
    keeps_days_cold: whole(0, 400),
    keeps_months_frozen: orNone(whole(1, 60)),
    quarts_per_unit: withDefault(amount(0.001, 400)),
  }),
  recipe_material: table(
    'Left-overs of recipes',
    5000,
    ['recipe_id', 'material_id', 'direction'],
    {
      recipe_id: slug,
      material_id: key,
      direction: oneOf(['gives', 'uses']),
      quantity: amount(0.001, 10_000),
    },
    { pointsTo: { ...ofRecipe, material_id: 'material' } },
  ),
  source: table('Sources', 1000, ['id'], {
    id: slug,
    crop,
    name: line(120),
    kind: oneOf(sourceKinds),
    price_cents_per_lb: withDefault(cents(200)),
    plants: orNone(whole(0, 10_000)),
    lb_per_plant: orNone(amount(0.01, 1000)),
    use_by_days: withDefault(whole(0, 365)),
    poor_year_chance: withDefault(amount(0, 1)),
    poor_year_share: withDefault(amount(0, 1)),
    fall_back: withDefault(oneOf(fallBacks)),
    retired_on: orNone(day),
  }),
  harvest_window: table(
    'Harvest windows',
    10_000,
    ['source_id', 'year'],
    {
      source_id: slug,
      year: whole(2000, 2200),
      begins_on: day,
      ends_on: dayAfter,
      most_active_from: orNone(day),
      most_active_until: orNone(dayAfter),
      lb_per_week: amount(0, 20_000),
      first_picked_on: orNone(day),
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
  lot: table(
    'Batches on the shelf',
    20_000,
    ['id'],
    {
      id: slug,
      item_id: slug,
      batch_code: line(64),
      jar_kind: orNone(jar),
      origin: oneOf(['put-up', 'bought', 'received']),
      made_on: day,
      ready_from: dayAfter,
      best_quality_until: dayAfter,
      place_id: orNone(slug),
      cost_cents: orNone(cents(1_000_000)),
      set_aside_at: orNone(instant),
      set_aside_reason: orNone(line(1000)),
      recipe_id: orNone(slug),
      recorded_at: instant,
    },
    {
      pointsTo: { ...ofItem, place_id: 'place' },
      rules: [
        expectThat(
          (row) => !before(row.ready_from, row.made_on),
          'a day it is ready not before the day it was made',
        ),
        together('set_aside_at', 'set_aside_reason'),
      ],
    },
  ),
  processing_evidence: table(
    'How batches were processed',
    20_000,
    ['lot_id'],
    {
      lot_id: slug,
      canner_id: slug,
      method: oneOf(canningMethods),
      gauge: orNone(oneOf(gaugeTypes)),
      schedule_row: line(300),
      altitude_ft: amount(-1500, 20_000),
      psi: orNone(amount(1, 20)),
      minutes_run: whole(1, 600),
      acid_ticked: orNone(flag),
      done_by: line(80),
    },
    { pointsTo: { ...ofLot, canner_id: 'canner' } },
  ),
  jar_event: table(
    'The ledger',
    60_000,
    ['seq'],
    {
      seq: whole(1, 10_000_000),
      entry_id: key,
      lot_id: slug,
      kind: oneOf([...Object.keys(signOf), 'counted', 'reversed']),
      units: amount(-1_000_000, 1_000_000),
      trains_use: withDefault(flag),
      reason: orNone(line(1000, 0)),
      occurred_on: day,
      recorded_at: instant,
      recorded_by: orNone(line(80)),
      reverses_seq: orNone(whole(1, 10_000_000)),
    },
    {
      pointsTo: ofLot,
      rules: [
        reverses,
        expectThat(
          (row) => signOf[String(row.kind)]?.(Number(row.units)) ?? true,
          'units above 0 for what came, below 0 for what left, 0 for what was only moved or finished',
        ),
        expectThat(
          (row) => row.kind !== 'finished' || calendarDate.safeParse(row.reason).success,
          'the day a finished jar was opened as its reason',
        ),
      ],
    },
  ),
  lot_move: table(
    'Batches carried elsewhere',
    20_000,
    ['entry_id'],
    {
      entry_id: key,
      lot_id: slug,
      from_place_id: orNone(slug),
      from_name: orNone(line(80)),
      to_place_id: slug,
      to_name: line(80),
    },
    { pointsTo: ofLot, rules: [together('from_place_id', 'from_name')] },
  ),
  jar_conflict: table(
    'Takes that did not fit',
    10_000,
    ['id'],
    {
      id: key,
      item_id: slug,
      lot_id: orNone(slug),
      kind: line(40),
      units: amount(-1_000_000, 1_000_000),
      occurred_on: day,
      recorded_at: instant,
      settled_at: orNone(instant),
      settled_as: orNone(line(200)),
    },
    { pointsTo: ofItem, rules: [together('settled_at', 'settled_as')] },
  ),
  shelf_count: table(
    'Counts of the shelf',
    20_000,
    ['id'],
    {
      id: key,
      item_id: slug,
      counted_on: day,
      book_units: amount(-1_000_000, 1_000_000),
      counted_units: amount(0, 1_000_000),
      explained_as: oneOf(countExplanations),
      recorded_at: instant,
    },
    { pointsTo: ofItem },
  ),
  empty_jar_event: table('Empty jars', 60_000, ['seq'], {
    seq: whole(1, 10_000_000),
    entry_id: key,
    jar_kind: jar,
    kind: oneOf(['emptied', 'filled', 'bought', 'lent', 'returned', 'broken', 'counted']),
    jars: amount(-100_000, 100_000),
    occurred_on: day,
    recorded_at: instant,
  }),
  material_event: table('Produce and left-overs that came and went', 60_000, ['seq'], {
    seq: whole(1, 10_000_000),
    subject: key,
    kind: oneOf(['picked', 'bought', 'left-over', 'frozen', 'used', 'lost']),
    quantity: amount(-1_000_000, 1_000_000),
    unit: line(40),
    use_by: orNone(dayAfter),
    occurred_on: day,
    recorded_at: instant,
    result_id: orNone(key),
  }),
  kept: table(
    'What you decided about batches',
    10_000,
    ['recipe_id', 'week'],
    {
      recipe_id: slug,
      week,
      decision: oneOf(['pinned', 'ruled-out', 'done']),
      batches: orNone(whole(1, 40)),
      decided_at: instant,
    },
    { pointsTo: ofRecipe },
  ),
  notice: table('Notices', 20_000, ['id'], {
    id: key,
    kind: oneOf(noticeKinds),
    subject: key,
    reason: line(2000),
    due_on: orNone(dayAfter),
    state: withDefault(oneOf(['open', 'snoozed', 'done', 'gone'])),
    snoozed_until: orNone(dayAfter),
    first_seen_at: instant,
    changed_at: instant,
    seq: orNone(whole(0, 1_000_000_000)),
    sent_at: orNone(instant),
  }),
  canning_session: table('Canning days', 5000, ['session_on'], {
    session_on: day,
    setting_json: json('how the day is laid out', settingOfDay),
    work_json: json('what is made on the day', workOfDay),
    opened_at: instant,
  }),
  session_tick: table(
    'Ticks of canning days',
    60_000,
    ['session_on', 'load_key', 'step'],
    { session_on: day, load_key: key, step: key, ticked_at: instant },
    { pointsTo: ofDay },
  ),
  load_clock_event: table(
    'Clocks of loads',
    20_000,
    ['seq'],
    {
      seq: whole(1, 10_000_000),
      session_on: day,
      load_key: key,
      kind: oneOf(['started', 'interrupted']),
      why: orNone(oneOf(['boil-stopped', 'pressure-dropped', 'power-cut'])),
      at: instant,
    },
    {
      pointsTo: ofDay,
      rules: [
        expectThat(
          (row) => (row.kind === 'interrupted') === isSaid(row.why),
          'why a load was interrupted exactly where it was',
        ),
      ],
    },
  ),
  printed_sheet: table(
    'Printed sheets',
    5000,
    ['number'],
    {
      number: whole(1, 1_000_000),
      session_on: day,
      basis_json: json('what the sheet rests on', basisOfSheet),
      printed_at: instant,
    },
    { pointsTo: ofDay },
  ),
  batch_result: table(
    'What came out of batches',
    10_000,
    ['id'],
    {
      id: key,
      recipe_id: slug,
      made_on: day,
      batches: whole(0, 40),
      jars: amount(0, 24_000),
      minutes_taken: orNone(whole(1, 1440)),
      processed_at: instant,
      note: withDefault(line(200, 0)),
      recorded_at: instant,
    },
    { pointsTo: ofRecipe },
  ),
  batch_result_lot: table(
    'Batches by what they came from',
    20_000,
    ['lot_id'],
    { result_id: key, lot_id: slug },
    { pointsTo: { result_id: 'batch_result', ...ofLot } },
  ),
  seal_check: table(
    'Checks of seals',
    20_000,
    ['lot_id'],
    {
      lot_id: slug,
      checked_at: instant,
      failed: amount(0, 2000),
      choice: orNone(oneOf(failedSealChoices)),
    },
    {
      pointsTo: ofLot,
      rules: [
        expectThat(
          (row) => Number(row.failed) > 0 === isSaid(row.choice),
          'what was done with jars that did not seal, exactly where there are any',
        ),
      ],
    },
  ),
  stage_event: table(
    'Stages begun',
    20_000,
    ['seq'],
    {
      seq: whole(1, 10_000_000),
      batch_id: slug,
      recipe_id: slug,
      batches: whole(1, 40),
      kind: oneOf(['begun', 'taken back', 'thrown away']),
      position: orNone(whole(1, 60)),
      way: orNone(line(80)),
      begun_at: orNone(minuteOfClock),
      recorded_by: orNone(line(200)),
      recorded_at: instant,
    },
    {
      pointsTo: ofRecipe,
      rules: [
        expectThat(
          (row) => (row.kind === 'thrown away') !== isSaid(row.position),
          'a stage, unless the batch was thrown away',
        ),
        expectThat(
          (row) => (row.kind === 'begun') === isSaid(row.begun_at),
          'a time exactly where a stage was begun',
        ),
      ],
    },
  ),
  lot_standing_event: table(
    'Batches set aside and released',
    20_000,
    ['seq'],
    {
      seq: whole(1, 10_000_000),
      lot_id: slug,
      kind: oneOf(['set-aside', 'released']),
      reason: withDefault(line(1000, 0)),
      at: instant,
    },
    { pointsTo: ofLot },
  ),
  label_grid: table('Labels', 1, [], {
    paper: oneOf(papers),
    columns: whole(1, 12),
    rows: whole(1, 40),
    width_mm: amount(15, 220),
    height_mm: amount(10, 300),
    left_mm: amount(0, 100),
    top_mm: amount(0, 100),
    across_mm: amount(0, 100),
    down_mm: amount(0, 100),
    address: withDefault({
      ...line(200, 0),
      expected: 'an address like http://192.168.1.20:8137, or an empty text',
      schema: z
        .string()
        .max(200)
        .regex(/^(https?:\/\/[^\s\p{Cc}]+)?$/u),
    }),
  }),
  notice_lead: table('Days before notices', 100, ['kind'], {
    kind: oneOf(noticeKinds),
    days: orNone(whole(0, 365)),
  }),
  guess: table('Guesses of the first hour', 5000, ['kind', 'subject'], {
    kind: oneOf(['source', 'supply', 'minutes']),
    subject: key,
    guessed_at: instant,
  }),
} as const satisfies Partial<Record<keyof Tables, CarriedTable>>;

export type CarriedName = keyof typeof carried;
export const carriedTables = Object.keys(carried) as readonly CarriedName[];

/** Numbered by the whole database, not by the household: written as 1, 2, 3 and given new numbers on arrival. */
export const numbered: ReadonlySet<string> = new Set(
  Object.entries(carried as Readonly<Record<string, CarriedTable>>)
    .filter(([, { key: own }]) => own[0] === 'seq')
    .map(([name]) => name),
);
