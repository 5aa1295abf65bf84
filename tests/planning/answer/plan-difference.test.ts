import { describe, expect, test } from 'vitest';
import { planDifference } from '../../../src/planning/answer/plan-difference.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import { type InWeek, planOf } from '../short-plan.ts';
import { shortYear } from '../short-year.ts';

const year = shortYear(3);
const batches = (...sessions: readonly (readonly [recipe: string, count: number])[]): InWeek => ({
  sessions: sessions.map(([recipe, batches]) => ({ recipe, batches })),
});
const minutes = (plan: Plan, ...byWeek: readonly number[]): Plan => ({
  ...plan,
  weeks: plan.weeks.map((week, at) => ({ ...week, kitchenMinutes: byWeek[at] ?? 0 })),
});

describe('what one plan does otherwise than another', () => {
  test('is nothing of the same plan', () => {
    const plan = minutes(planOf(year, { 1: { ...batches(['jam', 2]), spend: 500 } }), 0, 60);

    expect(planDifference(plan, plan)).toEqual({ batches: [], spend: 0, kitchenMinutes: 0 });
  });

  test('is batches more, fewer, added and left out, by week and then by recipe', () => {
    const before = planOf(year, { 0: batches(['jam', 2], ['cider', 1]), 2: batches(['soup', 3]) });
    const after = planOf(year, {
      0: batches(['jam', 5], ['beans', 1], ['cider', 1]),
      1: batches(['soup', 3]),
    });

    expect(planDifference(before, after).batches).toEqual([
      { week: '2027-W01', recipe: 'beans', before: 0, after: 1 },
      { week: '2027-W01', recipe: 'jam', before: 2, after: 5 },
      { week: '2027-W02', recipe: 'soup', before: 0, after: 3 },
      { week: '2027-W03', recipe: 'soup', before: 3, after: 0 },
    ]);
  });

  test('counts sessions of one recipe in a week together', () => {
    const before = planOf(year, { 1: batches(['jam', 2], ['jam', 1]) });

    expect(planDifference(before, planOf(year, { 1: batches(['jam', 3]) })).batches).toEqual([]);
    expect(planDifference(before, planOf(year, { 1: batches(['jam', 2], ['jam', 2]) })).batches).toEqual([
      { week: '2027-W02', recipe: 'jam', before: 3, after: 4 },
    ]);
  });

  test('is what is spent and worked more over the year, less where it is less', () => {
    const before = minutes(planOf(year, { 0: { spend: 500 }, 2: { spend: 300 } }), 60, 30, 0);
    const after = minutes(planOf(year, { 1: { spend: 1000 } }), 0, 0, 45);

    expect(planDifference(before, after)).toMatchObject({ spend: 200, kitchenMinutes: -45 });
  });
});
