import { describe, expect, test } from 'vitest';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { itemGaps } from '../../../src/planning/year/item-gaps.ts';
import { largeWords, noPlanInTimeWords, tooLargeWords } from '../../../src/planning/year/planner-size.ts';
import type { ProjectedWeek, ShelfProjection } from '../../../src/shelf/shelf-projection.ts';

const yearOf = (items: number, recipes: number) =>
  ({
    items: Array.from({ length: items }, () => ({})),
    recipes: Array.from({ length: recipes }, () => ({})),
  }) as unknown as PlanningYear;

// 280 things and 160 recipes were measured to be planned in time; things times recipes are 44,800.
describe('a year that is large', () => {
  test('is told so from one thing times recipes more than was measured', () => {
    expect(largeWords(yearOf(280, 160))).toBeNull();
    expect(largeWords(yearOf(281, 160))).toBe(
      'This household is large (281 things and 160 recipes): it may take minutes, and it may be that no plan is found.',
    );
    expect(largeWords(yearOf(44_801, 1))).toContain('(44801 things and 1 recipe)');
  });

  test('is not planned at all beyond 120,000', () => {
    expect(tooLargeWords(yearOf(400, 300))).toBeNull();
    expect(tooLargeWords(yearOf(401, 300))).toBe(
      'This household keeps 401 things and 300 recipes, more than can be planned together (things times recipes: 120300, at most 120000), so no plan was begun. Retire what you no longer keep or make, then plan again.',
    );
  });

  test('without a plan in time is told what helps, by its size', () => {
    expect(noPlanInTimeWords(yearOf(10, 10))).toBe(
      'No plan was found in the time allowed. Plan again; if it happens twice, take back some pinned batches.',
    );
    expect(noPlanInTimeWords(yearOf(300, 160))).toBe(
      'No plan was found in the time allowed: this household is large (300 things and 160 recipes). Retire what you no longer keep or make, then plan again.',
    );
  });
});

describe('when an item likely has none', () => {
  /** Weeks from 2026-W32 on, what stands at the end of each. */
  const ahead = (...closing: readonly number[]) =>
    ({
      weeks: closing.map(
        (p50, at) =>
          ({
            week: `2026-W${32 + at}`,
            in: 0,
            unmet: p50 > 0 ? 0 : 1,
            closing: { p10: p50, p50, p90: p50 },
          }) as unknown as ProjectedWeek,
      ),
    }) as unknown as ShelfProjection;
  const gaps = (isPlanned: boolean, next: string | null, ...closing: readonly number[]) =>
    itemGaps(ahead(...closing), isPlanned, next as never);

  test('nothing is known of what nobody eats', () => {
    expect(itemGaps(null, false, null)).toEqual([]);
    expect(itemGaps(null, false, '2026-W40' as never)).toEqual([]);
  });

  test('under a plan it has none until the plan brings more, whenever more could be had', () => {
    expect(gaps(true, '2026-W34', 2, 0, 0, 0, 3)).toEqual([{ from: 1, until: 4 }]);
  });

  test('without one, until it can be had again', () => {
    expect(gaps(false, '2026-W35', 2, 0, 0, 0, 0)).toEqual([{ from: 1, until: 3 }]);
    expect(gaps(false, null, 2, 0, 0, 0, 0)).toEqual([{ from: 1, until: 5 }]);
    expect(gaps(false, '2027-W40', 2, 0, 0, 0, 0)).toEqual([{ from: 1, until: 5 }]);
  });

  test('none where it can be had the week after it is gone, or before', () => {
    expect(gaps(false, '2026-W34', 2, 0, 0, 0, 0)).toEqual([]);
    expect(gaps(false, '2026-W33', 2, 0, 0, 0, 0)).toEqual([]);
    expect(gaps(false, '2026-W30', 0, 0, 0, 0, 0)).toEqual([]);
  });
});
