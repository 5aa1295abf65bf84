import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { celsiusFrom, fahrenheitFrom, millimetresPerInch } from '../../../shared/measures.ts';
import {
  boilingPointF,
  saturationTemperatureK,
  standardPressurePa,
} from '../../../src/preserving/lookup/boiling-point.ts';
import { kitchenAmount, shownPressure } from '../../../src/preserving/lookup/display-units.ts';
import { tables } from '../tables.ts';

describe('boiling point by altitude', () => {
  // IAPWS R7-97 (2012), table 36: saturation temperatures at 0.1, 1 and 10 MPa.
  test.each([
    [0.1e6, 372.755919],
    [1e6, 453.035632],
    [10e6, 584.149488],
  ])('the saturation line at %d Pa is %d K', (pressure, kelvin) => {
    expect(saturationTemperatureK(pressure)).toBeCloseTo(kelvin, 5);
  });

  // US Standard Atmosphere, 1976: 84,307 Pa at 5,000 ft, 69,682 Pa at 10,000 ft, geopotential.
  test.each([
    [0, 101_325],
    [5000, 84_307],
    [10_000, 69_682],
  ])('the standard atmosphere at %d ft has %d Pa', (feet, pascals) => {
    expect(Math.abs(standardPressurePa(feet) - pascals)).toBeLessThan(10);
  });

  // The three tables differ among themselves by up to 0.6 °F and round to whole or tenth degrees.
  test.each(tables.boilingPoints.map((row) => [row.altitudeFt, row.boilingPointF, row.sourceId] as const))(
    'at %d ft water boils near %d °F (%s)',
    (altitudeFt, published) => {
      expect(Math.abs(boilingPointF(altitudeFt) - published)).toBeLessThan(0.8);
    },
  );

  test('falls with altitude', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 15_000, noNaN: true }), (feet) => {
        expect(boilingPointF(feet + 10)).toBeLessThan(boilingPointF(feet));
      }),
      { seed: 20_260_817 },
    );
  });
});

describe('units as they are shown', () => {
  test('pressure is rounded up, never down', () => {
    expect(shownPressure(10.5)).toBe(11);
    expect(shownPressure(11)).toBe(11);
    expect(shownPressure(11, 'kPa')).toBe(76);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20, noNaN: true }), (psi) => {
        expect(shownPressure(psi)).toBeGreaterThanOrEqual(psi - 1e-8);
        expect(shownPressure(psi, 'kPa') / 6.894757293168361).toBeGreaterThanOrEqual(psi - 1e-8);
      }),
      { seed: 20_260_817 },
    );
  });

  test('degrees come back as they went', () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 20_000, noNaN: true }), (value) => {
        expect(fahrenheitFrom(celsiusFrom(value))).toBeCloseTo(value, 6);
      }),
      { seed: 20_260_817 },
    );
  });

  test('whole degrees and quarter inches survive a trip through whole degrees Celsius to a tenth and millimetres to a tenth', () => {
    for (let fahrenheit = 32; fahrenheit <= 250; fahrenheit += 1) {
      const shown = Math.round(celsiusFrom(fahrenheit) * 10) / 10;
      expect(Math.round(fahrenheitFrom(shown))).toBe(fahrenheit);
    }
    for (const inches of [0.125, 0.25, 0.5, 1, 1.25]) {
      const shown = Math.round(inches * millimetresPerInch * 10) / 10;
      expect(Math.round((shown / millimetresPerInch) * 8) / 8).toBe(inches);
    }
  });

  test.each([
    [0.25, '¼'],
    [2.25, '2¼'],
    [0.33, '⅓'],
    [9.33, '9⅓'],
    [3, '3'],
    [2.19, '2.19'],
  ])('%d cups are written %s', (amount, words) => {
    expect(kitchenAmount(amount)).toBe(words);
  });
});
