import { namesIn } from '../../../shared/hands.ts';
import type { CannerId, HouseholdId, PlaceId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type {
  Canner,
  DateSpan,
  DaysOff,
  KitchenHours,
  Place,
  SeasonFundSetting,
} from '../../../src/household/kitchen.ts';
import type { JarStock, LidStock } from '../../../src/household/supplies.ts';
import type { Database } from '../../database/database.ts';
import { fits, fittingRows } from './fitting.ts';
import { usualHours } from './usual-hours.ts';

export async function cannersOf(db: Database, householdId: HouseholdId): Promise<readonly Canner[]> {
  const rows = await db
    .selectFrom('canner')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('retired_on', 'is', null)
    .orderBy('name')
    .orderBy('id')
    .execute();
  // A canner of no known method processes nothing.
  const known = rows.filter(({ method }) => fits('canner', 'method', method));
  return fittingRows('canner', known).map((row) => ({
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

export async function placesOf(db: Database, householdId: HouseholdId): Promise<readonly Place[]> {
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

export async function kitchenHoursOf(db: Database, householdId: HouseholdId): Promise<KitchenHours> {
  const [times, weeks, rules, pauses] = await Promise.all([
    db.selectFrom('kitchen_time').selectAll().where('household_id', '=', householdId).execute(),
    db.selectFrom('week_time').selectAll().where('household_id', '=', householdId).orderBy('week').execute(),
    db.selectFrom('session_rule').selectAll().where('household_id', '=', householdId).orderBy('id').execute(),
    db
      .selectFrom('session_pause')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('from_on')
      .execute(),
  ]);
  const [usual] = fittingRows('kitchen_time', times);
  return {
    ...(usual
      ? {
          sessionsPerWeek: usual.sessions_per_week,
          hoursPerSession: usual.hours_per_session,
          setUpMinutes: usual.set_up_minutes,
          stoveBurners: usual.stove_burners,
          sessionWeekday: usual.session_weekday,
          ...whoIn(usual),
        }
      : usualHours),
    weeks: fittingRows('week_time', weeks).map((row) => ({
      week: row.week as WeekKey,
      sessions: row.sessions,
      hoursPerSession: row.hours_per_session,
      reason: row.reason,
    })),
    away: (await daysOffOf(db, householdId)).away,
    rules: fittingRows('session_rule', rules).map(({ id, weekday, which, hours, who }) => ({
      id,
      weekday,
      which,
      hours,
      ...whoIn({ who }),
    })),
    pauses: fittingRows('session_pause', pauses).map((row) => ({
      id: row.id,
      fromOn: row.from_on as CalendarDate,
      untilOn: row.until_on as CalendarDate,
      eachYear: row.each_year === 1,
    })),
  };
}

const whoIn = ({ who }: { readonly who: string }): { readonly who?: readonly string[] } =>
  who === '' ? {} : { who: namesIn(who) };

export async function daysOffOf(db: Database, householdId: HouseholdId): Promise<DaysOff> {
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

/** Lots whose coming was not taken back. */
export const standingLots = (db: Database, householdId: HouseholdId) =>
  db
    .selectFrom('lot')
    .where('lot.household_id', '=', householdId)
    .where((lot) =>
      lot.not(
        lot.exists(
          lot
            .selectFrom('jar_event as came')
            .innerJoin('jar_event as reversal', (join) =>
              join
                .onRef('reversal.household_id', '=', 'came.household_id')
                .onRef('reversal.reverses_seq', '=', 'came.seq'),
            )
            .select('came.seq')
            .whereRef('came.household_id', '=', 'lot.household_id')
            .whereRef('came.lot_id', '=', 'lot.id')
            .where('came.kind', 'in', ['bought', 'received', 'put up']),
        ),
      ),
    );

/** Null while the household keeps no season fund. */
export async function seasonFundOf(
  db: Database,
  householdId: HouseholdId,
): Promise<SeasonFundSetting | null> {
  const row = await db
    .selectFrom('season_fund')
    .selectAll()
    .where('household_id', '=', householdId)
    .executeTakeFirst();
  if (!row || fittingRows('season_fund', [row]).length === 0) return null;
  const { told_at: toldAt, balance_on: toldOn } = row;
  const lots = await standingLots(db, householdId)
    .select((lot) => lot.fn.coalesce(lot.fn.sum<number>('lot.cost_cents'), lot.lit(0)).as('cents'))
    .where((lot) =>
      lot.or([
        lot('lot.made_on', '>', toldOn),
        lot.and([lot('lot.made_on', '=', toldOn), lot('lot.recorded_at', '>', toldAt)]),
      ]),
    )
    .executeTakeFirstOrThrow();
  // What came onto the shelf carries its price itself.
  const lines = await db
    .selectFrom('bought')
    .select((line) => line.fn.coalesce(line.fn.sum<number>('cost_cents'), line.lit(0)).as('cents'))
    .where('household_id', '=', householdId)
    .where('undone_at', 'is', null)
    .where('kind', '!=', 'item')
    .where((line) =>
      line.or([
        line('bought_on', '>', toldOn),
        line.and([line('bought_on', '=', toldOn), line('recorded_at', '>', toldAt)]),
      ]),
    )
    .executeTakeFirstOrThrow();
  return {
    balance: row.balance_cents as Cents,
    balanceOn: row.balance_on as CalendarDate,
    weekly: row.weekly_cents as Cents,
    spentSince: (lots.cents + lines.cents) as Cents,
  };
}

/** Jars of each kind there is a holding of: full by the ledger of their lots, empty and away by their own. */
export async function jarStockOf(db: Database, householdId: HouseholdId): Promise<readonly JarStock[]> {
  const [holdings, moved, standing] = await Promise.all([
    db
      .selectFrom('jar_holding')
      .selectAll()
      .where('household_id', '=', householdId)
      .orderBy('jar_kind')
      .execute(),
    db
      .selectFrom('empty_jar_event')
      .where('household_id', '=', householdId)
      .groupBy(['jar_kind', 'kind'])
      .select((row) => ['jar_kind', 'kind', row.fn.sum<number>('jars').as('jars')])
      .execute(),
    db
      .selectFrom('lot')
      .innerJoin('jar_event as event', (join) =>
        join.onRef('event.household_id', '=', 'lot.household_id').onRef('event.lot_id', '=', 'lot.id'),
      )
      .where('lot.household_id', '=', householdId)
      .where('lot.jar_kind', 'is not', null)
      .where('lot.origin', '<>', 'bought')
      .groupBy('lot.jar_kind')
      .select((row) => ['lot.jar_kind', row.fn.sum<number>('event.units').as('jars')])
      .execute(),
  ]);
  return fittingRows('jar_holding', holdings).map((row) => {
    const own = moved.filter((one) => one.jar_kind === row.jar_kind);
    const sumOf = (counts: (kind: string) => number) =>
      own.reduce((sum, { kind, jars }) => sum + counts(kind) * jars, 0);
    const full = Math.max(0, standing.find((one) => one.jar_kind === row.jar_kind)?.jars ?? 0);
    const empty = Math.max(
      0,
      sumOf((kind) => (kind === 'lent' ? 0 : 1)),
    );
    const away = Math.max(
      0,
      sumOf((kind) => (kind === 'lent' ? 1 : kind === 'returned' ? -1 : 0)),
    );
    return {
      kind: row.jar_kind as JarKind,
      owned: full + empty + away,
      full,
      empty,
      away,
      price: row.price_cents as Cents,
      pack: row.pack,
      returnShare: row.return_share,
    };
  });
}

/** Lids on hand by mouth, with what a new box costs; a mouth nobody named a price for is left out unless lids are there. */
export async function lidStockOf(db: Database, householdId: HouseholdId): Promise<readonly LidStock[]> {
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
