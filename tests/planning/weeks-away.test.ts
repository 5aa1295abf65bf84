import { describe, expect, it } from 'vitest';
import { planYear } from '../../server/solver/plan-year.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';

/** The year with nobody at home in some weeks: no session, nothing to pick. */
function awayIn(year: PlanningYear, weeks: readonly number[]): PlanningYear {
  const unlessAway = (byWeek: readonly number[]) =>
    byWeek.map((value, week) => (weeks.includes(week) ? 0 : value));
  return {
    ...year,
    sources: year.sources.map((source) => ({ ...source, lbByWeek: unlessAway(source.lbByWeek) })),
    time: {
      ...year.time,
      maxSessionsByWeek: unlessAway(year.time.maxSessionsByWeek),
      awayByWeek: year.weeks.map((_, week) => weeks.includes(week)),
    },
  };
}

describe('while nobody is at home', () => {
  it.each([
    { seed: 1, what: 'a week now and again' },
    { seed: 4, what: 'everything in it' },
  ])(
    'nothing is bought, picked or canned, and the plan can be carried out as printed ($what, seed $seed)',
    async ({ seed }) => {
      const usual = generatedHousehold({ seed, preserves: 6, staples: 4 });
      const there = await planYear(usual, { gap: 0.02, secondsLimit: 20 });
      if (there.outcome !== 'planned') throw new Error(there.detail);
      // The weeks in which most would be bought, and two in a row after the first.
      const busiest = there.plan.weeks
        .map(({ purchases }, week) => ({ week, lines: purchases.length }))
        .sort((one, other) => other.lines - one.lines)
        .slice(0, 4)
        .map(({ week }) => week);
      const year = awayIn(usual, [...busiest, (busiest[0] ?? 0) + 1]);

      const answer = await planYear(year, { gap: 0.02, secondsLimit: 20 });

      expect(answer.outcome).toBe('planned');
      if (answer.outcome !== 'planned') return;
      expect(checkPlan(answer.plan, year)).toEqual([]);
      expect(checkPlan(there.plan, year).some((wrong) => wrong.includes('while nobody is at home'))).toBe(
        true,
      );
    },
  );
});
