import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { type ProduceUnit, tradeMeasures } from '../../../shared/trade-measure.ts';
import { poundsOfProduce, tradeMeasuresOf } from '../../../src/preserving/foods/trade-measures.ts';

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
