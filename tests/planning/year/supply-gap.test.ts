import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { wantedByHand } from '../../../src/planning/year/hand-target.ts';
import { gapToBridge, yearEndUnits } from '../../../src/planning/year/supply-gap.ts';

const weeks = (length: number, ...open: readonly number[]) =>
  Array.from({ length }, (_, week) => open.includes(week));

describe('the stretch a reserve must bridge', () => {
  test.each([
    ['is the longest run without supply', weeks(12, 2, 3, 9), { first: 4, weeks: 5 }],
    ['of equal runs it is the first', weeks(7, 2, 5), { first: 0, weeks: 2 }],
    ['reaches to the end when nothing comes any more', weeks(6, 0), { first: 1, weeks: 5 }],
    ['has no weeks when supply never pauses', weeks(3, 0, 1, 2), { first: 0, weeks: 0 }],
  ])('%s', (_, canArrive, gap) => {
    expect(gapToBridge(canArrive, false)).toEqual(gap);
  });

  test('of what is bought is four weeks', () => {
    expect(gapToBridge(weeks(10, 0, 1, 2), true)).toEqual({ first: 0, weeks: 4 });
  });
});

describe('what the last week hands over', () => {
  const use = [1, 1, 1, 1, 2, 2, 2, 2];

  test('is the use from then until something new can arrive', () => {
    expect(yearEndUnits(use, weeks(8, 1, 6), 4, false)).toBe(4);
  });

  test('is nothing when something arrives at once, or nothing is known to come', () => {
    expect(yearEndUnits(use, weeks(8, 4), 4, false)).toBe(0);
    expect(yearEndUnits(use, weeks(8, 1), 4, false)).toBe(0);
  });

  test('of what is bought is two weeks', () => {
    expect(yearEndUnits(use, weeks(8, 0, 1, 2, 3, 4, 5, 6, 7), 4, true)).toBe(4);
  });
});

describe('a target set by hand', () => {
  test('scales the use and keeps the reserve', () => {
    expect(wantedByHand(50, { useByWeek: [10, 10], reserveUnits: 5 })).toEqual({
      reserveUnits: 5,
      useByWeek: [22.5, 22.5],
    });
  });

  test('is met too when hardly any use is expected, down to the smallest number there is', () => {
    const wanted = wantedByHand(1, { reserveUnits: 4.999999999588667e-7, useByWeek: [Number.MIN_VALUE] });

    expect(wanted.useByWeek[0]).toBe(1 - 4.999999999588667e-7);
  });

  test('is met exactly, whatever was expected', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 500 }),
        fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { minLength: 1, maxLength: 52 }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (target, useByWeek, reserveUnits) => {
          const wanted = wantedByHand(target, { useByWeek, reserveUnits });

          const total = wanted.useByWeek.reduce((sum, units) => sum + units, 0) + wanted.reserveUnits;
          expect(total).toBeCloseTo(target, 6);
          expect(Math.min(...wanted.useByWeek, wanted.reserveUnits)).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });
});
