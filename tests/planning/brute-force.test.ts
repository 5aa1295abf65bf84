import { afterAll, describe, expect, it } from 'vitest';
import { openHighsSolver } from '../../server/solver/highs-solver.ts';
import { buildModel, canningStage } from '../../src/planning/build-model.ts';
import { householdRules } from '../../src/planning/rules.ts';
import { cheapestByTrying } from './brute-force.ts';
import { tinyYear } from './tiny-year.ts';

const solver = openHighsSolver();
afterAll(() => solver.close());

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
        const answer = await solver.solve(built.model, { gap: 0 });
        const tried = cheapestByTrying(year, { ...built.prices, ...rules });
        if (tried.batches.flat().filter((count) => count > 0).length > 1) severalBatches += 1;
        if (answer.status !== 'solved') disagreements.push(`seed ${seed}: ${answer.status}`);
        else if (Math.abs(answer.objective - tried.cost) > 0.01 + 1e-6 * tried.cost)
          disagreements.push(`seed ${seed}: solver ${answer.objective}, tried ${tried.cost}`);
      }

      expect(disagreements).toEqual([]);
      expect(severalBatches).toBeGreaterThan(80);
    },
    180_000,
  );

  it('never claims a bound above the cheapest week-by-week plan when weeks are joined', async () => {
    for (let seed = 501; seed <= 540; seed += 1) {
      const year = tinyYear(seed);
      const joined = await solver.solve(buildModel(year, canningStage, rules).model, { gap: 0 });
      const tried = cheapestByTrying(year, { ...buildModel(year, weekByWeek, rules).prices, ...rules });

      expect(joined.status === 'solved' ? joined.bound : Number.NaN).toBeLessThanOrEqual(tried.cost + 0.01);
    }
  });
});
