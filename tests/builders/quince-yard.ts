import { type Database, openDatabase } from '../../server/database/database.ts';
import { nextSeq } from '../../server/records/next-seq.ts';
import type { Recording } from '../../server/records/record.ts';
import type { HouseholdId, ItemId, LotId } from '../../shared/ids.ts';
import { asDate, type CalendarDate } from '../../shared/week.ts';

// The small cast that recurs in the tests: Quince Yard, two people at 1,200 ft, with a kettle and a pressure canner, a
// plum tree, plum jam in half-pints, green beans in pints, cured pickles in quarts, and oats from the shop.

export const quinceYard = 'quince-yard' as HouseholdId;
export const plumJam = 'plum-jam' as ItemId;
export const greenBeans = 'green-beans' as ItemId;
export const curedPickles = 'cured-pickles' as ItemId;
export const oats = 'oats' as ItemId;
export const today = asDate('2026-08-17');

export interface Cast {
  readonly db: Database;
  /** A fresh writer: another key each time, unless one is given; today unless another day is given. */
  readonly writer: (how?: { readonly key?: string; readonly on?: string }) => Recording;
}

export async function quinceYardHousehold(file = ':memory:'): Promise<Cast> {
  const db = await openDatabase(file);
  const own = { household_id: quinceYard };
  await db
    .insertInto('household')
    .values({
      id: quinceYard,
      name: 'Quince Yard',
      time_zone: 'America/Denver',
      region: 'CO',
      altitude_ft: 1200,
      created_at: 0,
    })
    .execute();
  await db
    .insertInto('canner')
    .values([
      {
        ...own,
        id: 'kettle',
        name: 'Kettle',
        method: 'boiling-water',
        quart_jars: 7,
        pint_jars: 9,
        half_pint_jars: 12,
      },
      {
        ...own,
        id: 'pressure-pot',
        name: 'Pressure pot',
        method: 'pressure',
        gauge: 'weighted',
        quart_jars: 7,
        pint_jars: 9,
        half_pint_jars: 18,
      },
    ])
    .execute();
  await db
    .insertInto('place')
    .values({ ...own, id: 'cellar', name: 'Cellar', kind: 'cellar' })
    .execute();
  await db
    .insertInto('item')
    .values([
      {
        ...own,
        id: plumJam,
        name: 'Plum jam',
        kind: 'preserve',
        keeping: 'canned',
        family: 'stone-fruit',
        unit: 'jar',
        usual_jar: 'half-pint/regular',
        best_quality_days: 365,
        servings_per_unit: 16,
      },
      {
        ...own,
        id: greenBeans,
        name: 'Green beans',
        kind: 'preserve',
        keeping: 'canned',
        family: 'greens-beans',
        unit: 'jar',
        usual_jar: 'pint/regular',
        best_quality_days: 365,
      },
      {
        ...own,
        id: curedPickles,
        name: 'Cured pickles',
        kind: 'preserve',
        keeping: 'canned',
        family: 'pickles',
        unit: 'jar',
        usual_jar: 'quart/wide',
        best_quality_days: 365,
      },
      {
        ...own,
        id: oats,
        name: 'Rolled oats',
        kind: 'staple',
        keeping: 'bought',
        family: 'dry-goods',
        unit: 'lb',
        best_quality_days: 540,
      },
    ])
    .execute();
  await db
    .insertInto('recipe')
    .values([
      {
        ...own,
        id: 'plum-jam-batch',
        item_id: plumJam,
        name: 'Plum jam',
        based_on: 'plum-jam',
        process_food: 'plum-jam',
        process_style: 'added pectin (liquid or powder); sterile jars',
        process_pack: 'hot',
        canner_id: 'kettle',
        jar_kind: 'half-pint/regular',
        yield_low: 8,
        yield_high: 9,
        hands_on_minutes: 70,
      },
      {
        ...own,
        id: 'green-beans-batch',
        item_id: greenBeans,
        name: 'Green beans, raw pack',
        based_on: 'beans-snap',
        process_food: 'beans-snap',
        process_style: 'pieces; green and wax',
        process_pack: 'raw',
        canner_id: 'pressure-pot',
        jar_kind: 'pint/regular',
        yield_low: 9,
        yield_high: 9,
        hands_on_minutes: 60,
      },
    ])
    .execute();
  await db
    .insertInto('recipe_produce')
    .values([
      { ...own, recipe_id: 'plum-jam-batch', crop: 'plum', lb: 5 },
      { ...own, recipe_id: 'green-beans-batch', crop: 'green-bean', lb: 9 },
    ])
    .execute();
  await db
    .insertInto('source')
    .values([
      { ...own, id: 'plum-tree', crop: 'plum', name: 'Plum tree', kind: 'garden' },
      {
        ...own,
        id: 'bean-rows',
        crop: 'green-bean',
        name: 'Bean rows',
        kind: 'garden',
      },
    ])
    .execute();
  await db
    .insertInto('harvest_window')
    .values([
      {
        ...own,
        source_id: 'plum-tree',
        year: 2026,
        begins_on: '2026-08-10',
        ends_on: '2026-09-14',
        lb_per_week: 20,
      },
      {
        ...own,
        source_id: 'bean-rows',
        year: 2026,
        begins_on: '2026-07-06',
        ends_on: '2026-09-28',
        lb_per_week: 10,
      },
    ])
    .execute();
  await db
    .insertInto('jar_holding')
    .values({ ...own, jar_kind: 'half-pint/regular', owned: 60, price_cents: 1399 })
    .execute();
  await db
    .insertInto('lid_box')
    .values({ ...own, id: 'first-box', mouth: 'regular', lids: 40, bought_on: '2026-05-01' })
    .execute();
  let writes = 0;
  return {
    db,
    writer: ({ key, on } = {}) => {
      writes += 1;
      return {
        db,
        householdId: quinceYard,
        key: key ?? `write-number-${writes}`,
        at: writes,
        today: on === undefined ? today : asDate(on),
      };
    },
  };
}

/** Seven jars of last winter, at their best into the next. */
export const jamOfJanuary = {
  id: 'january',
  itemId: plumJam,
  units: 7,
  madeOn: '2026-01-10',
  bestQualityUntil: '2027-01-10',
} as const;

/** Puts a lot on the shelf as it stands in the book, without going through a batch. */
export async function shelve(
  db: Database,
  lot: {
    readonly id: string;
    readonly itemId: ItemId;
    readonly units: number;
    readonly madeOn: string;
    readonly readyFrom?: string;
    readonly bestQualityUntil: string;
    readonly jarKind?: string | null;
    readonly setAside?: string;
  },
): Promise<LotId> {
  await db
    .insertInto('lot')
    .values({
      household_id: quinceYard,
      id: lot.id,
      item_id: lot.itemId,
      batch_code: lot.id,
      jar_kind: lot.jarKind === undefined ? 'half-pint/regular' : lot.jarKind,
      origin: 'put-up',
      made_on: lot.madeOn,
      ready_from: lot.readyFrom ?? lot.madeOn,
      best_quality_until: lot.bestQualityUntil,
      set_aside_at: lot.setAside === undefined ? null : 1,
      set_aside_reason: lot.setAside ?? null,
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('jar_event')
    .values({
      household_id: quinceYard,
      seq: nextSeq('jar_event', quinceYard),
      entry_id: `made ${lot.id}`,
      lot_id: lot.id,
      kind: 'put up',
      units: lot.units,
      occurred_on: lot.madeOn,
      recorded_at: 0,
    })
    .execute();
  return lot.id as LotId;
}

export const day = (text: string): CalendarDate => asDate(text);

/** Columns of a canner whose dial was true at its last check. */
export const trueGauge = { gauge_off_at_5_psi: 0, gauge_off_at_10_psi: 0, gauge_off_at_15_psi: 0 } as const;
