import { beforeAll, describe, expect, it } from 'vitest';
import { planYear } from '../../server/solver/plan-year.ts';
import type { KitchenHours } from '../../src/household/kitchen.ts';
import { sessionDays } from '../../src/planning/days/week-sessions.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';

import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';

// A by-product closes in every week: what one batch takes, others have left in time. Each way of breaking it is tried in every
// week it can be broken in, and has to be caught.

const waits = (
  year: PlanningYear,
  keepsDaysCold: number,
  keepsMonthsFrozen: number | null,
): PlanningYear => ({
  ...year,
  materials: year.materials.map((material) => ({
    ...material,
    opening: 0,
    keepsDaysCold,
    keepsMonthsFrozen,
  })),
});

const hours: KitchenHours = {
  sessionsPerWeek: 3,
  hoursPerSession: 6,
  setUpMinutes: 30,
  stoveBurners: 4,
  sessionWeekday: 6,
  weeks: [],
};

const rich = (seed: number) => generatedHousehold({ seed, preserves: 9, staples: 2, rich: true });

describe.each([
  ['keeps three days', () => waits(rich(5), 3, null)],
  ['keeps two weeks', () => waits(rich(11), 14, null)],
  ['is frozen where it waits', () => waits(rich(5), 3, 8)],
])('a by-product that %s', (_, yearOf) => {
  const year = yearOf();
  const takes = new Set<string>(year.recipes.filter(({ uses }) => uses.length > 0).map(({ id }) => id));
  let plan: Plan;
  beforeAll(async () => {
    const answer = await planYear(year, { gap: 0.05, secondsLimit: 20 });
    if (answer.outcome !== 'planned') throw new Error(answer.detail);
    plan = answer.plan;
  });
  const weeksTaking = () =>
    plan.weeks.flatMap(({ sessions }, at) => (sessions.some(({ recipe }) => takes.has(recipe)) ? [at] : []));
  const caught = (broken: Plan, of: PlanningYear = year) =>
    checkPlan(broken, of).filter((words) => /batches take .* others left|shares a by-product/.test(words));

  it('is taken, and closes in every week', () => {
    expect(weeksTaking().length).toBeGreaterThan(0);
    expect(checkPlan(plan, year)).toEqual([]);
  });

  it('is missed in every week from which whoever left it is taken out', () => {
    for (const at of weeksTaking()) {
      const without = {
        ...plan,
        weeks: plan.weeks.map((week, own) =>
          own > at
            ? week
            : {
                ...week,
                sessions: week.sessions.filter(({ recipe }) => takes.has(recipe) || !gives(recipe)),
              },
        ),
      };
      expect(caught(without), `week ${at}`).not.toEqual([]);
    }
  });

  it('is missed in every week in which more is taken', () => {
    for (const at of weeksTaking()) {
      const more = {
        ...plan,
        weeks: plan.weeks.map((week, own) =>
          own !== at
            ? week
            : {
                ...week,
                sessions: week.sessions.map((session) =>
                  takes.has(session.recipe) ? { ...session, batches: session.batches + 50 } : session,
                ),
              },
        ),
      };
      expect(caught(more), `week ${at}`).not.toEqual([]);
    }
  });

  it('is missed where batches leave half of it', () => {
    const half = {
      ...year,
      recipes: year.recipes.map((recipe) => ({
        ...recipe,
        gives: recipe.gives.map((part) => ({ ...part, quantity: part.quantity / 20 })),
      })),
    };

    expect(caught(plan, half)).not.toEqual([]);
  });

  it('is worked up on the day on which it is left', () => {
    const shared = plan.weeks.filter(({ sessions }) => sessions.some(({ recipe }) => takes.has(recipe)));
    for (const week of shared) {
      const days = sessionDays(week, [], hours, 'monday');
      const usual = days.filter(({ work }) =>
        work.some(({ recipeId }) => takes.has(recipeId) || (gives(recipeId) && sharesIn(week, recipeId))),
      );
      expect(usual).toHaveLength(1);
      const apart = {
        ...plan,
        weeks: plan.weeks.map((one) =>
          one.week !== week.week
            ? one
            : { ...one, sessions: one.sessions.map(({ sharesByProduct: _shares, ...session }) => session) },
        ),
      };
      expect(caught(apart), week.week).not.toEqual([]);
    }
  });

  const gives = (recipe: string) =>
    year.recipes.some(({ id, gives: parts }) => id === recipe && parts.length > 0);
  const sharesIn = ({ sessions }: Plan['weeks'][number], recipe: string) =>
    sessions.some((session) => session.recipe === recipe && session.sharesByProduct === true);
});
