import { afterAll, describe, expect, it } from 'vitest';
import { closePlanner, planYear } from '../../server/solver/plan-year.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';

afterAll(closePlanner);

describe('the plan of a household year', () => {
  it.each([
    { seed: 1, preserves: 6, staples: 4 },
    { seed: 2, preserves: 8, staples: 6 },
    { seed: 3, preserves: 8, staples: 6, fundShare: 0.6 },
  ])('can be carried out as printed: $preserves preserves, $staples staples, seed $seed', async (size) => {
    const year = generatedHousehold(size);

    const answer = await planYear(year, { gap: 0.02, secondsLimit: 20 });

    expect(answer.outcome).toBe('planned');
    if (answer.outcome !== 'planned') return;
    expect(checkPlan(answer.plan, year)).toEqual([]);
  });
});
