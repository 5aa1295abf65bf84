import { describe, expect, test } from 'vitest';
import { givenWords } from '../../../server/words/year/gave-way.ts';
import { bareWords } from '../../../server/words/year/run-out.ts';
import { walkLines, walkSentence } from '../../../server/words/year/year-walk.ts';
import { addDays, asDate, weekOf } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { YearWalk } from '../../../src/planning/year/year-walk.ts';
import type { ShelfProjection } from '../../../src/shelf/shelf-projection.ts';
import type { Reading } from '../../../views/words/reading.ts';

const reading: Reading = { locale: 'en-US', units: 'us', weekStartsOn: 'monday' };
const relish = {
  id: 'quince-relish',
  name: 'Quince relish',
  unit: 'jar',
  usualJar: 'pint/regular',
  chanceWanted: 0.8,
} as unknown as Item;
const walk = (change: Partial<YearWalk>): YearWalk => ({
  parts: [
    { part: 'use', units: 18 },
    { part: 'hungryYear', units: 4 },
  ],
  need: 22,
  needByUse: 22,
  reserveByUse: 4,
  reserve: 4,
  waste: 0,
  carryOver: 0,
  standing: 6,
  otherJars: [],
  toCome: 16,
  planned: 14,
  letGo: 2,
  missing: 0,
  over: 0,
  ...change,
});
const made = { hasPlan: true, isBought: false } as const;

describe('what of a reserve is let go', () => {
  const sentence = (change: Partial<YearWalk> = {}) =>
    walkSentence(relish, walk(change), reading, { ...made, isUnsaid: false });

  test('is said with its reason, and not called missing', () => {
    expect(sentence()).toContain(
      'The plan makes 14 more: enough but for 2 of the reserve, for which one more batch would mostly be left over.',
    );
    expect(sentence()).not.toContain('missing');
    expect(sentence({ planned: 0, standing: 20, toCome: 2 })).toContain(
      'That is enough but for 2 of the reserve, for which one more batch would mostly be left over.',
    );
    expect(sentence({ planned: 16, letGo: 0 })).toContain('The plan makes 16 more: enough.');
  });

  test('is a line of the walk, so that it adds up', () => {
    const lines = walkLines(relish, walk({}), reading, { ...made, perWeek: 0, useWeeks: 52 });
    expect(lines.slice(-3)).toEqual([
      { what: 'the plan makes', why: 'from this week on', units: '−14', isSum: false },
      { what: 'let go', why: 'one more batch would mostly be left over', units: '−2', isSum: false },
      { what: 'still missing', why: '', units: '0', isSum: true },
    ]);
    expect(
      walkLines(relish, walk({ letGo: 0, planned: 16 }), reading, { ...made, perWeek: 0, useWeeks: 52 }).map(
        ({ what }) => what,
      ),
    ).not.toContain('let go');
  });

  test('is how much the reserve is short of, where the page says what gave way', () => {
    const names = {
      facts: { items: [relish], sources: [], groups: [], recipes: [] },
      walkOf: () => walk({}),
      bareOf: () => 'none for 9 weeks from mid October',
      reading,
    };
    expect(givenWords([{ rung: 'reserve', what: relish.id, amount: 1.7, unit: 'units' }], names)).toEqual([
      'Quince relish 2 pints',
    ]);
  });
});

describe('what is short to eat', () => {
  const shortBy = (change: Partial<YearWalk>, bare: string | null) =>
    givenWords([{ rung: 'use', what: relish.id, amount: 1.7, unit: 'units' }], {
      facts: { items: [relish], sources: [], groups: [], recipes: [] },
      walkOf: () => walk({ letGo: 0, ...change }),
      bareOf: () => bare,
      reading,
    });

  test('though the year’s sum suffices is said as the weeks without any, in the words of the year’s rows', () => {
    expect(shortBy({}, 'none for 9 weeks from mid October')).toEqual([
      'Quince relish, none for 9 weeks from mid October',
    ]);
  });

  test('of the year’s sum is said as an amount', () => {
    expect(shortBy({ missing: 7 }, 'none for 9 weeks from mid October')).toEqual(['Quince relish 3 pints']);
  });

  test('for less than a gap is short until more comes', () => {
    expect(shortBy({}, null)).toEqual(['Quince relish until more comes']);
  });
});

describe('when there is none', () => {
  test('is each gap with its weeks and from when, one left open too; nothing where it lasts', () => {
    const projection = {
      weeks: Array.from({ length: 52 }, (_, at) => ({ week: weekOf(addDays(asDate('2026-10-05'), 7 * at)) })),
    } as unknown as ShelfProjection;
    const wordsOf = (...gaps: readonly { from: number; until: number }[]) =>
      bareWords({ gaps, projection }, asDate('2026-10-05'));

    expect(wordsOf()).toBeNull();
    expect(wordsOf({ from: 2, until: 11 })).toBe('none for 9 weeks from late October');
    expect(wordsOf({ from: 0, until: 4 }, { from: 49, until: 52 })).toBe(
      'none for 4 weeks from this week and for 3 weeks or more from mid September 2027',
    );
  });
});
