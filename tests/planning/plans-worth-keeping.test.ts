import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, addMonths, asDate } from '../../shared/week.ts';
import { plansWorthKeeping } from '../../src/planning/plans-worth-keeping.ts';

const start = asDate('2026-11-28');
/** A plan so many days before the newest; the first is the newest. */
const plans = (...daysAgo: readonly number[]) =>
  daysAgo.map((days, at) => ({ id: `${at}`, asOf: addDays(start, -days) }));
const kept = (...daysAgo: readonly number[]) =>
  [...plansWorthKeeping(plans(...daysAgo))].map(Number).toSorted((one, other) => one - other);

describe('plans worth keeping', () => {
  test('are the newest three, whenever they were made', () => {
    expect(kept(0, 0, 0, 0)).toEqual([0, 1, 2, 3]);
    expect(kept(0, 0, 0, 0, 0, 0)).toEqual([0, 1, 2, 5]);
    expect(kept(0, 400, 800)).toEqual([0, 1, 2]);
    expect(plansWorthKeeping([]).size).toBe(0);
  });

  test('are the last one of each of the last ten days, and the first one of each month before', () => {
    // Nov 28, 28, 28, 27, 27, 19, 18, 17; Oct 30, Oct 2; one of thirteen months ago, and one of longer ago.
    expect(kept(0, 0, 0, 1, 1, 9, 10, 11, 29, 57, 390, 400)).toEqual([0, 1, 2, 3, 5, 7, 9, 10]);
  });

  test('never lose the plan that a day of the last week was begun with, nor the oldest of the year; a year of replanning leaves few', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 380 }), { minLength: 1, maxLength: 500 }), (daysAgo) => {
        const all = plans(...daysAgo.toSorted((one, other) => one - other));
        const [newest] = all;
        const left = plansWorthKeeping(all);
        for (const days of [1, 2, 5, 8]) {
          const day = addDays(newest?.asOf ?? start, -days);
          const asked = all.find(({ asOf }) => asOf <= day);
          if (asked !== undefined && asked.asOf > addDays(newest?.asOf ?? start, -10))
            expect(left.has(asked.id)).toBe(true);
        }
        const oldest = all.findLast(({ asOf }) => asOf > addMonths(newest?.asOf ?? start, -13));
        expect(left.has(oldest?.id ?? '')).toBe(true);
        expect(left.size).toBeLessThanOrEqual(3 + 10 + 14);
      }),
    );
  });
});
