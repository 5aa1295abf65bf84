import type { CalendarDate } from '../../../shared/week.ts';
import { weekdayOf } from '../../../shared/week.ts';
import { handsOf } from '../../household/hands.ts';
import { workHeld } from '../days/hands-in-week.ts';
import type { SessionDate } from '../days/session-dates.ts';
import { entry } from '../lookup.ts';

export interface WorkToPlace {
  readonly minutes: number;
  /** Begun days before for the usual day, or one of several that share a by-product, and so done on no other. */
  readonly onUsualDay?: boolean;
}

export interface DayOfWork<Work> {
  readonly on: CalendarDate;
  readonly work: readonly Work[];
  /** Minutes of its work and one set-up. */
  readonly minutes: number;
}

export interface WeekAtTheStove {
  /** Days on which something can be canned, the one used first in front; never empty. */
  readonly days: readonly SessionDate[];
  /** The household's usual canning day, 1 = Monday to 7 = Sunday. */
  readonly usualWeekday: number;
  /** Sessions held in the week, one a day; at least one when there is work. */
  readonly sessions: number;
  readonly setUpMinutes: number;
}

/**
 * Which work of a week is done on which of its days: as many of them as sessions are held, the longest work placed first on the day
 * that has the most time left (longest processing time first, a rule of thumb: with days of one length none is longer than 4/3 of
 * the shortest possible; Graham 1969, Bounds on multiprocessing timing anomalies).
 *
 * Work that waits for the usual day is placed on it before all other, or on the first day where the usual one is none of them.
 *
 * Days come in the order of the calendar; days without work are left out; no work gives no day. Ties keep the order given.
 */
export function canningDays<Work extends WorkToPlace>(
  work: readonly Work[],
  { days: possible, usualWeekday, sessions, setUpMinutes }: WeekAtTheStove,
): readonly DayOfWork<Work>[] {
  const days = usedDays(work, possible, usualWeekday, Math.max(1, sessions)).map(({ on, hours, who }) => ({
    on,
    placed: [] as Work[],
    minutes: setUpMinutes,
    capacity: workHeld(hours * 60, setUpMinutes, handsOf(who === undefined ? 1 : who.length)),
  }));
  const timeLeft = (day: { readonly capacity: number; readonly minutes: number }) =>
    day.capacity - day.minutes;
  for (const piece of longestFirst(work)) {
    const day =
      piece.onUsualDay === true
        ? entry(days, 0, 'days')
        : days.reduce((most, other) => (timeLeft(other) > timeLeft(most) ? other : most));
    day.placed.push(piece);
    day.minutes += piece.minutes;
  }
  return days
    .filter((day) => day.placed.length > 0)
    .sort((one, other) => (one.on < other.on ? -1 : 1))
    .map(({ on, placed, minutes }) => ({ on, work: placed, minutes }));
}

/** The first of the days, the usual one in front of them all where work waits for it. */
const usedDays = (
  work: readonly WorkToPlace[],
  possible: readonly SessionDate[],
  usualWeekday: number,
  sessions: number,
): readonly SessionDate[] => {
  const waits = work.some(({ onUsualDay }) => onUsualDay === true);
  const usual = possible.filter(({ on }) => waits && weekdayOf(on) === usualWeekday);
  return [...usual, ...possible.filter((day) => !usual.includes(day))].slice(0, sessions);
};

const longestFirst = <Work extends WorkToPlace>(work: readonly Work[]): readonly Work[] =>
  [...work].sort(
    (one, other) =>
      Number(other.onUsualDay === true) - Number(one.onUsualDay === true) || other.minutes - one.minutes,
  );
