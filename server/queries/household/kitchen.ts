import type { CannerId, HouseholdId, PlaceId } from '../../../shared/ids.ts';
import type { JarKind, Mouth } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type { Database } from '../../database/database.ts';
import { fittingRows } from './fitting.ts';

export interface Canner {
  readonly id: CannerId;
  readonly name: string;
  readonly method: 'boiling-water' | 'steam' | 'pressure';
  readonly gauge: 'dial' | 'weighted' | null;
  readonly gaugeCheckedOn: CalendarDate | null;
  /** Psi the dial read too high at that check, below 0 too low; null until all three were said. */
  readonly gaugeOff: { readonly at5: number; readonly at10: number; readonly at15: number } | null;
  /** Quarts of water it holds; null where not said. */
  readonly volumeQuarts: number | null;
  /** Jars of each size that fit in one load. */
  readonly holds: { readonly quarts: number; readonly pints: number; readonly halfPints: number };
}

export async function canners(db: Database, householdId: HouseholdId): Promise<readonly Canner[]> {
  const rows = await db
    .selectFrom('canner')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('retired_on', 'is', null)
    .orderBy('name')
    .orderBy('id')
    .execute();
  return fittingRows('canner', rows).map((row) => ({
    id: row.id as CannerId,
    name: row.name,
    method: row.method,
    gauge: row.gauge,
    gaugeCheckedOn: row.gauge_checked_on as CalendarDate | null,
    gaugeOff:
      row.gauge_off_at_5_psi === null || row.gauge_off_at_10_psi === null || row.gauge_off_at_15_psi === null
        ? null
        : { at5: row.gauge_off_at_5_psi, at10: row.gauge_off_at_10_psi, at15: row.gauge_off_at_15_psi },
    volumeQuarts: row.volume_quarts,
    holds: { quarts: row.quart_jars, pints: row.pint_jars, halfPints: row.half_pint_jars },
  }));
}

export interface Place {
  readonly id: PlaceId;
  readonly name: string;
  readonly kind: 'shelf' | 'cellar' | 'freezer' | 'refrigerator';
  readonly capacityQuarts: number | null;
}

export async function places(db: Database, householdId: HouseholdId): Promise<readonly Place[]> {
  const rows = await db
    .selectFrom('place')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('name')
    .orderBy('id')
    .execute();
  return fittingRows('place', rows).map((row) => ({
    id: row.id as PlaceId,
    name: row.name,
    kind: row.kind,
    capacityQuarts: row.capacity_quarts,
  }));
}

export interface WeekTime {
  readonly week: WeekKey;
  readonly sessions: number;
  /** Null: as long as usual. */
  readonly hoursPerSession: number | null;
  readonly reason: string | null;
}

export interface KitchenHours {
  readonly sessionsPerWeek: number;
  readonly hoursPerSession: number;
  readonly setUpMinutes: number;
  /** Burners of the stove; canners and pots of one day share them. */
  readonly stoveBurners: number;
  /** 1 = Monday to 7 = Sunday. */
  readonly sessionWeekday: number;
  /** Weeks that differ from the usual, oldest first. */
  readonly weeks: readonly WeekTime[];
}

const usualHours = {
  sessionsPerWeek: 1,
  hoursPerSession: 5,
  setUpMinutes: 45,
  stoveBurners: 4,
  sessionWeekday: 6,
};

export async function kitchenHours(db: Database, householdId: HouseholdId): Promise<KitchenHours> {
  const [usual, weeks] = await Promise.all([
    db.selectFrom('kitchen_time').selectAll().where('household_id', '=', householdId).executeTakeFirst(),
    db.selectFrom('week_time').selectAll().where('household_id', '=', householdId).orderBy('week').execute(),
  ]);
  return {
    ...(usual
      ? {
          sessionsPerWeek: usual.sessions_per_week,
          hoursPerSession: usual.hours_per_session,
          setUpMinutes: usual.set_up_minutes,
          stoveBurners: usual.stove_burners,
          sessionWeekday: usual.session_weekday,
        }
      : usualHours),
    weeks: fittingRows('week_time', weeks).map((row) => ({
      week: row.week as WeekKey,
      sessions: row.sessions,
      hoursPerSession: row.hours_per_session,
      reason: row.reason,
    })),
  };
}

/** Dates with their end not included. */
export interface DateSpan {
  readonly fromOn: CalendarDate;
  readonly untilOn: CalendarDate;
}

export interface DaysOff {
  readonly away: readonly DateSpan[];
  readonly schoolHolidays: readonly DateSpan[];
}

export async function daysOff(db: Database, householdId: HouseholdId): Promise<DaysOff> {
  const spans = async (table: 'away' | 'school_holiday'): Promise<readonly DateSpan[]> => {
    const rows = await db
      .selectFrom(table)
      .select(['from_on', 'until_on'])
      .where('household_id', '=', householdId)
      .orderBy('from_on')
      .execute();
    return fittingRows(table, rows).map((row) => ({
      fromOn: row.from_on as CalendarDate,
      untilOn: row.until_on as CalendarDate,
    }));
  };
  const [away, schoolHolidays] = await Promise.all([spans('away'), spans('school_holiday')]);
  return { away, schoolHolidays };
}

export interface SeasonFundSetting {
  readonly balance: Cents;
  readonly balanceOn: CalendarDate;
  readonly weekly: Cents;
  /** Spent on what was bought after the balance was told. */
  readonly spentSince: Cents;
}

/** Null while the household keeps no season fund. */
export async function seasonFund(db: Database, householdId: HouseholdId): Promise<SeasonFundSetting | null> {
  const row = await db
    .selectFrom('season_fund')
    .selectAll()
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  if (!row || fittingRows('season_fund', [row]).length === 0) return null;
  const spent = await db
    .selectFrom('lot')
    .select((lot) => lot.fn.coalesce(lot.fn.sum<number>('cost_cents'), lot.lit(0)).as('cents'))
    .where('household_id', '=', householdId)
    .where('made_on', '>', row.balance_on)
    .executeTakeFirstOrThrow();
  return {
    balance: row.balance_cents as Cents,
    balanceOn: row.balance_on as CalendarDate,
    weekly: row.weekly_cents as Cents,
    spentSince: spent.cents as Cents,
  };
}

export interface JarStock {
  readonly kind: JarKind;
  readonly owned: number;
  /** Empty jars on hand: what was emptied, bought and counted less what was filled; never below 0. */
  readonly empty: number;
  readonly price: Cents;
  readonly pack: number;
  readonly returnShare: number;
}

export async function jarStock(db: Database, householdId: HouseholdId): Promise<readonly JarStock[]> {
  const rows = await db
    .selectFrom('jar_holding as holding')
    .leftJoin('empty_jar_event as event', (join) =>
      join
        .onRef('event.household_id', '=', 'holding.household_id')
        .onRef('event.jar_kind', '=', 'holding.jar_kind'),
    )
    .where('holding.household_id', '=', householdId)
    .groupBy(['holding.household_id', 'holding.jar_kind'])
    .orderBy('holding.jar_kind')
    .select((row) => [
      'holding.jar_kind',
      'holding.owned',
      'holding.price_cents',
      'holding.pack',
      'holding.return_share',
      row.fn.coalesce(row.fn.sum<number>('event.jars'), row.lit(0)).as('empty'),
    ])
    .execute();
  return fittingRows('jar_holding', rows).map((row) => ({
    kind: row.jar_kind as JarKind,
    owned: row.owned,
    empty: Math.max(0, row.empty),
    price: row.price_cents as Cents,
    pack: row.pack,
    returnShare: row.return_share,
  }));
}

export interface LidStock {
  readonly mouth: Mouth;
  readonly onHand: number;
  readonly box: number;
  readonly boxPrice: Cents;
}

/** Lids on hand by mouth, with what a new box costs; a mouth nobody named a price for is left out unless lids are there. */
export async function lidStock(db: Database, householdId: HouseholdId): Promise<readonly LidStock[]> {
  const [prices, boxes] = await Promise.all([
    db.selectFrom('lid_price').selectAll().where('household_id', '=', householdId).execute(),
    db
      .selectFrom('lid_box')
      .select((row) => ['mouth', row.fn.sum<number>('lids').as('lids')])
      .where('household_id', '=', householdId)
      .groupBy('mouth')
      .execute(),
  ]);
  const mouths = [...new Set([...prices, ...boxes].map((row) => row.mouth))].sort();
  return mouths.map((mouth) => {
    const price = fittingRows('lid_price', prices).find((row) => row.mouth === mouth);
    return {
      mouth,
      onHand: boxes.find((row) => row.mouth === mouth)?.lids ?? 0,
      box: price?.box ?? 12,
      boxPrice: (price?.box_price_cents ?? 0) as Cents,
    };
  });
}
