import { type CalendarDate, type WeekKey, weekOf } from '../../shared/week.ts';
import { dayNumber, weekFacts } from './household-calendar.ts';

/** What one item's shelf counts showed about takings since the counts before. */
export interface CheckedTakings {
  /** Units that had been recorded as taken. */
  readonly tapped: number;
  /** Units that only the count showed. */
  readonly takenUnsaid: number;
}

/** Units of evidence with which a household starts as one that records everything. */
const trustAtStart = 5;

/**
 * Share of takings that the household records as they happen, 0..1, over all items whose shelf was counted: recorded units over
 * all units between counts, shrunk to "all of them" with the weight of five units. Without any count it is 1.
 *
 * Example: 60 recorded and 40 found at counts give (60 + 5) / (100 + 5) = 0.619.
 */
export function tappedShare(checked: readonly CheckedTakings[]): number {
  let tapped = 0;
  let unsaid = 0;
  for (const takings of checked) {
    tapped += takings.tapped;
    unsaid += takings.takenUnsaid;
  }
  return (tapped + trustAtStart) / (tapped + unsaid + trustAtStart);
}

/** What `tappedShare` means for the household, in words; undefined while nearly everything is recorded. */
export function neverTappedInWords(share: number): string | undefined {
  const unsaid = 1 - share;
  if (unsaid < 0.04) return undefined;
  const named: readonly (readonly [number, string])[] = [
    [0.05, 'About one jar in twenty goes unrecorded until you count the shelf.'],
    [0.1, 'About one jar in ten goes unrecorded until you count the shelf.'],
    [0.2, 'About one jar in five goes unrecorded until you count the shelf.'],
    [0.25, 'About one jar in four goes unrecorded until you count the shelf.'],
    [1 / 3, 'About one jar in three goes unrecorded until you count the shelf.'],
    [0.5, 'About half of your jars go unrecorded until you count the shelf.'],
    [2 / 3, 'About two jars in three go unrecorded until you count the shelf.'],
    [0.85, 'Most of your jars go unrecorded until you count the shelf.'],
  ];
  const nearest = named.reduce((best, next) =>
    Math.abs(next[0] - unsaid) < Math.abs(best[0] - unsaid) ? next : best,
  );
  return nearest[1];
}

/** A gap in the records as long as this happens by chance about once in a hundred times. */
const unlikelySilence = Math.log(100);

/**
 * Weeks in which nobody recorded anything, as opposed to weeks in which nothing happened: whole weeks inside a gap without any
 * record of any item that is longer than the household's usual rhythm explains. `recordedOn`: every day with a record, in any
 * order. Rhythm: records a day outside the longest gap. With fewer than five records nothing is called silent.
 */
export function silentWeeks(recordedOn: readonly CalendarDate[], asOf: CalendarDate): ReadonlySet<WeekKey> {
  const silent = new Set<WeekKey>();
  const days = recordedOn.map(dayNumber).sort((left, right) => left - right);
  const [earliest] = days;
  if (earliest === undefined || days.length < 5) return silent;
  const ends = [...days.slice(1), dayNumber(asOf)];
  const gaps = days.map((from, place) => ({ from, until: ends[place] ?? from }));
  const longest = Math.max(...gaps.map((gap) => gap.until - gap.from));
  const span = Math.max(1, dayNumber(asOf) - earliest - longest);
  const longEnough = Math.max(8, (unlikelySilence * span) / days.length);
  for (const gap of gaps) {
    if (gap.until - gap.from < longEnough) continue;
    const dayAfter = new Date((gap.from + 1) * 86_400_000).toISOString().slice(0, 10) as CalendarDate;
    for (let week = weekOf(dayAfter); ; week = weekFacts(week).next) {
      const monday = weekFacts(week).firstDay;
      if (monday + 7 > gap.until) break;
      if (monday > gap.from) silent.add(week);
    }
  }
  return silent;
}
