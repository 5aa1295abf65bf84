import {
  type CalendarDate,
  daysBetween,
  mondayOf,
  sundayOf,
  type WeekKey,
  yearOf,
} from '../../shared/week.ts';
import { type HarvestWindow, type Season, seasonFirstPicked, seasonIn } from './season.ts';

/** How much a source gives: in all over its planned dates, or up to so much in each whole week. */
export type SourceAmount = { readonly per: 'season' | 'week'; readonly quantity: number };

export interface CropSupply {
  readonly window: HarvestWindow;
  readonly amount: SourceAmount;
  /** First picking of single years, which shifts that year's season only. */
  readonly firstPicked?: readonly { readonly year: number; readonly on: CalendarDate }[];
}

export interface WeeklySupply {
  readonly week: WeekKey;
  /** In the unit of the source's amount. */
  readonly quantity: number;
  /** Days of the week on which the source is planned to give, 0 to 7. */
  readonly openDays: number;
}

/**
 * What a source gives in each of the weeks, in their order. A season's amount is spread evenly over its planned dates,
 * the most active ones where known; a weekly amount counts by the days of the week that lie in them. Days before the
 * first week are gone and are not made up.
 *
 * quantity[week] = amount · (planned days in the week) / (planned days of the season), or / 7 for a weekly amount.
 *
 * Example: 70 lb over 14 planned days that begin on a Monday give 35 lb in each of two weeks.
 */
export const supplyByWeek = (source: CropSupply, weeks: readonly WeekKey[]): readonly WeeklySupply[] => {
  const seasons = seasonsTouching(source, weeks);
  return weeks.map((week) => {
    let quantity = 0;
    let openDays = 0;
    const monday = mondayOf(week);
    const sunday = sundayOf(week);
    for (const season of seasons) {
      const days = sharedDays(season, monday, sunday);
      const wholeDays = source.amount.per === 'week' ? 7 : plannedDays(season);
      openDays += days;
      quantity += (source.amount.quantity * days) / wholeDays;
    }
    return { week, quantity, openDays };
  });
};

/** The seasons, shifted where a first picking is known, that may reach into the weeks. */
export const seasonsTouching = (source: CropSupply, weeks: readonly WeekKey[]): readonly Season[] => {
  const [first] = weeks;
  const last = weeks.at(-1);
  if (!first || !last) return [];
  const seasons: Season[] = [];
  for (let year = yearOf(mondayOf(first)) - 1; year <= yearOf(sundayOf(last)); year += 1) {
    const usual = seasonIn(source.window, year);
    const picked = source.firstPicked?.find((picking) => picking.year === year);
    const thisYear = picked && seasonFirstPicked(usual, picked.on);
    seasons.push(thisYear?.ok ? thisYear.value : usual);
  }
  return seasons;
};

const plannedDays = (season: Season): number => daysBetween(season.plannedFrom, season.plannedTo) + 1;

const sharedDays = (season: Season, monday: CalendarDate, sunday: CalendarDate): number => {
  if (season.plannedTo < monday || season.plannedFrom > sunday) return 0;
  return daysBetween(laterOf(season.plannedFrom, monday), earlierOf(season.plannedTo, sunday)) + 1;
};

// ISO dates sort as text.
const laterOf = (left: CalendarDate, right: CalendarDate): CalendarDate => {
  if (left > right) return left;
  return right;
};

const earlierOf = (left: CalendarDate, right: CalendarDate): CalendarDate => {
  if (left < right) return left;
  return right;
};
