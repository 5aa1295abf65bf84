import ical, { ICalEventTransparency } from 'ical-generator';
import { DateTime } from 'luxon';
import type { EntryVersion } from '../records/calendar-feed.ts';
import type { CalendarEntry } from './calendar-entries.ts';

export interface VersionedEntry extends CalendarEntry, EntryVersion {}

const categoryOf: Readonly<Record<CalendarEntry['kind'], string>> = {
  canning: 'Canning',
  shopping: 'Shopping',
  best_quality: 'Eat first',
  harvest: 'Harvest',
};

/** How often a program that reads the calendar is asked to look again. */
const refreshInSeconds = 6 * 3600;

/**
 * The calendar as text, RFC 5545 with the name and refresh interval of RFC 7986. Entries are whole days without a time or
 * zone, so a clock change or a journey moves none of them. The same entries give the same text.
 */
export function calendarText(
  household: { readonly name: string; readonly timeZone: string },
  entries: readonly VersionedEntry[],
  address: string,
): string {
  const calendar = ical({
    name: `${household.name}: pantry`,
    prodId: { company: 'Shelfward', product: 'Pantry year', language: 'EN' },
    ttl: refreshInSeconds,
    x: { 'X-WR-TIMEZONE': household.timeZone },
  });
  for (const entry of entries) {
    calendar.createEvent({
      id: entry.uid,
      sequence: entry.sequence,
      stamp: DateTime.fromMillis(entry.changedAt, { zone: 'utc' }),
      created: DateTime.fromMillis(entry.createdAt, { zone: 'utc' }),
      lastModified: DateTime.fromMillis(entry.changedAt, { zone: 'utc' }),
      start: DateTime.fromISO(entry.from, { zone: 'utc' }),
      end: DateTime.fromISO(entry.until, { zone: 'utc' }),
      allDay: true,
      summary: entry.title,
      description: entry.words,
      url: `${address}${entry.path}`,
      categories: [{ name: categoryOf[entry.kind] }],
      transparency: ICalEventTransparency.TRANSPARENT,
    });
  }
  return `${calendar.toString()}\r\n`;
}

/** What makes an entry another version of itself. */
export const contentOf = ({ title, from, until, words, path }: CalendarEntry): string =>
  JSON.stringify([title, from, until, words, path]);
