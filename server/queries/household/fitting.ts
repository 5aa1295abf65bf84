import { DateTime } from 'luxon';
import { firstCurrency } from '../../../shared/currency.ts';
import { isOneLine } from '../../../shared/schemas/one-line.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { CarriedTable } from '../../columns/carried-table.ts';
import type { Cell, ColumnKind } from '../../columns/column-kinds.ts';
import { type CarriedName, carried } from '../../columns/household-columns.ts';
import { householdRow } from '../../columns/kitchen.ts';
import { usualHours } from './usual-hours.ts';

// A file of an earlier version, or one that was changed by hand, may hold a value that no form takes. It must break no page:
// at the edge of the queries something stands in for it, or its row is left out, and Settings says so (`unfitValues`).

export type FittedName = CarriedName | 'household';

export const tableOf = (name: FittedName): CarriedTable =>
  name === 'household' ? householdRow : carried[name];

/** What a column took lately; most values come again and again. */
const taken = new WeakMap<ColumnKind, Set<unknown>>();
const mostRemembered = 500;
const longestRemembered = 100;

function takes(kind: ColumnKind, value: unknown): boolean {
  const known = taken.get(kind) ?? new Set();
  if (known.has(value)) return true;
  if (!kind.schema.safeParse(value).success) return false;
  if (typeof value === 'string' && value.length > longestRemembered) return true;
  if (known.size >= mostRemembered) known.clear();
  taken.set(kind, known.add(value));
  return true;
}

/** True of a value that the form for this column takes; of what the declaration does not name as well. */
export function fits(name: FittedName, column: string, value: unknown): boolean {
  const kind = tableOf(name).columns[column];
  return kind === undefined || takes(kind, value);
}

/** The value, or what stands in for it. */
export const fitting = <Value, Other>(
  name: FittedName,
  column: string,
  value: Value,
  standIn: Other,
): Value | Other => (fits(name, column, value) ? value : standIn);

/** A day on which something happened; the day on which it was written down stands in for one that is no day. */
export const fittingDay = (name: FittedName, column: string, day: string, writtenAt: number): CalendarDate =>
  fits(name, column, day)
    ? (day as CalendarDate)
    : ((DateTime.fromMillis(writtenAt, { zone: 'utc' }).toISODate() ?? firstDay) as CalendarDate);
const firstDay = '2000-01-01';

/** What stands in for unfit values of rows that cannot be left out, because others hang on them. */
const standIns: Partial<Record<FittedName, Readonly<Record<string, Cell>>>> = {
  household: {
    people: 1,
    units: 'us',
    time_zone: 'UTC',
    locale: 'en-US',
    currency: firstCurrency,
    region: null,
    crock_quarts: 0,
    freezer_quarts_per_day: null,
    discard_ceiling_months: 18,
  },
  item: {
    usual_jar: 'pint/regular',
    servings_per_unit: null,
    shelf_life_key: null,
    family_minimum_units: null,
    keep_cold_days: null,
    retired_on: null,
    emergency_units: null,
    counts_as: null,
  },
  canner: { gauge_checked_on: null },
  kitchen_time: {
    sessions_per_week: usualHours.sessionsPerWeek,
    hours_per_session: usualHours.hoursPerSession,
    set_up_minutes: usualHours.setUpMinutes,
    stove_burners: usualHours.stoveBurners,
    session_weekday: usualHours.sessionWeekday,
    who: '',
  },
  place: { capacity_quarts: null },
  source: {
    price_cents_per_lb: 0,
    price_measure: null,
    price_measure_cents: null,
    plants: null,
    lb_per_plant: null,
  },
  item_group: { unit_jar: null },
  supply: { pack_quantity: 1, pack_price_cents: 0, on_hand: 0 },
};

const longestName = 120;

/** A name cut to what can be shown, without signs that turn lines around. */
const asName = (text: string): string => {
  const short = text.slice(0, longestName);
  const plain = isOneLine(short) ? short : short.replaceAll(/[\p{C}\u2028\u2029]/gu, ' ').trim();
  return plain === '' ? '?' : plain;
};

/** The rows as the forms would have them: unfit values replaced, rows that say nothing without them left out. */
export function fittingRows<Row extends object>(name: FittedName, rows: readonly Row[]): Row[] {
  const { columns } = tableOf(name);
  const others = standIns[name];
  return rows.flatMap((row): Row[] => {
    let mended: Record<string, unknown> | null = null;
    for (const [column, value] of Object.entries(row)) {
      const kind = columns[column];
      if (kind === undefined || takes(kind, value)) continue;
      if (column === 'name' && typeof value === 'string')
        mended = { ...(mended ?? row), name: asName(value) };
      else if (others === undefined) return [];
      else if (Object.hasOwn(others, column)) mended = { ...(mended ?? row), [column]: others[column] };
    }
    // The same columns with values of the same types.
    return [mended === null ? row : (mended as Row)];
  });
}
