import {
  type CalendarDate,
  mondayOf,
  sundayOf,
  type WeekKey,
  weekOf,
  weeksBetween,
  weeksFrom,
} from '../../shared/week.ts';
import { byExpiry, crumb } from './first-expired.ts';
import type { ShelfAhead } from './shelf-projection.ts';

/** A lot, its dates turned into places in the list of weeks ahead. */
export interface LotInWeeks {
  readonly units: number;
  /** Week in which it comes; -1 when it is on the shelf already. */
  readonly comesIn: number;
  /** First week in which a unit may be taken, 0 or later. */
  readonly readyIn: number;
  /** First week at whose end it is past best quality; beyond the last week when it stays good. */
  readonly pastBestFrom: number;
  /** Week at whose start what is left is thrown away; beyond the last week when it is not. */
  readonly leavesIn: number;
}

export interface ShelfInWeeks {
  readonly weeks: readonly WeekKey[];
  /** First to expire first. */
  readonly lots: readonly LotInWeeks[];
  readonly openingUnits: number;
  readonly comesByWeek: readonly number[];
  /** Units past best quality on `asOf`. */
  readonly pastBestNow: number;
  /** Place of the next supply, 0 to the number of weeks (none within the horizon). */
  readonly nextSupply: number;
}

/**
 * The shelf and what will come to it, by week. Incoming units of weeks beyond the horizon are left out; of a week that has
 * passed they are an error, as are amounts below 0 and a use forecast shorter than the horizon (RangeError).
 */
export function shelfInWeeks(ahead: ShelfAhead): ShelfInWeeks {
  const { asOf, use } = ahead;
  if (!Number.isInteger(ahead.weeks) || ahead.weeks < 1) {
    throw new RangeError(`projectShelf: expected 1 or more whole weeks, got ${ahead.weeks}`);
  }
  if (use.weeklyMean.length < ahead.weeks) {
    throw new RangeError(
      `projectShelf: expected a use forecast of ${ahead.weeks} weeks or more, got ${use.weeklyMean.length}`,
    );
  }
  const first = weekOf(asOf);
  const weeks = weeksFrom(first, ahead.weeks);
  const placeOf = (date: CalendarDate): number => weeksBetween(first, weekOf(date));
  const comesByWeek = weeks.map(() => 0);

  const known = [
    ...ahead.lots.map((lot) => ({ ...lot, comesIn: -1 })),
    ...ahead.incoming.map((batch) => ({
      ...batch,
      lotId: `incoming ${batch.week}`,
      comesIn: weeksBetween(first, batch.week),
    })),
  ];
  for (const { lotId, units, comesIn } of known) {
    if (!Number.isFinite(units) || units < 0) {
      throw new RangeError(`projectShelf: expected 0 or more units in ${lotId}, got ${units}`);
    }
    if (comesIn < -1 || (comesIn === -1 && lotId.startsWith('incoming '))) {
      throw new RangeError(`projectShelf: ${lotId} lies before the week of ${asOf}`);
    }
    if (comesIn >= 0 && comesIn < weeks.length) comesByWeek[comesIn] = (comesByWeek[comesIn] ?? 0) + units;
  }

  const present = known.filter((lot) => lot.units > crumb && lot.comesIn < weeks.length).sort(byExpiry);
  return {
    weeks,
    lots: present.map((lot) => {
      const here = Math.max(lot.comesIn, 0);
      return {
        units: lot.units,
        comesIn: lot.comesIn,
        readyIn: Math.max(here, placeOf(lot.readyFrom)),
        pastBestFrom: Math.max(here, firstWeekEndingAfter(lot.bestQualityUntil, placeOf)),
        leavesIn: lot.discardOn
          ? Math.max(here + 1, firstWeekStartingOn(lot.discardOn, placeOf))
          : Number.POSITIVE_INFINITY,
      };
    }),
    openingUnits: sum(present.filter((lot) => lot.comesIn < 0).map((lot) => lot.units)),
    comesByWeek,
    pastBestNow: sum(
      present.filter((lot) => lot.comesIn < 0 && lot.bestQualityUntil < asOf).map((lot) => lot.units),
    ),
    nextSupply:
      ahead.nextSupplyWeek === null
        ? weeks.length
        : Math.min(weeks.length, Math.max(0, weeksBetween(first, ahead.nextSupplyWeek))),
  };
}

const firstWeekEndingAfter = (date: CalendarDate, placeOf: (date: CalendarDate) => number): number =>
  sundayOf(weekOf(date)) > date ? placeOf(date) : placeOf(date) + 1;

const firstWeekStartingOn = (date: CalendarDate, placeOf: (date: CalendarDate) => number): number =>
  mondayOf(weekOf(date)) === date ? placeOf(date) : placeOf(date) + 1;

export const sum = (amounts: readonly number[]): number =>
  amounts.reduce((total, amount) => total + amount, 0);
