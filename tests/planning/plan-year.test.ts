import { describe, expect, it } from 'vitest';
import { planYear } from '../../server/solver/plan-year.ts';
import { asCents } from '../../shared/money.ts';
import type { Plan } from '../../src/planning/plan.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';

describe('the plan of a household year', () => {
  it.each([
    { what: 'a plain year', seed: 1, preserves: 6, staples: 4 },
    { what: 'a plain year', seed: 2, preserves: 8, staples: 6 },
    { what: 'too little money', seed: 3, preserves: 8, staples: 6, fundShare: 0.6 },
    { what: 'everything in it', seed: 4, preserves: 9, staples: 3, rich: true },
    { what: 'everything in it', seed: 5, preserves: 12, staples: 3, rich: true },
  ])(
    'can be carried out as printed: $preserves preserves, $staples staples, seed $seed, $what',
    async ({ what: _, ...size }) => {
      const year = generatedHousehold(size);

      const answer = await planYear(year, { gap: 0.02, secondsLimit: 20 });

      expect(answer.outcome).toBe('planned');
      if (answer.outcome !== 'planned') return;
      expect(checkPlan(answer.plan, year)).toEqual([]);
    },
  );

  it('uses what waits and what is frozen', async () => {
    const year = generatedHousehold({ seed: 5, preserves: 12, staples: 3, rich: true });

    const answer = await planYear(year, { gap: 0.03, secondsLimit: 20 });

    const moves = answer.outcome === 'planned' ? answer.plan.weeks.flatMap(({ materials }) => materials) : [];
    expect(moves.some(({ freeze }) => freeze > 0)).toBe(true);
    expect(moves.some(({ thaw }) => thaw > 0)).toBe(true);
    expect(moves.some(({ waiting }) => waiting > 0)).toBe(true);
  });
});

describe('the independent checker', () => {
  it('finds each thing that is changed in a printed plan', async () => {
    const year = generatedHousehold({ seed: 2, preserves: 6, staples: 3 });
    const answer = await planYear(year, { gap: 0.05, secondsLimit: 20 });
    if (answer.outcome !== 'planned') throw new Error(answer.detail);
    const { plan } = answer;
    const busy = plan.weeks.findIndex(({ sessions }) => sessions.length > 0);
    const withWeek = (change: (week: Plan['weeks'][number]) => Plan['weeks'][number]): Plan => ({
      ...plan,
      weeks: plan.weeks.map((week, at) => (at === busy ? change(week) : week)),
    });
    const first = (week: Plan['weeks'][number]) => week.sessions[0] ?? ('' as never);

    const spoilt = [
      withWeek((week) => ({ ...week, kitchenMinutes: week.kitchenMinutes - 1 })),
      withWeek((week) => ({ ...week, kitchenSessions: 0 })),
      withWeek((week) => ({ ...week, spend: asCents(week.spend + 1) })),
      withWeek((week) => ({ ...week, fundAfter: asCents(week.fundAfter - 1) })),
      withWeek((week) => ({
        ...week,
        sessions: [{ ...first(week), batches: first(week).batches + 1 }, ...week.sessions.slice(1)],
      })),
      withWeek((week) => ({ ...week, sessions: [{ ...first(week), loads: 0 }, ...week.sessions.slice(1)] })),
      withWeek((week) => ({ ...week, purchases: week.purchases.filter(({ kind }) => kind !== 'produce') })),
      { ...plan, gap: plan.gap + 0.001 },
      { ...plan, weeks: plan.weeks.slice(1) },
      {
        ...plan,
        weeks: plan.weeks.map((week, at) =>
          at < 5 ? { ...week, sessions: plan.weeks[busy]?.sessions ?? [] } : week,
        ),
      },
    ];

    expect(checkPlan(plan, year)).toEqual([]);
    for (const wrong of spoilt) expect(checkPlan(wrong, year)).not.toEqual([]);
  });
});
