import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { aboutWords, produceWords } from '../../../server/words/buying/produce-words.ts';
import { amountSaid, type ProduceUnit, tradeMeasures } from '../../../shared/trade-measure.ts';
import { readTypedNumber } from '../../../shared/typed-number.ts';
import { asDate } from '../../../shared/week.ts';
import {
  measuresIn,
  poundsOfProduce,
  tradeMeasuresOf,
} from '../../../src/preserving/foods/trade-measures.ts';
import { kitchenAmount } from '../../../src/preserving/lookup/display-units.ts';
import { readingOf } from '../../../views/words/reading.ts';

const tables = loadReferenceTables();
const pounds = (amount: number, unit: ProduceUnit, key: string) => {
  const read = poundsOfProduce(amount, unit, { key, name: key }, tables);
  return read.ok ? read.value : read.problems[0]?.message;
};

// USDA Complete Guide to Home Canning (2015): Guide 2 apples p2-7, cherries p2-12, peaches p2-19, rhubarb p2-22; Guide 3
// tomatoes p3-7; Guide 4 asparagus p4-5, snap beans p4-8, corn in husks p4-11 (read). Strawberries, a 24-quart crate of 36 lb:
// Guide 2, p2-10, berries (read). Cabbage, a bushel of 50 lb: USDA Agriculture Handbook 697 (remembered).
describe('a trade measure of produce', () => {
  it.each<[number, ProduceUnit, string, number]>([
    [1, 'bushel', 'apple', 48],
    [2, 'peck', 'apple', 24],
    [1, 'half-bushel', 'peach', 24],
    [0.5, 'bushel', 'tomato', 26.5],
    [3, 'lug', 'cherry-tart', 75],
    [1, 'lug', 'rhubarb', 28],
    [1, 'crate', 'asparagus', 31],
    [1, 'crate', 'strawberry', 36],
    [1, 'bushel', 'green-bean', 30],
    [1, 'bushel', 'sweet-corn', 35],
    [1, 'bushel', 'cabbage', 50],
    [10, 'lb', 'anything', 10],
    [10, 'kg', 'anything', 22.046_226],
  ])('%d %s of %s is %d lb', (amount, unit, crop, lb) => {
    expect(pounds(amount, unit, crop)).toBeCloseTo(lb, 5);
  });

  it('without a published weight is refused, and those that have one are named', () => {
    expect(pounds(1, 'lug', 'apple')).toBe(
      'We have no published weight for a lug of apple. Write pounds, or count in a bushel (48 lb), a half-bushel (24 lb), a peck (12 lb).',
    );
    expect(pounds(1, 'bushel', 'quince')).toBe(
      'We have no published weight for a bushel of quince. Weigh one, and write the pounds.',
    );
  });

  it('is read for a crop however its key is written, and never of a crop that only begins alike', () => {
    expect(tradeMeasuresOf('sweet_corn', tables)).toEqual(tradeMeasuresOf('sweet-corn', tables));
    expect(tradeMeasuresOf('grapefruit', tables)).toEqual([]);
    expect(tradeMeasuresOf('peanut', tables)).toEqual([]);
  });

  it('of every crop with a season weighs between 2 and 60 lb, four pecks a bushel', () => {
    for (const crop of new Set(tables.harvestWindows.map(({ cropKey }) => cropKey))) {
      const own = new Map(tradeMeasuresOf(crop, tables).map(({ measure, lb }) => [measure, lb]));
      for (const measure of tradeMeasures) {
        const lb = own.get(measure);
        if (lb !== undefined) expect(lb >= 2 && lb <= 60, `${crop} ${measure} ${lb}`).toBe(true);
      }
      const bushel = own.get('bushel');
      expect(own.get('peck')).toBe(bushel === undefined ? undefined : bushel / 4);
    }
  });
});

describe('an amount of produce as it is said', () => {
  it.each([
    ['40', '40', 'lb'],
    ['40 lb', '40', 'lb'],
    ['12 kilos', '12', 'kg'],
    ['2 bushels', '2', 'bushel'],
    ['1½ half-bushels', '1½', 'half-bushel'],
    ['3 half bushels', '3', 'half-bushel'],
    ['½ of a bushel', '½', 'bushel'],
    ['half a bushel', '1/2', 'bushel'],
    ['a bushel', '1', 'bushel'],
    ['1 1/2 Pecks', '1 1/2', 'peck'],
    ['2 bu.', '2', 'bushel'],
    ['32 a bushel', '32', 'bushel'],
    ['32/lug', '32', 'lug'],
    ['7 per crate', '7', 'crate'],
    ['2 flats', '2', 'flat'],
    ['lots', 'lots', 'lb'],
    ['bushels', 'bushels', 'bushel'],
    ['2 albums', '2 albums', 'lb'],
    ['', '', 'lb'],
  ] as const)('“%s” is “%s” in %s', (typed, amount, unit) => {
    expect(amountSaid(typed, 'lb')).toEqual({ amount, unit });
  });

  it('is in what was chosen where nothing stands behind it', () => {
    expect(amountSaid('2', 'peck')).toEqual({ amount: '2', unit: 'peck' });
  });

  const withMeasures = [...new Set(tables.harvestWindows.map(({ cropKey }) => cropKey))].filter(
    (crop) => tradeMeasuresOf(crop, tables).length > 0,
  );
  const american = readingOf({ locale: 'en-US', units: 'us', weekStartsOn: 'sunday' }, asDate('2026-08-17'));
  const metric = readingOf(
    { locale: 'en-GB', units: 'metric', weekStartsOn: 'monday' },
    asDate('2026-08-17'),
  );
  const amounts = fc.record({
    crop: fc.constantFrom(...withMeasures),
    quarters: fc.integer({ min: 1, max: 200 }),
    at: fc.nat(4),
  });

  it('comes back as it was typed, in any measure of any crop that has one', () => {
    expect(withMeasures.length).toBeGreaterThan(20);
    fc.assert(
      fc.property(amounts, ({ crop, quarters, at }) => {
        const measures = tradeMeasuresOf(crop, tables);
        const { measure } = measures[at % measures.length] as (typeof measures)[number];
        const typed = amountSaid(`${kitchenAmount(quarters / 4)} ${measure}s`, 'lb');
        const lb = poundsOfProduce(amountOf(typed.amount), typed.unit, { key: crop, name: crop }, tables);
        if (!lb.ok) throw new Error(`expected pounds of ${crop}`);

        const about = aboutWords(lb.value, measures, american);
        const least =
          Math.min(...measures.filter((one) => one.measure !== 'half-bushel').map((one) => one.lb)) / 2;
        if (about === null) {
          expect(lb.value).toBeLessThan(least);
          return;
        }
        const shown = amountSaid(about.replace(/^about /, ''), 'lb');
        const again = poundsOfProduce(amountOf(shown.amount), shown.unit, { key: crop, name: crop }, tables);
        const own = measures.find((one) => one.measure === shown.unit)?.lb ?? 0;
        if (!again.ok) throw new Error(`expected pounds of ${crop} again`);
        // To the next quarter of the measure it is shown in; exact where a quarter was typed in that measure.
        expect(again.value).toBeGreaterThanOrEqual(lb.value - own * 0.01);
        expect(again.value - lb.value).toBeLessThan(own / 4);
        if (shown.unit === measure) expect(again.value).toBeCloseTo(lb.value, 6);
      }),
      { seed: 20270117, numRuns: 400 },
    );
  });

  it('is shown to a metric household in kilograms alone', () => {
    fc.assert(
      fc.property(amounts, ({ crop, quarters }) => {
        expect(produceWords(quarters, tradeMeasuresOf(crop, tables), metric)).toMatch(/^[\d,.]+ kg$/);
      }),
      { seed: 20270117 },
    );
  });

  // 63 lb of tomatoes at 53 lb a bushel (USDA Complete Guide 3, p3-7).
  it.each([
    [63, 'tomato', '63 lb, about 1¼ bushels'],
    [53, 'tomato', '53 lb, about 1 bushel'],
    [27, 'tomato', '27 lb, about ¾ of a bushel'],
    [26.5, 'tomato', '26.5 lb, about half a bushel'],
    [20, 'tomato', '20 lb, about 1¾ pecks'],
    [6, 'tomato', '6 lb'],
    [36, 'strawberry', '36 lb, about 1 crate'],
    [80, 'quince', '80 lb'],
  ])('%d lb of %s are %s', (lb, crop, words) => {
    expect(produceWords(lb, tradeMeasuresOf(crop, tables), american)).toBe(words);
  });
});

const amountOf = (text: string): number => {
  const read = readTypedNumber(text, { fractions: true });
  if (read.kind !== 'number') throw new Error(`expected a number; found ${text}`);
  return read.value;
};

describe('the measures of any crop, with the tables told once', () => {
  it.each(['apple', 'cabbage', 'quince'])('%s has those it has by the tables', (crop) => {
    expect(measuresIn(tables)(crop)).toEqual(tradeMeasuresOf(crop, tables));
  });
});
