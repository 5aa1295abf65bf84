import { addDays, type CalendarDate, mondayOf, type WeekKey } from '../../../shared/week.ts';
import { isAway } from '../../harvest/source-years.ts';

export interface WorkToPlace {
  readonly minutes: number;
  /** Begun days before for the usual day, and so done on no other. */
  readonly onUsualDay?: boolean;
}

export interface DayOfWork<Work> {
  readonly on: CalendarDate;
  readonly work: readonly Work[];
  /** Minutes of its work and one set-up. */
  readonly minutes: number;
}

export interface WeekAtTheStove {
  readonly week: WeekKey;
  /** The household's usual canning day, 1 = Monday to 7 = Sunday. */
  readonly usualWeekday: number;
  /** Sessions held in the week, one a day; at least one when there is work. */
  readonly sessions: number;
  readonly setUpMinutes: number;
  /** Last weekday that a person still counts as this week: 6 where weeks start on Sunday, else 7. */
  readonly lastWeekday: 6 | 7;
  /** Spans in which nobody is at home, the last day not included. */
  readonly away?: readonly { readonly fromOn: CalendarDate; readonly untilOn: CalendarDate }[];
}

/**
 * Which work of a week is done on which day: the usual canning day first, then the day after it, the day before it, and so on within the week, the longest work
 * placed first on the day with the least so far (longest processing time first, a rule of thumb: no day is longer than
 * 4/3 of the shortest possible; Graham 1969, Bounds on multiprocessing timing anomalies).
 *
 * Work that waits for the usual day is placed on it before all other.
 *
 * Days on which nobody is at home are passed over, unless that is all of them.
 *
 * Days come in the order of the calendar; days without work are left out; no work gives no day. Ties keep the order given.
 */
export function canningDays<Work extends WorkToPlace>(
  work: readonly Work[],
  { week, usualWeekday, sessions, setUpMinutes, lastWeekday, away = [] }: WeekAtTheStove,
): readonly DayOfWork<Work>[] {
  if (work.length === 0) return [];
  const around = weekdaysAround(usualWeekday, lastWeekday);
  const home = around.filter((weekday) => !isAway(addDays(mondayOf(week), weekday - 1), away));
  const days = (home.length > 0 ? home : around)
    .slice(0, Math.max(1, sessions))
    .map((weekday) => ({ weekday, placed: [] as Work[], minutes: setUpMinutes }));
  for (const piece of longestFirst(work)) {
    const free = days.reduce((least, other) => (other.minutes < least.minutes ? other : least));
    const [usual = free] = days;
    const day = piece.onUsualDay === true ? usual : free;
    day.placed.push(piece);
    day.minutes += piece.minutes;
  }
  return days
    .filter((day) => day.placed.length > 0)
    .sort((one, other) => one.weekday - other.weekday)
    .map(({ weekday, placed, minutes }) => ({
      on: addDays(mondayOf(week), weekday - 1),
      work: placed,
      minutes,
    }));
}

const longestFirst = <Work extends WorkToPlace>(work: readonly Work[]): readonly Work[] =>
  [...work].sort(
    (one, other) =>
      Number(other.onUsualDay === true) - Number(one.onUsualDay === true) || other.minutes - one.minutes,
  );

/** The usual day, the day after, the day before, and so on. A usual day is kept even when it is the person's next week. */
const weekdaysAround = (usual: number, last: number): number[] =>
  [1, 2, 3, 4, 5, 6, 7]
    .filter((weekday) => weekday <= last || weekday === usual)
    .sort((one, other) => Math.abs(one - usual) - Math.abs(other - usual) || other - one);
