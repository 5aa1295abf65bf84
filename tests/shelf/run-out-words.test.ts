import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addWeeks, asDate, asWeek, weekOf } from '../../shared/week.ts';
import { chanceWords, runOutWords, weekWords } from '../../src/shelf/run-out-words.ts';

const asOf = asDate('2026-11-25');
const week = asWeek;

describe('how long it lasts', () => {
  test.each([
    [
      { p10: week('2027-W08'), p50: week('2027-W09'), p90: week('2027-W13') },
      'Lasts to early March; 1 year in 10 only to late February.',
    ],
    [
      { p10: week('2027-W09'), p50: week('2027-W10'), p90: week('2027-W13') },
      'Lasts to mid March; 1 year in 10 only to early March.',
    ],
    [{ p10: week('2027-W12'), p50: week('2027-W12'), p90: null }, 'Lasts to late March.'],
    [
      { p10: week('2027-W42'), p50: null, p90: null },
      'Likely lasts the year ahead; 1 year in 10 only to late October 2027.',
    ],
    [{ p10: null, p50: null, p90: null }, 'Lasts the whole year ahead.'],
    [
      { p10: week('2026-W48'), p50: week('2026-W49'), p90: week('2026-W52') },
      'Lasts through next week; 1 year in 10 only through this week.',
    ],
    [
      { p10: week('2026-W53'), p50: week('2027-W01'), p90: null },
      'Lasts to early January; 1 year in 10 only to late December.',
    ],
  ])('%j', (runOut, words) => {
    expect(runOutWords(asOf, runOut, 6)).toBe(words);
  });

  test('an empty shelf lasts no time at all', () => {
    expect(runOutWords(asOf, { p10: weekOf(asOf), p50: weekOf(asOf), p90: null }, 0)).toBe(
      'None on the shelf.',
    );
  });

  test('a week is said as it is seen from any day of this week: this one, the next, then the month', () => {
    for (const day of [asDate('2026-11-23'), asOf, asDate('2026-11-29')]) {
      expect(weekWords(day, week('2026-W47'))).toEqual({ to: 'this week', until: 'through this week' });
      expect(weekWords(day, week('2026-W48'))).toEqual({ to: 'this week', until: 'through this week' });
      expect(weekWords(day, week('2026-W49'))).toEqual({ to: 'next week', until: 'through next week' });
      expect(weekWords(day, week('2026-W50'))).toEqual({ to: 'early December', until: 'to early December' });
    }
  });

  test('a third of a month ends with the tenth and the twentieth of the Thursday', () => {
    // Thursdays: 10 December 2026, 11 March and 20 May and 21 January 2027.
    expect(weekWords(asOf, week('2026-W50')).to).toBe('early December');
    expect(weekWords(asOf, week('2027-W10')).to).toBe('mid March');
    expect(weekWords(asOf, week('2027-W20')).to).toBe('mid May');
    expect(weekWords(asOf, week('2027-W03')).to).toBe('late January');
  });

  test('a month next year that could be taken for this year’s carries its year', () => {
    expect(weekWords(asOf, week('2027-W47')).to).toBe('late November 2027');
    expect(weekWords(asOf, week('2027-W20')).to).toBe('mid May');
  });
});

describe('how surely it lasts', () => {
  test.each([
    [0.9, '9 years in 10'],
    [0.94, '9 years in 10'],
    [0.89, '8 years in 10'],
    [0.95, '19 years in 20'],
    [0.5, '5 years in 10'],
    [0.12, '1 year in 10'],
    [0.02, 'less than 1 year in 10'],
    [1, 'practically every year'],
  ])('%d is said as %s', (chance, words) => {
    expect(chanceWords(chance)).toBe(words);
  });

  test('more than certain is an error', () => {
    expect(() => chanceWords(1.2)).toThrow('chanceWords: expected a chance between 0 and 1, got 1.2');
  });
});

test('no statistical word ever reaches the page, and every answer is a sentence', () => {
  const place = fc.option(fc.integer({ min: 0, max: 103 }));
  fc.assert(
    fc.property(fc.tuple(place, place, place), fc.nat(20), (places, onShelf) => {
      const [p10, p50, p90] = places
        .map((each) => each ?? 999)
        .sort((one, other) => one - other)
        .map((each) => (each === 999 ? null : addWeeks(weekOf(asOf), each))) as [null, null, null];

      const words = runOutWords(asOf, { p10, p50, p90 }, onShelf);

      expect(words).toMatch(/^[A-Z].*\.$/);
      expect(words).not.toMatch(/%|p\d\d|quantile|percentile|probab|median|interval|expected|mean|W\d\d/i);
    }),
  );
});
