import type { Transaction } from 'kysely';
import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { addDays, addMonths, type CalendarDate, mondayOf, weekOf, yearOf } from '../../shared/week.ts';
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { isWithin, onDay, spansIn, windowOf, yearsAround } from './demo-calendar.ts';
import { type DemoData, loadDemoData } from './demo-data.ts';
import { liveHouseholdYear } from './household-story.ts';
import type { PantryBook } from './pantry-book.ts';

const ordinarySeed = 5;

interface DemoOptions {
  readonly seed?: number;
}

type Writing = Transaction<Tables>;

interface Scene {
  readonly db: Writing;
  readonly data: DemoData;
  readonly tables: ReferenceTables;
  readonly asOf: CalendarDate;
  readonly opensOn: CalendarDate;
  readonly book: PantryBook;
  readonly own: { readonly household_id: HouseholdId };
}

/**
 * Writes the invented household of seed-data/demo as it stands on `asOf`: its kitchen, items, recipes and sources, and a
 * year of its ledger that ends the day before. All or nothing; the same date and seed give the same rows.
 */
export async function makeDemoHousehold(
  database: Database,
  asOf: CalendarDate,
  { seed = ordinarySeed }: DemoOptions = {},
): Promise<HouseholdId> {
  const data = loadDemoData();
  const tables = loadReferenceTables();
  const { id } = data.household;
  const book = liveHouseholdYear(data, tables, asOf, seed);
  await database.transaction().execute(async (db) => {
    const scene: Scene = {
      db,
      data,
      tables,
      asOf,
      opensOn: addMonths(asOf, -12),
      book,
      own: { household_id: id },
    };
    await writeHousehold(scene);
    await writeTime(scene);
    await writeJarsAndLids(scene);
    await writeItems(scene);
    await writeRecipes(scene);
    await writeSources(scene);
    await writeBook(scene);
  });
  return id;
}

const noonUtc = (date: CalendarDate): number => Date.parse(`${date}T12:00:00Z`);

async function writeHousehold({ db, data, opensOn, own, asOf }: Scene): Promise<void> {
  const { household } = data;
  await db
    .insertInto('household')
    .values({
      id: household.id,
      name: household.name,
      people: household.people,
      time_zone: household.timeZone,
      region: household.region,
      altitude_ft: household.altitudeFt,
      storage_temperature_f: household.storageTemperatureF,
      crock_quarts: household.crockQuarts,
      freezer_quarts_per_day: household.freezerQuartsPerDay,
      discard_ceiling_months: household.discardCeilingMonths,
      is_demo: 1,
      created_at: noonUtc(opensOn),
    })
    .execute();
  await db
    .insertInto('place')
    .values(
      household.places.map((place) => ({
        ...own,
        id: place.id,
        name: place.name,
        kind: place.kind,
        capacity_quarts: place.capacityQuarts,
      })),
    )
    .execute();
  await db
    .insertInto('canner')
    .values(
      household.canners.map((canner) => ({
        ...own,
        id: canner.id,
        name: canner.name,
        method: canner.method,
        gauge: canner.gauge,
        gauge_checked_on: null,
        quart_jars: canner.quartJars,
        pint_jars: canner.pintJars,
        half_pint_jars: canner.halfPintJars,
        retired_on: null,
      })),
    )
    .execute();
  await db
    .insertInto('season_fund')
    .values({
      ...own,
      balance_cents: household.seasonFund.balanceCentsByMonth[Number(asOf.slice(5, 7)) - 1] ?? 0,
      balance_on: asOf,
      weekly_cents: household.seasonFund.weeklyCents,
    })
    .execute();
}

async function writeTime({ db, data, asOf, own }: Scene): Promise<void> {
  const { household } = data;
  const years = yearsAround(asOf);
  await db
    .insertInto('kitchen_time')
    .values({
      ...own,
      sessions_per_week: household.kitchenTime.sessionsPerWeek,
      hours_per_session: household.kitchenTime.hoursPerSession,
      set_up_minutes: household.kitchenTime.setUpMinutes,
      session_weekday: household.kitchenTime.sessionWeekday,
    })
    .execute();
  for (const closed of household.closedWeeks) {
    const weeks = new Set(
      spansIn(years, closed).flatMap((span) => {
        const mondays: CalendarDate[] = [];
        for (let monday = mondayOf(weekOf(span.from)); monday < span.until; monday = addDays(monday, 7)) {
          if (isWithin(addDays(monday, household.kitchenTime.sessionWeekday - 1), [span]))
            mondays.push(monday);
        }
        return mondays.map(weekOf);
      }),
    );
    await db
      .insertInto('week_time')
      .values(
        [...weeks].map((week) => ({
          ...own,
          week,
          sessions: 0,
          hours_per_session: null,
          reason: closed.reason,
        })),
      )
      .execute();
  }
  const asRow = (span: { from: CalendarDate; until: CalendarDate }) => ({
    ...own,
    from_on: span.from,
    until_on: span.until,
  });
  await db
    .insertInto('away')
    .values(household.away.flatMap((span) => spansIn(years, span)).map(asRow))
    .execute();
  await db
    .insertInto('school_holiday')
    .values(household.schoolHolidays.flatMap((span) => spansIn(years, span)).map(asRow))
    .execute();
}

async function writeJarsAndLids({ db, data, asOf, opensOn, book, own }: Scene): Promise<void> {
  const { household } = data;
  const kindOfLot = new Map(book.lots.map((lot) => [lot.id, lot.jarKind]));
  for (const jar of household.jars) {
    const moves = book.jarMoves.filter((move) => move.jarKind === jar.kind);
    const emptyAtStart = jar.spare + mostEverMissing(moves.map((move) => move.jars));
    const emptyNow = emptyAtStart + moves.reduce((sum, move) => sum + move.jars, 0);
    const fullNow = book.events
      .filter((event) => kindOfLot.get(event.lotId) === jar.kind)
      .reduce((sum, event) => sum + event.units, 0);
    await db
      .insertInto('jar_holding')
      .values({
        ...own,
        jar_kind: jar.kind,
        owned: emptyNow + fullNow,
        price_cents: jar.packPriceCents,
        pack: jar.pack,
        return_share: jar.returnShare,
      })
      .execute();
    await db
      .insertInto('empty_jar_event')
      .values([
        {
          ...own,
          entry_id: `first-count-${jar.kind}`,
          jar_kind: jar.kind,
          kind: 'counted',
          jars: emptyAtStart,
          occurred_on: opensOn,
          recorded_at: noonUtc(opensOn),
        },
        ...moves.map((move) => ({
          ...own,
          entry_id: entryId(move.entry),
          jar_kind: jar.kind,
          kind: move.kind,
          jars: move.jars,
          occurred_on: move.on,
          recorded_at: noonUtc(move.on) + move.entry,
        })),
      ])
      .execute();
  }
  await db
    .insertInto('lid_price')
    .values(
      household.lids.map((lid) => ({
        ...own,
        mouth: lid.mouth,
        box: lid.box,
        box_price_cents: lid.boxPriceCents,
      })),
    )
    .execute();
  await db
    .insertInto('lid_box')
    .values(
      household.lids.map((lid) => ({
        ...own,
        id: `lids-${lid.mouth}`,
        mouth: lid.mouth,
        lids: lid.onHand,
        bought_on: addDays(asOf, -60),
      })),
    )
    .execute();
}

/** How many jars the moves ever lack when they begin from none. */
const mostEverMissing = (moves: readonly number[]): number => {
  let empty = 0;
  let lowest = 0;
  for (const jars of moves) {
    empty += jars;
    lowest = Math.min(lowest, empty);
  }
  return -lowest;
};

async function writeItems({ db, data, asOf, opensOn, own }: Scene): Promise<void> {
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

async function writeRecipes({ db, data, own }: Scene): Promise<void> {
  await db
    .insertInto('recipe')
    .values(
      data.recipes.map((recipe) => ({
        ...own,
        id: recipe.id,
        item_id: recipe.item,
        name: recipe.name,
        based_on: recipe.based_on,
        process_food: recipe.process_food,
        process_style: recipe.process_style,
        process_pack: recipe.process_pack,
        canner_id: recipe.canner,
        jar_kind: recipe.jar_kind,
        yield_low: recipe.yield_low,
        yield_high: recipe.yield_high,
        hands_on_minutes: recipe.hands_on_minutes,
        ready_after_days: recipe.ready_after_days,
        crock_quarts: recipe.crock_quarts,
        crock_days: recipe.crock_days,
        season_from_month: recipe.season_from_month,
        season_until_month: recipe.season_until_month,
        retired_on: null,
      })),
    )
    .execute();
  await db
    .insertInto('recipe_produce')
    .values(
      data.recipeProduce.map((need) => ({
        ...own,
        recipe_id: need.recipe,
        crop: need.crop,
        lb: need.lb,
        may_be_frozen: need.may_be_frozen,
      })),
    )
    .execute();
  await db
    .insertInto('supply')
    .values(data.supplies.map((supply) => ({ ...own, ...supply })))
    .execute();
  await db
    .insertInto('recipe_supply')
    .values(
      data.recipeSupplies.map((need) => ({
        ...own,
        recipe_id: need.recipe,
        supply_id: need.supply,
        quantity: need.quantity,
      })),
    )
    .execute();
  await db
    .insertInto('recipe_stage')
    .values(
      data.household.stages.map((stage, at, stages) => ({
        ...own,
        recipe_id: stage.recipe,
        position: stages.slice(0, at + 1).filter((earlier) => earlier.recipe === stage.recipe).length,
        name: stage.name,
        after_days: stage.afterDays,
        hands_on_minutes: stage.handsOnMinutes,
      })),
    )
    .execute();
}

async function writeSources({ db, data, tables, asOf, own }: Scene): Promise<void> {
  await db
    .insertInto('source')
    .values(
      data.sources.map((source) => ({
        ...own,
        id: source.id,
        crop: source.crop,
        name: source.name,
        kind: source.kind,
        price_cents_per_lb: source.price_cents_per_lb,
        plants: source.plants,
        lb_per_plant: source.lb_per_plant,
        use_by_days: source.use_by_days,
        poor_year_chance: source.poor_year_chance,
        poor_year_share: source.poor_year_share,
        fall_back: source.fall_back,
        retired_on: null,
      })),
    )
    .execute();
  await db
    .insertInto('harvest_window')
    .values(
      data.sources.flatMap((source) =>
        yearsAround(asOf).map((year) => {
          const window = windowOf(source, tables.harvestWindows, data.household.region, year);
          return {
            ...own,
            source_id: source.id,
            year,
            begins_on: window.begins,
            ends_on: window.ends,
            most_active_from: window.active?.from ?? null,
            most_active_until: window.active?.until ?? null,
            lb_per_week: source.lb_per_week,
            first_picked_on: null,
          };
        }),
      ),
    )
    .execute();
}

const entryId = (entry: number): string => `book-${String(entry).padStart(5, '0')}`;

async function writeBook({ db, data, book, own }: Scene): Promise<void> {
  const { altitudeFt, members } = data.household;
  const memberOf = (number: number): string => members[number % members.length] ?? 'household';
  const lots = book.lots.map((lot) => ({
    ...own,
    id: lot.id,
    item_id: lot.itemId,
    batch_code: lot.batchCode,
    jar_kind: lot.jarKind,
    origin: lot.origin,
    made_on: lot.madeOn,
    ready_from: lot.readyFrom,
    best_quality_until: lot.bestQualityUntil,
    place_id: lot.placeId,
    cost_cents: lot.cost,
    set_aside_at: null,
    set_aside_reason: null,
    recipe_id: lot.recipeId,
    recorded_at: noonUtc(lot.madeOn),
  }));
  const evidence = book.lots.flatMap((lot) =>
    lot.evidence === null
      ? []
      : {
          ...own,
          lot_id: lot.id,
          canner_id: lot.evidence.cannerId,
          method: lot.evidence.method,
          gauge: lot.evidence.gauge,
          schedule_row: lot.evidence.scheduleRow,
          altitude_ft: altitudeFt,
          psi: lot.evidence.psi,
          minutes_run: lot.evidence.minutesRun,
          acid_ticked: lot.evidence.acidTicked === null ? null : Number(lot.evidence.acidTicked),
          done_by: memberOf(0),
        },
  );
  const events = book.events.map((event) => ({
    ...own,
    entry_id: entryId(event.entry),
    lot_id: event.lotId,
    kind: event.kind,
    units: event.units,
    trains_use: event.trainsUse ? 1 : 0,
    reason: event.reason,
    occurred_on: event.on,
    recorded_at: noonUtc(event.on) + event.entry,
    recorded_by: memberOf(event.entry),
    reverses_seq: null,
  }));
  const counts = book.counts.map((count) => ({
    ...own,
    id: `count-${count.on}-${count.itemId}`,
    item_id: count.itemId,
    counted_on: count.on,
    book_units: count.bookUnits,
    counted_units: count.countedUnits,
    explained_as: 'taken-unrecorded' as const,
    recorded_at: noonUtc(count.on),
  }));
  for (const rows of inPages(lots)) await db.insertInto('lot').values(rows).execute();
  for (const rows of inPages(evidence)) await db.insertInto('processing_evidence').values(rows).execute();
  for (const rows of inPages(events)) await db.insertInto('jar_event').values(rows).execute();
  for (const rows of inPages(counts)) await db.insertInto('shelf_count').values(rows).execute();
}

/** SQLite takes a limited number of values in one statement. */
const rowsPerStatement = 100;

const inPages = <Row>(rows: readonly Row[]): readonly (readonly Row[])[] =>
  Array.from({ length: Math.ceil(rows.length / rowsPerStatement) }, (_, page) =>
    rows.slice(page * rowsPerStatement, (page + 1) * rowsPerStatement),
  );
