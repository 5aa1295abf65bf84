import { describe, expect, test } from 'vitest';
import type { JarKind } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import { asDate, asWeek } from '../../../shared/week.ts';
import { elementId } from '../../../views/words/element-id.ts';
import {
  formatAltitude,
  formatDate,
  formatInches,
  formatJars,
  formatMinutes,
  formatMoney,
  formatMonthOfWeek,
  formatQuantity,
  formatRange,
  formatWeek,
  formatWeekday,
  severalOf,
  withCelsius,
} from '../../../views/words/format.ts';
import { type Reading, usReading } from '../../../views/words/reading.ts';

const metric: Reading = { locale: 'en-GB', units: 'metric', weekStartsOn: 'monday' };

describe('words for dates', () => {
  // 17 August 2026 is a Monday in the Gregorian calendar.
  test.each([
    [formatWeek(asWeek('2026-W34'), metric), 'week of 17 Aug'],
    [formatWeek(asWeek('2026-W34'), { ...usReading, weekStartsOn: 'monday' }), 'week of Aug 17'],
    [formatWeek(asWeek('2026-W34'), usReading), 'week of Aug 16'],
    [formatWeekday(asDate('2026-08-22'), usReading), 'Sat, Aug 22'],
    [formatDate(asDate('2027-01-01'), usReading), 'Jan 1, 2027'],
  ])('%s', (written, expected) => {
    expect(written).toBe(expected);
  });
});

describe('as printed, with the metric figure beside', () => {
  // Foot and quart: NIST Handbook 44, appendix C; inch 25.4 mm exactly; °C = (°F - 32) · 5/9.
  test.each([
    [formatAltitude(1240, usReading), '1,240 ft'],
    [formatAltitude(1240, metric), '378 m (1,240 ft)'],
    [formatInches(0.5, '½', usReading), '½ inch'],
    [formatInches(0.5, '½', metric), '½ inch (13 mm)'],
    [formatInches(2, '2', usReading), '2 inches'],
    [formatInches(1, '1', metric), '1 inch (25 mm)'],
    [formatInches(1.5, '1½', metric), '1½ inches (38 mm)'],
    [formatQuantity(8, 'qt', usReading), '8 qt'],
    [formatQuantity(8, 'qt', metric), '7.6 L'],
    [
      withCelsius('Published at up to 70 °F; at 80 °F less.', usReading),
      'Published at up to 70 °F; at 80 °F less.',
    ],
    [
      withCelsius('Published at up to 70 °F; at 80 °F less.', metric),
      'Published at up to 70 °F (21 °C); at 80 °F (27 °C) less.',
    ],
    [withCelsius('holds at 50 to 70 °F', metric), 'holds at 50 to 70 °F (10 to 21 °C)'],
    [withCelsius('holds at 50 to 70 °F (10 to 21 °C)', metric), 'holds at 50 to 70 °F (10 to 21 °C)'],
  ])('%s', (written, expected) => {
    expect(written).toBe(expected);
  });
});

describe('words for amounts', () => {
  test.each([
    [formatQuantity(1, 'jar', usReading), '1 jar'],
    [formatQuantity(12, 'jar', usReading), '12 jars'],
    [formatQuantity(0, 'jar', usReading), '0 jars'],
    [formatQuantity(1234.56, 'lb', usReading), '1,234.6 lb'],
    // 1 kg is 2.20462262185 lb (NIST Handbook 44, Appendix C).
    [formatQuantity(22.0462262185, 'lb', metric), '10 kg'],
    [formatQuantity(3, 'each', usReading), '3'],
    [formatRange(10, 14, 'jar', usReading), '10 to 14 jars'],
    [formatRange(9.8, 10.2, 'jar', usReading), '10 jars'],
    [formatJars(14, 'pint/wide' as JarKind, usReading), '14 pints'],
    [formatJars(1, 'quart/regular' as JarKind, usReading), '1 quart'],
    [formatJars(4, '500-ml/regular' as JarKind, metric), '4 jars of 500 mL'],
    [formatMoney(asCents(1250), usReading), '$12.50'],
    [formatMoney(asCents(1250), usReading, true), '$13'],
    [formatMinutes(45), '45 min'],
    [formatMinutes(120), '2 h'],
    [formatMinutes(134.6), '2 h 15 min'],
  ])('%s', (written, expected) => {
    expect(written).toBe(expected);
  });
});

test('ids are made of the words that name an element and are valid whatever the words', () => {
  expect(elementId('Took one', 3)).toBe('took-one-3');
  expect(elementId('2026-W34')).toBe('n2026-w34');
  expect(elementId('<b>', 'É x')).toBe('b-x');
});

describe('several of a thing', () => {
  test.each([
    ['plum', 'plums'],
    ['green bean', 'green beans'],
    ['peach', 'peaches'],
    ['tomato', 'tomatoes'],
    ['cherry', 'cherries'],
    ['bay', 'bays'],
    ['sweet corn', 'sweet corn'],
    ['windfall', 'windfall'],
    ['greens', 'greens'],
  ])('%s: %s', (one, many) => {
    expect(severalOf(one)).toBe(many);
  });
});

describe('the month of a week', () => {
  test.each([
    ['2026-W36', 'September'], // Aug 31 to Sep 6
    ['2026-W40', 'October'], // Sep 28 to Oct 4
    ['2026-W31', 'July'], // Jul 27 to Aug 2
    ['2026-W53', 'December'], // Dec 28 to Jan 3
  ] as const)('%s is that of most of its days: %s', (week, month) => {
    expect(formatMonthOfWeek(asWeek(week), usReading)).toBe(month);
  });
});
