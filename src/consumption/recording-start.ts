import { addDays, type CalendarDate, firstOf, lastOf } from '../../shared/week.ts';
import { type DaySpan, dayNumber } from './household-calendar.ts';

/** Days within which something is written down and still counts as recorded when it happened. Judged, no source. */
const daysToWriteDown = 7;

/** Something that happened to an item on one day and was written down on the same or another. */
export interface WrittenDown {
  readonly on: CalendarDate;
  readonly writtenOn: CalendarDate;
}

/** False of what was written down more than a week later: taking stock of the past, not recording. */
export const isRecordedAsItHappened = ({ on, writtenOn }: WrittenDown): boolean =>
  dayNumber(writtenOn) - dayNumber(on) <= daysToWriteDown;

/** What tells from which day on the book of an item knows everything that was eaten. Lists in any order. */
export interface ItemRecords {
  /** Units that came, were given away, thrown away or found spoilt. */
  readonly others: readonly WrittenDown[];
  readonly takings: readonly WrittenDown[];
  readonly countedOn: readonly CalendarDate[];
  /** Days from which each lot stands in the book: as it came, or as it was written down when that was later. */
  readonly inBookFrom: readonly CalendarDate[];
  /** "We have recorded since …", of all items; null when it was not said. */
  readonly saidSince: CalendarDate | null;
}

/**
 * First day of which the book knows whatever was eaten of an item; null while nothing was recorded as it happened.
 *
 * The word of the household counts first. Otherwise the earliest of: the day something came or went and was written down within
 * a week; the day after the first taking written down so (a record that begins with a jar taken would otherwise always begin
 * with use); and, once the shelf was counted, the day from which the book had it, since the count checks all the time between.
 * Example: 12 jars dated last August and written down on 10 February, one taken on the 20th: from 21 February; counted on
 * 10 March: from 10 February.
 */
export function recordingBegins(records: ItemRecords): CalendarDate | null {
  if (records.saidSince !== null) return records.saidSince;
  const { others, takings, countedOn, inBookFrom } = records;
  const lastCount = lastOf(countedOn);
  return firstOf([
    ...others.filter(isRecordedAsItHappened).map(({ on }) => on),
    ...takings.filter(isRecordedAsItHappened).map(({ on }) => addDays(on, 1)),
    ...(lastCount === null ? [] : inBookFrom.filter((on) => on <= lastCount)),
  ]);
}

/** Spans of days between `from` (included) and `until` (not included) that none of the recorded spans holds, oldest first. */
export function daysUnrecorded(
  recorded: readonly DaySpan[],
  from: CalendarDate,
  until: CalendarDate,
): readonly DaySpan[] {
  const gaps: DaySpan[] = [];
  let known = from;
  for (const span of recorded.toSorted((one, other) => (one.from < other.from ? -1 : 1))) {
    if (span.from > known) gaps.push({ from: known, until: span.from < until ? span.from : until });
    if (span.until > known) known = span.until;
  }
  if (known < until) gaps.push({ from: known, until });
  return gaps.filter((gap) => gap.from < gap.until);
}
