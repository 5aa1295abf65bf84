import { shortMonthNames } from './month-names.ts';
import type { CalendarDate } from './week.ts';

/**
 * "Aug 12, 2026": a day in a sentence that does not know its reader, a message or a notice; with its year, so that one read late is
 * not misread. A page knows how its household reads and uses `formatDate`.
 */
export function dateWords(date: CalendarDate): string {
  const [year, month, day] = date.split('-').map(Number) as [number, number, number];
  return `${shortMonthNames[month - 1]} ${day}, ${year}`;
}
