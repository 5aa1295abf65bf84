import ical, { ICalEventTransparency } from 'ical-generator';
import { DateTime } from 'luxon';
import type { EntryVersion } from '../records/notices/calendar-feed.ts';
import type { CalendarEntry } from './calendar-entries.ts';

export interface VersionedEntry extends CalendarEntry, EntryVersion {}

const categoryOf: Readonly<Record<CalendarEntry['kind'], string>> = {
  canning: 'Canning',
  'before and after': 'Canning',
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
    name: asOneLine(`${household.name}: pantry`),
    prodId: { company: 'Shelfward', product: 'Pantry year', language: 'EN' },
    ttl: refreshInSeconds,
    x: { 'X-WR-TIMEZONE': asOneLine(household.timeZone) },
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

/**
 * Text of a property as RFC 5545, section 3.3.11 writes it. The package escapes what an entry says, but neither the
 * calendar's own name nor properties that are named for it.
 */
const asOneLine = (text: string): string =>
  text
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replace(/\r\n|[\n\r\u0085\u2028\u2029]/g, '\\n')
    // Control characters are in no TEXT of the standard.
    .replace(/\p{Cc}/gu, ' ');

/** What makes an entry another version of itself. */
export const contentOf = ({ title, from, until, words, path }: CalendarEntry): string =>
  JSON.stringify([title, from, until, words, path]);
