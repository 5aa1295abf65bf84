import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openUnits } from '../../src/shelf/open-units.ts';

test('one jar a week that stands two weeks: one is open, then two', () => {
  expect(openUnits([1, 1, 1], { finishDays: 14, keepColdDays: 30 })).toEqual([1, 2, 2]);
});

test('the keep-cold limit ends a jar that is eaten slowly', () => {
  expect(openUnits([2, 2], { finishDays: 60, keepColdDays: 3.5 })).toEqual([1, 1]);
});

test('what is eaten at once stands open no time', () => {
  expect(openUnits([3, 1], { finishDays: 0, keepColdDays: null })).toEqual([0, 0]);
});

// Little's law, J. D. C. Little (1961): in a steady state the number open is the rate of opening times the time open.
test('in a steady state as many are open as are taken in the days one stands', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 9, noNaN: true }),
      fc.integer({ min: 0, max: 60 }),
      (perWeek, days) => {
        const open = openUnits(
          Array.from({ length: 12 }, () => perWeek),
          { finishDays: days, keepColdDays: null },
        );

        expect(open.at(-1)).toBeCloseTo((perWeek / 7) * days, 9);
      },
    ),
  );
});

test('fewer than no days is an error', () => {
  expect(() => openUnits([1], { finishDays: -1, keepColdDays: null })).toThrow(
    'openUnits: expected 0 or more days, got -1',
  );
});
