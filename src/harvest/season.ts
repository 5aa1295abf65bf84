import { counted } from '../../shared/counting.ts';
import { dateWords } from '../../shared/date-words.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import { addDays, asDate, type CalendarDate, daysBetween } from '../../shared/week.ts';

/**
 * When a crop can be had, as month and day (`08-17`) of any year; both ends included. An end before the begin wraps the
 * year end. The most active dates are those on which most of the crop is picked; `null` where none are known.
 */
export interface HarvestWindow {
  readonly beginsOn: string;
  readonly mostActiveFrom: string | null;
  readonly mostActiveTo: string | null;
  readonly endsOn: string;
}

/** A harvest window laid on one year. All dates included. */
export interface Season {
  readonly year: number;
  readonly beginsOn: CalendarDate;
  readonly endsOn: CalendarDate;
  /** The dates to plan on: the most active ones where known, otherwise the whole season. */
  readonly plannedFrom: CalendarDate;
  readonly plannedTo: CalendarDate;
  readonly plannedOn: 'most-active' | 'whole-season';
}

/** A year whose first picking was further off than this is more likely a slip of the pen. */
export const longestShiftDays = 60;

/**
 * Lays a window on the year in which it begins. Dates that come before the begin in the calendar fall in the next year.
 *
 * Example: a window from 11-01 to 02-28 in 2026 ends on 2027-02-28.
 */
export const seasonIn = (window: HarvestWindow, year: number): Season => {
  const dateOf = (monthDay: string): CalendarDate =>
    asDate(`${monthDay < window.beginsOn ? year + 1 : year}-${monthDay}`);
  const beginsOn = dateOf(window.beginsOn);
  const endsOn = dateOf(window.endsOn);
  const { mostActiveFrom, mostActiveTo } = window;
  const active = mostActiveFrom !== null && mostActiveTo !== null;
  return {
    year,
    beginsOn,
    endsOn,
    plannedFrom: active ? dateOf(mostActiveFrom) : beginsOn,
    plannedTo: active ? dateOf(mostActiveTo) : endsOn,
    plannedOn: active ? 'most-active' : 'whole-season',
  };
};

/** The season moved by whole days, later when positive. Its length stays. */
export const shifted = (season: Season, days: number): Season => ({
  ...season,
  beginsOn: addDays(season.beginsOn, days),
  endsOn: addDays(season.endsOn, days),
  plannedFrom: addDays(season.plannedFrom, days),
  plannedTo: addDays(season.plannedTo, days),
});

/**
 * The season of this year once the first picking is known: every date moves by the days between the usual begin and the
 * first picking. Refuses a first picking more than 60 days off.
 */
export const seasonFirstPicked = (usual: Season, firstPickedOn: CalendarDate): Outcome<Season> => {
  const days = daysBetween(usual.beginsOn, firstPickedOn);
  if (Math.abs(days) <= longestShiftDays) return found(shifted(usual, days));
  return refused({
    code: 'first-picked-too-far',
    path: ['firstPickedOn'],
    message: `${dateWords(firstPickedOn)} is ${counted(Math.abs(days), 'day')} from the usual begin, ${dateWords(usual.beginsOn)}, and at most ${longestShiftDays} are believed. Check the date, or change the usual dates of this crop.`,
  });
};
