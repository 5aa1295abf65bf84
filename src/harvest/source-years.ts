import {
  addDays,
  addMonths,
  type CalendarDate,
  daysBetween,
  daysOfWeek,
  mondayOf,
  sundayOf,
  type WeekKey,
  type WeekStart,
  yearOf,
} from '../../shared/week.ts';
import { type Season, seasonFirstPicked, shifted } from './season.ts';

/** What a household wrote down about one year of a source. All dates included. */
export interface WrittenYear {
  readonly year: number;
  readonly beginsOn: CalendarDate;
  readonly endsOn: CalendarDate;
  readonly mostActive: { readonly from: CalendarDate; readonly to: CalendarDate } | null;
  /** Pounds of a whole week on its planned dates. */
  readonly lbPerWeek: number;
  /** What any other year takes from this one, where that is not the same: its crop failed. */
  readonly usualLbPerWeek?: number;
  readonly firstPickedOn: CalendarDate | null;
}

export interface SourceYear {
  readonly season: Season;
  readonly lbPerWeek: number;
  /** Year whose dates these are; another than the season's when that year was not written down. */
  readonly writtenFor: number;
  /** Days later than usual, by the first picking or as the year was said to run; negative when earlier. */
  readonly shiftDays: number;
}

/**
 * The seasons of a source that may reach into the weeks, oldest first. A year nobody wrote down repeats the nearest
 * earlier year that was (the nearest later one when there is none earlier), moved by whole calendar years; a first
 * picking moves only its own year, and so does a year that is said to run early or late (`lateDaysByYear`, days, before a
 * first picking is known). A year in which nothing grew is no pattern for another. Nothing written: no seasons.
 *
 * Example: written for 2026 as 08-10 to 09-13, asked for 2026 and 2027: the same dates a year later.
 */
export const sourceYears = (
  written: readonly WrittenYear[],
  weeks: readonly WeekKey[],
  lateDaysByYear: ReadonlyMap<number, number> = new Map(),
): readonly SourceYear[] => {
  const [firstWeek] = weeks;
  const lastWeek = weeks.at(-1);
  if (!firstWeek || !lastWeek || written.length === 0) return [];
  const found: SourceYear[] = [];
  for (let year = yearOf(mondayOf(firstWeek)) - 1; year <= yearOf(sundayOf(lastWeek)); year += 1) {
    const pattern = nearest(written, year);
    if (pattern) found.push(inYear(pattern, year, lateDaysByYear.get(year) ?? 0));
  }
  return found.filter(
    ({ season }) => season.endsOn >= mondayOf(firstWeek) && season.beginsOn <= sundayOf(lastWeek),
  );
};

/** How a household's weeks lie, and when nobody is there to pick or to buy. */
export interface DaysAtHome {
  readonly startsOn: WeekStart;
  /** The last day not included. */
  readonly away: readonly { readonly fromOn: CalendarDate; readonly untilOn: CalendarDate }[];
}

/**
 * Pounds that a source gives in each of the weeks, by the days of the week that lie in a season's planned dates and on which
 * somebody is at home.
 *
 * lb[week] = sum over seasons of lb per week · (planned days at home in the week) / 7.
 */
export const poundsByWeek = (
  years: readonly SourceYear[],
  weeks: readonly WeekKey[],
  { startsOn, away }: DaysAtHome = { startsOn: 'monday', away: [] },
): readonly number[] =>
  weeks.map((week) => {
    const home = daysOfWeek(week, startsOn).filter((day) => !isAway(day, away));
    return years.reduce((pounds, { season, lbPerWeek }) => {
      const days = home.filter((day) => season.plannedFrom <= day && day <= season.plannedTo);
      return pounds + (lbPerWeek * days.length) / 7;
    }, 0);
  });

/** The last day at home up to a day, and not before another; that day itself where there is none. */
export const lastDayAtHome = (
  on: CalendarDate,
  away: DaysAtHome['away'],
  notBefore: CalendarDate,
): CalendarDate => {
  let day = on;
  while (isAway(day, away) && day > notBefore) day = addDays(day, -1);
  return isAway(day, away) ? on : day;
};

/** Whether nobody is at home on a day. */
export const isAway = (day: CalendarDate, away: DaysAtHome['away']): boolean =>
  away.some(({ fromOn, untilOn }) => fromOn <= day && day < untilOn);

const usualLb = ({ usualLbPerWeek, lbPerWeek }: WrittenYear): number => usualLbPerWeek ?? lbPerWeek;

const nearest = (written: readonly WrittenYear[], year: number): WrittenYear | undefined => {
  const own = written.find((candidate) => candidate.year === year);
  if (own) return own;
  const grown = written.filter((one) => usualLb(one) > 0);
  const byYear = (grown.length > 0 ? [...grown] : [...written]).sort((one, other) => one.year - other.year);
  return byYear.findLast((candidate) => candidate.year <= year) ?? byYear[0];
};

const inYear = (pattern: WrittenYear, year: number, lateDays: number): SourceYear => {
  const moved = (date: CalendarDate): CalendarDate => addMonths(date, 12 * (year - pattern.year));
  const planned = pattern.mostActive ?? { from: pattern.beginsOn, to: pattern.endsOn };
  const usual: Season = {
    year,
    beginsOn: moved(pattern.beginsOn),
    endsOn: moved(pattern.endsOn),
    plannedFrom: moved(planned.from),
    plannedTo: moved(planned.to),
    plannedOn: pattern.mostActive === null ? 'whole-season' : 'most-active',
  };
  const picked =
    pattern.year === year && pattern.firstPickedOn !== null
      ? seasonFirstPicked(usual, pattern.firstPickedOn)
      : null;
  const season = picked?.ok ? picked.value : shifted(usual, lateDays);
  return {
    season,
    lbPerWeek: pattern.year === year ? pattern.lbPerWeek : usualLb(pattern),
    writtenFor: pattern.year,
    shiftDays: daysBetween(usual.beginsOn, season.beginsOn),
  };
};
