import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { jarSizes, nominalMl } from '../../shared/jar.ts';
import { feetPerMetre, litresPerQuart, poundsPerKilogram } from '../../shared/measures.ts';

// NIST Handbook 44, appendix C (general tables of units of measurement): 1 US gallon is 231 cubic inches, 1 inch 2.54 cm,
// 1 foot 0.3048 m, 1 avoirdupois pound 0.45359237 kg, 1 US bushel 2,150.42 cubic inches; all exact.
const cubicInchMl = 2.54 ** 3;

const { measures } = loadReferenceTables();
const exactly = (from: string, to: string): number => {
  const row = measures.find(
    ({ fromUnit, toUnit, exactness }) => fromUnit === from && toUnit === to && exactness === 'exact',
  );
  if (!row) throw new Error(`no exact row from ${from} to ${to}`);
  return row.toQuantity / row.fromQuantity;
};

describe('conversions the program computes with', () => {
  test.each([
    ['a quart in litres', litresPerQuart, exactly('qt', 'mL') / 1000, (231 / 4) * (cubicInchMl / 1000)],
    ['a pound in kilograms', 1 / poundsPerKilogram, exactly('lb', 'kg'), 0.45359237],
  ])('%s: as in the table, and as in the handbook', (_, used, inTable, inHandbook) => {
    expect(used).toBeCloseTo(inTable, 12);
    expect(used).toBeCloseTo(inHandbook, 9);
  });

  test('a metre is 1/0.3048 ft', () => {
    expect(feetPerMetre * 0.3048).toBeCloseTo(1, 12);
  });

  test('a bushel is 2,150.42 cubic inches, in the table and in litres', () => {
    expect(exactly('bushel', 'in3')).toBe(2150.42);
    expect(exactly('bushel', 'L')).toBeCloseTo((2150.42 * cubicInchMl) / 1000, 9);
  });
});

describe('jars', () => {
  const inTable: Readonly<Record<string, string>> = {
    'quarter-pint': 'jar:quarter_pint',
    'half-pint': 'jar:half_pint',
    '12-oz': 'jar:12_oz',
    pint: 'jar:pint',
    '24-oz': 'jar:pint_and_half',
    '28-oz': 'jar:28_oz',
    quart: 'jar:quart',
    'half-gallon': 'jar:half_gallon',
  };

  // Kansas State University Extension, jar sizes; US Department of Agriculture, AIB 539 (half-gallon).
  test.each(Object.entries(inTable))(
    'a %s holds its fluid ounces, as the table prints them',
    (size, unit) => {
      const jar = jarSizes.find((known) => known === size);
      if (!jar) throw new Error(`no jar ${size}`);

      expect(nominalMl[jar]).toBeCloseTo(exactly(unit, 'floz') * exactly('floz', 'mL'), 9);
    },
  );

  test('metric jars are their own sizes: 500 mL is larger than a pint, 1 L than a quart, 250 mL than a half-pint', () => {
    expect(nominalMl['500-ml']).toBeGreaterThan(nominalMl.pint);
    expect(nominalMl['1-l']).toBeGreaterThan(nominalMl.quart);
    expect(nominalMl['250-ml']).toBeGreaterThan(nominalMl['half-pint']);
  });
});
