import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { dayNumber, daysInYear, notBeforeMidMonth } from './day-of-season.ts';

/** The dates of a published row as numbers of days. */
export interface PublishedDays {
  readonly beginsOn: number;
  readonly mostActive: { readonly from: number; readonly to: number } | null;
  /** Beyond 365 where the season goes on into the next year. */
  readonly endsOn: number;
}

/** The first day of a row's season, 1 to 365: in the middle of its month where the source says no more than the month. */
export const publishedBegin = (row: HarvestWindowRow): number => publishedDays(row).beginsOn;

/** The dates of a row as days, the first ones in the middle of their month where the source says no more than the month. */
export function publishedDays(row: HarvestWindowRow): PublishedDays {
  const first = (monthDay: string): number =>
    dayNumber(isSaidFiner(row, monthDay) ? monthDay : notBeforeMidMonth(monthDay));
  const beginsOn = first(row.beginsOn);
  const after = (day: number): number => (day < beginsOn ? day + daysInYear : day);
  const { mostActiveFrom, mostActiveTo } = row;
  const to = mostActiveTo === null ? 0 : after(dayNumber(mostActiveTo));
  const from = mostActiveFrom === null ? 0 : after(first(mostActiveFrom));
  return {
    beginsOn,
    mostActive: mostActiveFrom === null || from > to ? null : { from, to },
    endsOn: after(dayNumber(row.endsOn)),
  };
}

/** A table in thirds of a month gives the first day also to what it knows by the month alone: then the month is all it says. */
export const isSaidFiner = ({ precision }: HarvestWindowRow, monthDay: string): boolean =>
  precision === 'day' ||
  precision === 'week' ||
  (precision === 'third-of-month' && monthDay.slice(3) >= '15');

/** Further than this a table says nothing about a place. Our own judgement. */
const longestShift = 42;

// Where spring comes later autumn does not: what ends after this day ends there. Our own judgement.
const autumn = dayNumber('09-01');
/** The last day of what is moved by days; autumn stays. */
export const lastDayMoved = (day: number, days: number): number => (day >= autumn ? day : day + days);

/** Whole days of a move, never more than a table can say. */
export const bounded = (days: number): number =>
  Math.round(Math.min(longestShift, Math.max(-longestShift, days)));

/** Less than this is no season to plan on. Our own judgement. */
export const leastActiveDays = 14;
