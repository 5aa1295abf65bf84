import { describe, expect, test } from 'vitest';
import type { AfterYear } from '../../../src/planning/planning-year.ts';
import { weeksToSupply } from '../../../src/planning/simulation/weeks-to-supply.ts';

const drawing = (...numbers: readonly number[]) => {
  let at = 0;
  return () => {
    const next = numbers[at] ?? Number.NaN;
    at += 1;
    return next;
  };
};
/** What Box and Muller make a normal number of so much from. */
const normal = (size: number): readonly [number, number] => [
  1 - Math.exp(-(size ** 2) / 2),
  size < 0 ? 0.5 : 0,
];
const seasons = (change: Partial<AfterYear> = {}): { readonly afterYear: AfterYear } => ({
  afterYear: { useByWeek: [], seasonWeeks: [10, 62], isRunning: false, failsChance: 0.2, ...change },
});
const weeks = (of: Parameters<typeof weeksToSupply>[0], windowWeeks: number, ...draws: readonly number[]) =>
  weeksToSupply(of, { windowWeeks }, drawing(...draws));

describe('weeks from the year’s end until something new comes', () => {
  test('are none of what can be had any week', () => {
    expect(weeks({}, 1)).toBe(0);
  });

  test('are those to the first season that does not fail, early or late in whole weeks', () => {
    expect(weeks(seasons(), 2, ...normal(1.3), 0.2)).toBe(13);
    expect(weeks(seasons(), 2, ...normal(-0.7), 0.9)).toBe(9);
    expect(weeks(seasons(), 0, ...normal(-3), 0.9)).toBe(10);
  });

  test('are those to the season after, each with a delay of its own, where the first fails', () => {
    expect(weeks(seasons(), 2, ...normal(1.3), 0.199, ...normal(0.5), 0.2)).toBe(63);
  });

  test('never end where all fail', () => {
    expect(weeks(seasons(), 1, ...normal(0), 0, ...normal(0), 0.1)).toBe(Number.POSITIVE_INFINITY);
    expect(weeks(seasons({ seasonWeeks: [] }), 1)).toBe(Number.POSITIVE_INFINITY);
  });

  test('are not below none, however early a season is', () => {
    expect(weeks(seasons({ seasonWeeks: [1] }), 1, ...normal(-2), 0.5)).toBe(0);
  });

  test('are as known of a season that runs on from the year: neither late nor failing', () => {
    expect(weeks(seasons({ isRunning: true, seasonWeeks: [3, 50], failsChance: 1 }), 5)).toBe(3);
    expect(weeks(seasons({ isRunning: true, seasonWeeks: [] }), 5)).toBe(0);
  });
});
