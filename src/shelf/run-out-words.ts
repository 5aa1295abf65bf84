import { counted } from '../../shared/counting.ts';
import { monthNames } from '../../shared/month-names.ts';
import {
  addDays,
  type CalendarDate,
  daysBetween,
  mondayOf,
  type WeekKey,
  weekOf,
} from '../../shared/week.ts';
import type { RunOutWeek } from './shelf-projection.ts';

/** From this many days ahead a month needs its year to be understood. */
const yearIsSaidFromDays = 300;

/**
 * How long an item lasts, in a household's words: "Lasts to early March; 1 year in 10 only to late February."
 *
 * The likely week is the one by whose end half of the years have none left (`gapsAt`); the risk is named with its chance where it
 * is earlier in words: the week by whose end one year in ten has none. A week beyond the horizon is said as "the whole year
 * ahead".
 */
export function runOutWords(asOf: CalendarDate, runOut: RunOutWeek, onShelf: number): string {
  if (onShelf <= 0) return 'None on the shelf.';
  const early = runOut.p10 === null ? null : weekWords(asOf, runOut.p10);
  if (runOut.p50 === null) {
    return early === null
      ? 'Lasts the whole year ahead.'
      : `Likely lasts the year ahead; 1 year in 10 only ${early.until}.`;
  }
  const likely = weekWords(asOf, runOut.p50);
  return early === null || early.to === likely.to
    ? `Lasts ${likely.until}.`
    : `Lasts ${likely.until}; 1 year in 10 only ${early.until}.`;
}

interface WeekWords {
  /** After "from" or "to": "early March", "this week". */
  readonly to: string;
  /** After "lasts": "to early March", "through this week". */
  readonly until: string;
}

/** A week as people say it: this week, next week, early / mid / late month by the tenth and twentieth of its Thursday. */
export function weekWords(asOf: CalendarDate, week: WeekKey): WeekWords {
  const thisWeek = weekOf(asOf);
  if (week <= thisWeek) return { to: 'this week', until: 'through this week' };
  if (mondayOf(week) === addDays(mondayOf(thisWeek), 7))
    return { to: 'next week', until: 'through next week' };
  const thursday = addDays(mondayOf(week), 3);
  const [year, month, day] = thursday.split('-').map(Number) as [number, number, number];
  const part = day <= 10 ? 'early' : day <= 20 ? 'mid' : 'late';
  const said = `${part} ${monthNames[month - 1]}`;
  const words = daysBetween(asOf, thursday) >= yearIsSaidFromDays ? `${said} ${year}` : said;
  return { to: words, until: `to ${words}` };
}

/**
 * A chance of lasting in years a person can picture: "9 years in 10". Between the tenths it is rounded down, so that
 * nothing is promised that the figures do not hold.
 */
export function chanceWords(chance: number): string {
  if (!(chance >= 0 && chance <= 1)) {
    throw new RangeError(`chanceWords: expected a chance between 0 and 1, got ${chance}`);
  }
  // A hair below a tenth is that tenth: 0.8999999 is 9 in 10.
  const held = chance + 1e-6;
  if (held >= 0.99) return 'practically every year';
  if (held >= 0.95) return '19 years in 20';
  const years = Math.floor(held * 10);
  return years === 0 ? 'less than 1 year in 10' : `${counted(years, 'year')} in 10`;
}
