import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import type { PlannedSource } from '../../../src/planning/planning-year.ts';
import { harvestsOf } from '../../../src/planning/simulation/harvest-year.ts';
import { planOf } from '../short-plan.ts';
import { shortYear, sourceOf } from '../short-year.ts';

/** Draws in the order given; Box and Muller's pair (0, x) is a normal number of 0. */
const drawing = (...numbers: readonly number[]) => {
  let at = 0;
  return () => {
    const next = numbers[at] ?? 0;
    at += 1;
    return next;
  };
};
/** A normal number of `size` (0 or more): from `1 - random = exp(-size² / 2)` and a cosine of 1; below 0 with a cosine of -1. */
const normal = (size: number): readonly number[] => [1 - Math.exp(-(size ** 2) / 2), size < 0 ? 0.5 : 0];
const none = { harvest: 0, windowWeeks: 0, use: 0 };
const cents = (...prices: readonly number[]) => prices.map(asCents);
const crop = (name: string) => name as PlannedSource['crop'];
const lines = (...bought: readonly (readonly [source: string, lb: number])[]) => ({
  purchases: bought.map(([what, quantity]) => ({ kind: 'produce' as const, what, quantity })),
});

describe('a source of a sampled year', () => {
  // A source of 100 lb a week, poor in three years of ten, when it gives a quarter.
  const year = shortYear(2, {
    sources: [sourceOf('tree', { poorYearChance: 0.3, poorYearShare: 0.25, fallBack: 'do-without' })],
  });
  const plan = planOf(year, { 0: lines(['tree', 50]), 1: lines(['tree', 20]) });

  test.each([
    [0.29, 0.5, 1],
    [0.3, 1, 1],
  ])('is poor below its chance: at %d', (draw, first, second) => {
    const { shareOf } = harvestsOf(year, plan, none)(drawing(draw));

    expect(shareOf('plum', 0)).toBe(first);
    expect(shareOf('plum', 1)).toBe(second);
  });

  test('varies around its usual year as a log-normal number of mean one, whether more or less', () => {
    // Of a coefficient of variation of 1 the logarithm has variance ln 2.
    const wide = { ...none, harvest: 1 };
    const all = planOf(year, { 0: lines(['tree', 100]) });
    const share = (size: number) =>
      harvestsOf(year, all, wide)(drawing(0.9, ...normal(size))).shareOf('plum', 0);

    expect(share(0)).toBeCloseTo(Math.exp(-Math.log(2) / 2), 9);
    expect(share(-1)).toBeCloseTo(Math.exp(-Math.sqrt(Math.log(2)) - Math.log(2) / 2), 9);
    expect(share(3)).toBe(1);
  });

  test('gives no more than is planned, and says so for its own crop', () => {
    const two = shortYear(1, {
      sources: [
        sourceOf('tree', { fallBack: 'do-without', poorYearChance: 1, poorYearShare: 0.2 }),
        sourceOf('bush', { crop: crop('berry'), fallBack: 'do-without' }),
      ],
    });
    const { shareOf, extraCents } = harvestsOf(
      two,
      planOf(two, { 0: lines(['tree', 40], ['bush', 40]) }),
      none,
    )(drawing());

    expect(shareOf('plum', 0)).toBe(0.5);
    expect(shareOf('berry', 0)).toBe(1);
    // Twenty pounds at a dollar were not there to be bought.
    expect(extraCents).toBe(-2000);
  });

  test('of one crop counts with the others of it, line by line', () => {
    const two = shortYear(2, {
      sources: [
        sourceOf('near', { poorYearChance: 1, poorYearShare: 0.1, fallBack: 'do-without' }),
        sourceOf('far', { fallBack: 'do-without' }),
      ],
    });
    const plan = planOf(two, { 0: lines(['near', 30], ['far', 10], ['near', 0]), 1: lines(['near', 5]) });
    const { shareOf } = harvestsOf(two, plan, none)(drawing());

    // Ten of thirty and ten of ten.
    expect(shareOf('plum', 0)).toBe(0.5);
    expect(shareOf('plum', 1)).toBe(1);
  });
});

describe('what a poor crop costs', () => {
  const year = shortYear(2, {
    sources: [
      sourceOf('tree', {
        poorYearChance: 1,
        poorYearShare: 0,
        priceCentsPerLbByWeek: cents(50, 80),
      }),
      sourceOf('stall', { lbByWeek: [0, 0], priceCentsPerLbByWeek: cents(150, 210), fallBack: 'do-without' }),
      sourceOf('bush', { crop: crop('berry'), priceCentsPerLbByWeek: cents(900, 900) }),
    ],
  });

  test('is bought at the dearest price of the crop in any week, less what was planned for it', () => {
    const plan = planOf(year, { 0: lines(['tree', 10]), 1: lines(['tree', 4]) });
    const { extraCents, shareOf } = harvestsOf(year, plan, none)(drawing());

    expect(extraCents).toBe(10 * (210 - 50) + 4 * (210 - 80));
    expect(shareOf('plum', 0)).toBe(1);
  });

  test.each(['substitute', 'do-without'] as const)('is saved where one would %s', (fallBack) => {
    const without = {
      ...year,
      sources: year.sources.map((source) => (source.id === 'tree' ? { ...source, fallBack } : source)),
    };
    const { extraCents, shareOf } = harvestsOf(
      without,
      planOf(without, { 0: lines(['tree', 10]) }),
      none,
    )(drawing());

    expect(extraCents).toBe(-500);
    expect(shareOf('plum', 0)).toBe(0);
  });

  test('is nothing where all of it came, and nothing of what is no crop or of no source here', () => {
    const full = shortYear(1, { sources: [sourceOf('tree', { fallBack: 'do-without' })] });
    const plan = planOf(full, {
      0: {
        purchases: [
          { kind: 'produce', what: 'tree', quantity: 10 },
          { kind: 'item', what: 'tree', quantity: 900 },
          { kind: 'produce', what: 'gone', quantity: 900 },
        ],
      },
    });

    const { extraCents, shareOf } = harvestsOf(full, plan, none)(drawing());

    expect(extraCents).toBe(0);
    expect(shareOf('plum', 0)).toBe(1);
  });
});

describe('a week without picking', () => {
  const year = shortYear(4, {
    sources: [
      sourceOf('tree', { fallBack: 'do-without', lbByWeek: [10, 40, 0, 0] }),
      sourceOf('bush', { crop: crop('berry') }),
    ],
  });
  const plan = planOf(year, { 0: lines(['tree', 20]), 2: lines(['tree', 20]) });

  test('uses the share of all that came so far; all of it before any was to come', () => {
    const { shareOf } = harvestsOf(year, plan, none)(drawing());

    // Half of twenty; half of it still; nothing of twenty; ten of forty.
    expect([0, 1, 2, 3].map((week) => shareOf('plum', week))).toEqual([0.5, 0.5, 0, 0.25]);
    expect([0, 1, 2, 3].map((week) => shareOf('berry', week))).toEqual([1, 1, 1, 1]);
  });

  test('of a crop without a source is as planned', () => {
    const { shareOf, weeksLater } = harvestsOf(year, plan, none)(drawing());

    expect(shareOf('peach', 3)).toBe(1);
    expect(weeksLater('peach')).toBe(0);
  });

  test('beyond the year is a mistake that is said', () => {
    expect(() => harvestsOf(year, plan, none)(drawing()).shareOf('plum', 4)).toThrow('byWeek');
  });
});

describe('when a crop ripens', () => {
  const year = shortYear(1, {
    sources: [sourceOf('near'), sourceOf('far'), sourceOf('bush', { crop: crop('berry') })],
  });

  test('is drawn once for each crop, whatever the order of its sources, in whole weeks', () => {
    // Poor or not and how much of three sources, then berries before plums.
    const sources = [0.9, 0, 0, 0.9, 0, 0, 0.9, 0, 0];
    const { weeksLater } = harvestsOf(year, planOf(year), { ...none, windowWeeks: 2 })(
      drawing(...sources, ...normal(1.3), ...normal(-0.7)),
    );

    expect(weeksLater('berry')).toBe(3);
    expect(weeksLater('plum')).toBe(-1);
  });
});
