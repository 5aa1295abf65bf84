import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { makePlan } from '../../src/planning/make-plan.ts';
import { buildModel, canningStage } from '../../src/planning/model/build-model.ts';
import { householdRules } from '../../src/planning/model/rules.ts';
import { cheapestByTrying } from './brute-force.ts';
import { checkPlan } from './independent-checker.ts';
import { stagedYear } from './staged-year.ts';
import { tinyYear } from './tiny-year.ts';

const rules = { ...householdRules, keepingCentsPerUnitWeek: 0 };
const weekByWeek = { ...canningStage, joinedWeeks: false };

describe('the planner against every plan there is', () => {
  it.each([1, 126, 251, 376])(
    'finds the cheapest plan of the 125 tiny years from seed %i: by-products, jars, groups and best quality included',
    async (first) => {
      const disagreements: string[] = [];
      let severalBatches = 0;
      for (let seed = first; seed < first + 125; seed += 1) {
        const year = tinyYear(seed);
        const built = buildModel(year, weekByWeek, rules);
        const answer = await solveInBackground(built.model, { gap: 0 });
        const tried = cheapestByTrying(year, { ...built.prices, ...rules });
        if (tried.batches.flat().filter((count) => count > 0).length > 1) severalBatches += 1;
        if (answer.status !== 'solved') disagreements.push(`seed ${seed}: ${answer.status}`);
        else if (Math.abs(answer.objective - tried.cost) > 0.01 + 1e-6 * tried.cost)
          disagreements.push(`seed ${seed}: solver ${answer.objective}, tried ${tried.cost}`);
      }

      expect(disagreements).toEqual([]);
      expect(severalBatches).toBeGreaterThan(80);
    },
  );

  it('never claims a bound above the cheapest week-by-week plan when weeks are joined', async () => {
    for (let seed = 501; seed <= 540; seed += 1) {
      const year = tinyYear(seed);
      const joined = await solveInBackground(buildModel(year, canningStage, rules).model, { gap: 0 });
      const tried = cheapestByTrying(year, { ...buildModel(year, weekByWeek, rules).prices, ...rules });

      expect(joined.status === 'solved' ? joined.bound : Number.NaN).toBeLessThanOrEqual(tried.cost + 0.01);
    }
  });
});

describe('recipes of several days', () => {
  it.each([2001, 2076])(
    'finds the cheapest plan of the 75 tiny years from seed %i in which batches are begun up to five weeks before their load',
    async (first) => {
      const disagreements: string[] = [];
      const loadedLater = new Map<number, number>();
      let begunLoaded = 0;
      for (let seed = first; seed < first + 75; seed += 1) {
        const year = stagedYear(seed);
        const built = buildModel(year, weekByWeek, rules);
        const answer = await solveInBackground(built.model, { gap: 0 });
        const tried = cheapestByTrying(year, { ...built.prices, ...rules });
        tried.batches.forEach((weeks, at) => {
          const batches = weeks.reduce((sum, count) => sum + count, 0);
          const stageWeeks = year.recipes[at]?.stages?.weeks;
          if (stageWeeks === undefined) begunLoaded += batches;
          else loadedLater.set(stageWeeks, (loadedLater.get(stageWeeks) ?? 0) + batches);
        });
        if (answer.status !== 'solved') disagreements.push(`seed ${seed}: ${answer.status}`);
        else if (Math.abs(answer.objective - tried.cost) > 0.01 + 1e-6 * tried.cost)
          disagreements.push(`seed ${seed}: solver ${answer.objective}, tried ${tried.cost}`);
      }

      expect(disagreements).toEqual([]);
      for (const weeks of [0, 1, 2, 5]) expect(loadedLater.get(weeks) ?? 0).toBeGreaterThan(10);
      expect(begunLoaded).toBeGreaterThan(10);
    },
  );

  it('every plan printed for such a year can be carried out as printed', async () => {
    const wrong: string[] = [];
    for (let seed = 2201; seed <= 2240; seed += 1) {
      const year = stagedYear(seed);
      const answer = await makePlan(year, solveInBackground, { gap: 0 });
      if (answer.outcome !== 'planned') wrong.push(`seed ${seed}: ${answer.outcome}`);
      else wrong.push(...checkPlan(answer.plan, year).map((words) => `seed ${seed}: ${words}`));
    }

    expect(wrong).toEqual([]);
  });

  it('a recipe whose stages fit its own week is planned as one that has none', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const year = tinyYear(seed);
      const within = {
        ...year,
        recipes: year.recipes.map((recipe) => ({
          ...recipe,
          stages: {
            weeks: 0,
            daysFromMonday: 0,
            handsOnByWeek: [recipe.handsOnMinutes],
            possibleByWeek: null,
          },
        })),
      };

      expect(buildModel(within).model).toEqual(buildModel(year).model);
    }
  });
});
