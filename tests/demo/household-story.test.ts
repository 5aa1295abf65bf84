import { describe, expect, test } from 'vitest';
import { loadDemoData } from '../../server/demo/demo-data.ts';
import { liveHouseholdYear } from '../../server/demo/household-story.ts';
import type { PantryBook } from '../../server/demo/pantry-book.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { addDays, addMonths, asDate, type CalendarDate, daysBetween } from '../../shared/week.ts';

const data = loadDemoData();
const tables = loadReferenceTables();
const seed = 5;
const books = new Map<CalendarDate, PantryBook>();
const bookOf = (text: string): PantryBook => {
  const asOf = asDate(text);
  const known = books.get(asOf) ?? liveHouseholdYear(data, tables, asOf, seed);
  books.set(asOf, known);
  return known;
};

const fourDates = ['2026-11-25', '2027-02-10', '2027-05-15', '2027-08-20'];
const farDates = ['2026-01-01', '2026-07-04', '2028-02-29', '2028-12-31'];
const dates = [...fourDates, ...farDates];

/** Units left of each lot. */
const leftOf = (book: PantryBook): ReadonlyMap<string, number> => {
  const left = new Map<string, number>();
  for (const event of book.events) left.set(event.lotId, (left.get(event.lotId) ?? 0) + event.units);
  return left;
};

const stockWhere = (book: PantryBook, wanted: (itemId: string) => boolean): number => {
  const left = leftOf(book);
  return book.lots
    .filter((lot) => wanted(lot.itemId))
    .reduce((units, lot) => units + (left.get(lot.id) ?? 0), 0);
};
const inJars = (itemId: string): boolean =>
  data.items.some((item) => item.id === itemId && item.unit === 'jar');
const inGroup = (itemId: string): boolean =>
  data.household.groups.some((group) => group.items.some((member) => member === itemId));
const ofFamily = (family: string) => (itemId: string) =>
  inJars(itemId) && data.items.some((item) => item.id === itemId && item.family === family);

describe.each(dates)('the book that ends before %s', (text) => {
  const book = bookOf(text);
  const asOf = asDate(text);

  test('covers a year and ends the day before', () => {
    const days = book.events.map((event) => event.on).sort();

    expect(days[0]).toBe(addMonths(asOf, -12));
    expect(days.every((day) => day < asOf)).toBe(true);
    expect(daysBetween(days.at(-1) ?? asOf, asOf)).toBeLessThanOrEqual(7);
  });

  test('no lot ever falls below zero, and stock is the sum of events', () => {
    const running = new Map<string, number>();

    for (const event of book.events) {
      const next = (running.get(event.lotId) ?? 0) + event.units;
      expect(next).toBeGreaterThanOrEqual(0);
      running.set(event.lotId, next);
    }
  });

  test('no unit is taken before it is ready', () => {
    const readyFrom = new Map(book.lots.map((lot) => [lot.id, lot.readyFrom]));

    expect(
      book.events.filter(
        (event) => event.kind === 'taken' && event.on < (readyFrom.get(event.lotId) ?? asOf),
      ),
    ).toEqual([]);
  });

  test('nobody takes anything while the household is away', () => {
    const year = Number(text.slice(0, 4));
    const away = data.household.away.flatMap((span) =>
      [year - 1, year].map((each) => [`${each}-${span.from}`, `${each}-${span.until}`] as const),
    );

    expect(
      book.events.filter(
        (event) =>
          event.kind === 'taken' && away.some(([from, until]) => from <= event.on && event.on < until),
      ),
    ).toEqual([]);
  });

  test('a monthly count makes the book equal to the shelf', () => {
    const bookUnits = new Map<string, number>();
    const itemOf = new Map(book.lots.map((lot) => [lot.id, lot.itemId]));
    const dayOfCount = [...new Set(book.counts.map((count) => count.on))];

    expect(dayOfCount.length).toBeGreaterThanOrEqual(11);
    for (const count of book.counts) expect(count.countedUnits).toBeLessThanOrEqual(count.bookUnits);
    for (const day of dayOfCount) {
      bookUnits.clear();
      for (const event of book.events.filter((written) => written.on <= day)) {
        const item = itemOf.get(event.lotId) ?? '';
        bookUnits.set(item, (bookUnits.get(item) ?? 0) + event.units);
      }
      for (const count of book.counts.filter((counted) => counted.on === day))
        expect([count.itemId, bookUnits.get(count.itemId) ?? 0]).toEqual([count.itemId, count.countedUnits]);
    }
  });

  test('some jars were taken without a word, one broke, some did not seal', () => {
    const kinds = book.events.map((event) => event.kind);

    expect(kinds.filter((kind) => kind === 'counted').length).toBeGreaterThan(20);
    expect(kinds.filter((kind) => kind === 'discarded').length).toBe(1);
    expect(kinds.filter((kind) => kind === 'seal failed').length).toBeGreaterThanOrEqual(1);
    expect(kinds.filter((kind) => kind === 'seal failed').length).toBeLessThanOrEqual(2);
  });

  test('gives the promised jars away in December', () => {
    const given = book.events.filter((event) => event.kind === 'given away');
    const jars = -given.reduce((units, event) => units + event.units, 0);

    expect(given.every((event) => event.on.endsWith('12-15'))).toBe(true);
    expect(jars).toBeGreaterThanOrEqual(20);
    expect(jars).toBeLessThanOrEqual(24);
  });

  test('some jars near the end of their best quality still stand', () => {
    const left = leftOf(book);
    const near = book.lots.filter(
      (lot) =>
        (left.get(lot.id) ?? 0) >= 1 &&
        lot.bestQualityUntil >= asOf &&
        lot.bestQualityUntil < addDays(asOf, 45),
    );

    expect(near.length).toBeGreaterThanOrEqual(1);
  });

  test('every canned lot keeps its evidence, and only canned lots have any', () => {
    const canned = new Set(data.recipes.filter((recipe) => recipe.canner).map((recipe) => recipe.id));

    expect(
      book.lots.filter(
        (lot) => (lot.recipeId !== null && canned.has(lot.recipeId)) !== (lot.evidence !== null),
      ),
    ).toEqual([]);
  });
});

// Ranges are our own judgement of what four people's shelf holds: common practice, no source.
describe('the shelf looks right for the time of year', () => {
  const jarsIn = (text: string): number => stockWhere(bookOf(text), inJars);

  test('full after the harvest, lower in February, lowest before the next one', () => {
    const [november = 0, february = 0, may = 0, august = 0] = fourDates.map(jarsIn);

    expect(november).toBeGreaterThan(200);
    expect(november).toBeLessThan(300);
    expect(february).toBeLessThan(november);
    expect(may).toBeLessThan(february);
    expect(may).toBeGreaterThan(60);
    expect(august).toBeGreaterThan(may);
  });

  test.each([
    ['2026-11-25', 'greens-beans', 30, 70],
    ['2027-05-15', 'greens-beans', 1, 35],
    ['2026-11-25', 'tomatoes', 35, 75],
    ['2027-05-15', 'tomatoes', 8, 45],
    ['2026-11-25', 'pickles', 20, 50],
    ['2027-08-20', 'pickles', 12, 50],
    ['2026-11-25', 'meat-stock', 6, 26],
  ])('on %s there are jars of %s between %d and %d', (text, family, least, most) => {
    const units = stockWhere(bookOf(text), ofFamily(family));

    expect(units).toBeGreaterThanOrEqual(least);
    expect(units).toBeLessThanOrEqual(most);
  });

  test('sweet spreads stand ready for the December baskets', () => {
    expect(stockWhere(bookOf('2026-11-25'), inGroup)).toBeGreaterThanOrEqual(45);
  });

  test('in November something will run out before it can be made again', () => {
    const book = bookOf('2026-11-25');
    const weeksToNextCucumbers = 32;
    const dills = stockWhere(book, (id) => id === 'dill-pickles');
    const usesPerWeek = data.items.find((item) => item.id === 'dill-pickles')?.truly_per_week ?? 0;

    expect(dills).toBeLessThan(usesPerWeek * weeksToNextCucumbers);
  });

  test('four people put up between 200 and 360 units in a year', () => {
    const madeUnits = bookOf('2026-11-25')
      .events.filter((event) => event.kind === 'put up' && event.on > asDate('2025-11-25'))
      .reduce((units, event) => units + event.units, 0);

    expect(madeUnits).toBeGreaterThan(200);
    expect(madeUnits).toBeLessThan(360);
  });
});

describe('the same seed and date', () => {
  test('give the same book; another seed another one', () => {
    const asOf = asDate('2027-05-15');

    expect(liveHouseholdYear(data, tables, asOf, seed)).toEqual(bookOf('2027-05-15'));
    expect(liveHouseholdYear(data, tables, asOf, seed + 1)).not.toEqual(bookOf('2027-05-15'));
  });
});
