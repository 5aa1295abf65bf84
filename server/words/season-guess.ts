import { counted } from '../../shared/counting.ts';
import { stateNames } from '../../shared/us-states.ts';
import { asDate } from '../../shared/week.ts';
import { monthDayOf } from '../../src/harvest/day-of-season.ts';
import type { KnownGround } from '../../src/harvest/known-ground.ts';
import type { LocalWindow, LocalWindowAnswer } from '../../src/harvest/local-window.ts';
import { stationName } from '../../src/harvest/station-name.ts';
import type { StatedGround } from '../../src/household/ground.ts';
import { formatAltitude, formatYearlyDay } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { regionWords } from './regions.ts';

// Where a guessed season came from, in words.

/** A day of any year. */
const dayWords = (monthDay: string, reading: Reading): string =>
  formatYearlyDay(asDate(`2001-${monthDay}`), reading);

/** "Boulder, Colorado (5,484 ft)", "your own frost dates" */
export function groundWords({ from, ground }: KnownGround, stated: StatedGround, reading: Reading): string {
  switch (from.kind) {
    case 'own-frost':
      return 'your own frost dates';
    case 'strawberries':
      return 'when your strawberries begin';
    case 'station':
      return `${stationName(from.station)} (${formatAltitude(from.station.elevationFt, reading)})`;
    case 'stations': {
      const where =
        ground.region === null ? (stateNames[stated.state ?? ''] ?? '') : regionWords(ground.region);
      return from.isAtHeight ? `the stations of ${where} at about your altitude` : `the stations of ${where}`;
    }
    case 'nothing':
      return 'no place yet';
  }
}

/** "Published for Colorado, by the month: Jul 1 to Oct 31 (CO-CALENDAR); moved 6 days later …" */
export function guessWords(
  { window, row, isBorrowed, shiftDays, notBefore, endsWithFreeze, finer }: LocalWindow,
  place: string,
  reading: Reading,
): string {
  const day = (monthDay: string) => dayWords(monthDay, reading);
  const borrowed = isBorrowed ? 'the nearest region that lists it, ' : '';
  const byMonth = row.precision === 'month' ? ', by the month' : '';
  const dates = `Our guess. Published for ${borrowed}${regionWords(row.region)}${byMonth}: ${day(row.beginsOn)} to ${day(row.endsOn)} (${row.sourceId})`;
  const days = Math.abs(shiftDays);
  const moved =
    shiftDays === 0
      ? ''
      : ` Moved ${counted(days, 'day')} ${shiftDays > 0 ? 'later' : 'earlier'} for ${place}.`;
  const planted =
    notBefore === null
      ? ''
      : ` Not ripe sooner: the last freeze comes about ${day(notBefore.lastFreeze)}, and it takes ${counted(notBefore.row.daysLow, 'day')} or more from planting.`;
  const near =
    finer === null
      ? ''
      : ` When in it comes from ${regionWords(finer.region)}, which prints it (${finer.sourceId}).`;
  const { mostActiveFrom: from, mostActiveTo: to } = window;
  const mostly =
    from === null || to === null ? '' : ` Planned on from ${day(from)} to ${day(to)}, when most is picked.`;
  return `${dates}.${near}${moved}${planted}${mostly}${endsWithFreeze ? ' Ends with the first freeze.' : ''}`;
}

/** What is guessed for a source now, whether it uses it or not; null where nothing is published. */
export function answerWords(answer: LocalWindowAnswer, place: string, reading: Reading): string | null {
  switch (answer.kind) {
    case 'window': {
      const { beginsOn, endsOn } = answer.local.window;
      return `${dayWords(beginsOn, reading)} to ${dayWords(endsOn, reading)}. ${guessWords(answer.local, place, reading)}`;
    }
    case 'too-short':
      return `Between the freezes at ${place} it does not get ripe, by our guess.`;
    case 'no-table':
      return null;
  }
}

/** "last freeze about May 4, first about Oct 6"; empty where nothing is known. */
export function freezeWords({ ground: { climate } }: KnownGround, reading: Reading): string {
  if (climate === null) return '';
  const last =
    climate.lastFreeze <= 1
      ? 'it hardly ever freezes'
      : `last freeze about ${dayWords(monthDayOf(climate.lastFreeze), reading)}`;
  return climate.firstFreeze === null
    ? last
    : `${last}, first about ${dayWords(monthDayOf(climate.firstFreeze), reading)}`;
}
