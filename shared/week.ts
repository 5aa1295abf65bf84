import { DateTime } from 'luxon';
import { z } from 'zod';
import { remembering } from './remembering.ts';

/** Years a date may lie in: what lies outside is a slip of the pen, and arithmetic on calendars ends somewhere. */
export const firstYear = 2000;
export const lastYear = 2200;

/** True of text that begins with a year from `firstYear` to `lastYear`. */
const isInReach = (text: string): boolean => {
  const year = Number(text.slice(0, 4));
  return year >= firstYear && year <= lastYear;
};

const outOfReach = `Expected a year from ${firstYear} to ${lastYear}`;

const dayShape = /^\d{4}-\d{2}-\d{2}$/;
const isInCalendar = remembering((text: string) => DateTime.fromISO(text, { zone: 'utc' }).isValid);

const dateText = z
  .string()
  .regex(dayShape, 'Expected a date like 2026-08-17')
  .refine((text) => dayShape.test(text) && isInCalendar(text), 'That date does not exist');
/** True of text that is a day of the calendar, in whatever year. */
export const isDay = (text: string): boolean => dateText.safeParse(text).success;

const weekText = z
  .string()
  .regex(/^\d{4}-W\d{2}$/, 'Expected a week like 2026-W34')
  .refine((text) => DateTime.fromISO(text, { zone: 'utc' }).isValid, 'That week does not exist');

/** A calendar date as people and files give it, ISO text `2026-08-17`, without a time or a zone. */
export const calendarDate = dateText.refine(isInReach, outOfReach).brand<'CalendarDate'>();
export type CalendarDate = z.output<typeof calendarDate>;

/** An ISO week as people and files give it, Monday to Sunday, `2026-W34`. Sorts as text. */
export const weekKey = weekText.refine(isInReach, outOfReach).brand<'WeekKey'>();
export type WeekKey = z.output<typeof weekKey>;

/** Month of the year, 1 (January) to 12. */
export type MonthNumber = number;

const millisecondsOfDay = 86_400_000;
const instantOf = (day: number): DateTime => DateTime.fromMillis(day * millisecondsOfDay, { zone: 'utc' });

// Between days one counts in whole numbers, days since 1970-01-01; what a number is called in the calendar is Luxon's to say.
/** The number of a date, or of the Monday of a week. */
const dayOf = remembering((text: CalendarDate | WeekKey): number =>
  Math.floor(DateTime.fromISO(text, { zone: 'utc' }).toMillis() / millisecondsOfDay),
);
const dateOn = remembering((day: number) => instantOf(day).toISODate() as CalendarDate);
const weekOn = remembering((day: number) => instantOf(day).toFormat("kkkk-'W'WW") as WeekKey);

const at = remembering((text: CalendarDate | WeekKey): DateTime => instantOf(dayOf(text)));
const dateOf = (instant: DateTime): CalendarDate => instant.toISODate() as CalendarDate;

/** The date our own text names, in whatever year arithmetic came to; throws when it is none. */
export const asDate = (text: string): CalendarDate => dateText.parse(text) as CalendarDate;
export const asWeek = (text: string): WeekKey => weekText.parse(text) as WeekKey;

export const weekOf = (date: CalendarDate): WeekKey => weekOn(dayOf(date));
export const mondayOf = (week: WeekKey): CalendarDate => dateOn(dayOf(week));
/** The last day of the week. */
export const sundayOf = (week: WeekKey): CalendarDate => dateOn(dayOf(week) + 6);

export const addDays = (date: CalendarDate, days: number): CalendarDate => dateOn(dayOf(date) + days);
export const addMonths = remembering(
  (date: CalendarDate, months: number): CalendarDate => dateOf(at(date).plus({ months })),
  { keyOf: (date, months) => `${date} ${months}` },
);
export const addWeeks = (week: WeekKey, weeks: number): WeekKey => weekOn(dayOf(week) + 7 * weeks);

export const laterOf = (one: CalendarDate, other: CalendarDate): CalendarDate => (one > other ? one : other);
/** The first of some days; null of none. */
export const firstOf = (days: readonly CalendarDate[]): CalendarDate | null => days.toSorted()[0] ?? null;
/** The last of some days; null of none. */
export const lastOf = (days: readonly CalendarDate[]): CalendarDate | null => days.toSorted().at(-1) ?? null;

export type WeekStart = 'monday' | 'sunday';

/** The seven days a person counts as the week: from Monday, or from the Sunday before it. */
export const daysOfWeek = (week: WeekKey, startsOn: WeekStart): readonly CalendarDate[] => {
  const first = addDays(mondayOf(week), startsOn === 'sunday' ? -1 : 0);
  return Array.from({ length: 7 }, (_, day) => addDays(first, day));
};

/** The week a person counts a date to: where weeks start on Sunday, a Sunday belongs to the days after it. */
export const weekHolding = (date: CalendarDate, startsOn: WeekStart): WeekKey =>
  weekOf(startsOn === 'sunday' ? addDays(date, 1) : date);

/** The day of a week that falls on a weekday, 1 Monday to 7 Sunday, as the household counts its weeks. */
export const dayInWeek = (week: WeekKey, weekday: number, startsOn: WeekStart): CalendarDate =>
  addDays(mondayOf(week), placeInWeek(weekday, startsOn) - (startsOn === 'sunday' ? 1 : 0));

/** The place of a weekday, 1 Monday to 7 Sunday, among the days of a week: 0 for the first. */
export const placeInWeek = (weekday: number, startsOn: WeekStart): number =>
  startsOn === 'sunday' ? weekday % 7 : weekday - 1;

/** Whole days from one date to another; negative when the second is earlier. */
export const daysBetween = (from: CalendarDate, to: CalendarDate): number => dayOf(to) - dayOf(from);
/** Whole weeks from one week to another; negative when the second is earlier. */
export const weeksBetween = (from: WeekKey, to: WeekKey): number => (dayOf(to) - dayOf(from)) / 7;

/** `count` consecutive weeks, oldest first, `first` included. */
export const weeksFrom = (first: WeekKey, count: number): WeekKey[] =>
  Array.from({ length: count }, (_, step) => addWeeks(first, step));

/** Month that holds the Thursday of the week, as ISO 8601 assigns weeks to years. */
export const monthOf = remembering((week: WeekKey): MonthNumber => instantOf(dayOf(week) + 3).month);

/** 1 Monday to 7 Sunday. */
export const weekdayOf = (date: CalendarDate): number => ((((dayOf(date) + 3) % 7) + 7) % 7) + 1;
export const dayOfMonth = (date: CalendarDate): number => at(date).day;
export const daysInMonth = (date: CalendarDate): number => at(date).daysInMonth ?? 31;
export const yearOf = (date: CalendarDate): number => at(date).year;

/** The instant at which clocks of a zone show so many minutes from midnight of a date; below 0 the day before. */
export const instantOnClock = (date: CalendarDate, minutes: number, zone: string): number => {
  const days = Math.floor(minutes / 1440);
  const ofDay = minutes - days * 1440;
  return DateTime.fromISO(date, { zone })
    .plus({ days })
    .set({ hour: Math.floor(ofDay / 60), minute: ofDay % 60 })
    .toMillis();
};

/** The instant at which a day begins in a zone: midnight, or the first time its clocks show where they leap over it. */
export const startOfDayIn = remembering(
  (date: CalendarDate, zone: string): number => DateTime.fromISO(date, { zone }).startOf('day').toMillis(),
  { keyOf: (date, zone) => `${date} ${zone}` },
);

/** The instant at which clocks of a zone show a whole hour on a date. */
export const hourOfDayIn = remembering(
  (date: CalendarDate, hour: number, zone: string): number => instantOnClock(date, hour * 60, zone),
  { keyOf: (date, hour, zone) => `${date} ${hour} ${zone}` },
);

/** The calendar date of an instant in a named time zone. */
export const dateInZone = remembering(
  (instantMs: number, zone: string): CalendarDate => dateOf(DateTime.fromMillis(instantMs, { zone })),
  { keyOf: (instantMs, zone) => `${instantMs} ${zone}` },
);
