import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { asCents } from '../../shared/money.ts';
import { makePlan } from '../../src/planning/make-plan.ts';
import { buildModel, canningStage } from '../../src/planning/model/build-model.ts';
import { objectiveOf, violations } from '../../src/planning/model/model.ts';
import { wishPrices } from '../../src/planning/model/prices.ts';
import { householdRules } from '../../src/planning/model/rules.ts';
import { planningSets } from '../../src/planning/model/sets.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import type { SolveFailure } from '../../src/planning/solving/solving.ts';
import { jamRecipe, plumYear } from './plum-year.ts';
import { tinyYear } from './tiny-year.ts';

const seeds = [601, 602, 603, 604, 605, 606, 607, 608];

async function leastCost(year: PlanningYear, prices = buildModel(year).prices): Promise<number> {
  const built = buildModel(year, canningStage);
  expect(built.prices).toEqual(prices);
  const answer = await solveInBackground(built.model, { gap: 0 });
  if (answer.status !== 'solved') throw new Error(answer.status);
  return answer.objective;
}

describe('what holds for every year', () => {
  it('more empty jars, sugar or lids never make the best plan dearer', async () => {
    for (const seed of seeds) {
      const year = tinyYear(seed);
      // Jars and lids that stand longer cost a little to keep, which only breaks ties: it is left out of the comparison.
      const more = {
        ...year,
        jars: year.jars.map((holding) => ({ ...holding, empty: holding.empty + 4 })),
        supplies: year.supplies.map((supply) => ({ ...supply, onHand: supply.onHand + 3 })),
        lids: year.lids.map((holding) => ({ ...holding, onHand: holding.onHand + 6 })),
      };

      expect(await leastCost(more)).toBeLessThanOrEqual((await leastCost(year)) + 1);
    }
  });

  it('the order in which things were entered changes neither the model nor the cost', async () => {
    for (const seed of seeds) {
      const year = tinyYear(seed);
      const turned = {
        ...year,
        items: [...year.items].reverse(),
        recipes: [...year.recipes].reverse(),
        sources: [...year.sources].reverse(),
      };

      expect(buildModel(turned).model).toEqual(buildModel(year).model);
    }
  });

  it('no feasible plan found at random beats the optimum', async () => {
    for (const seed of seeds) {
      const { model, columns } = buildModel(tinyYear(seed), canningStage);
      const best = await solveInBackground(model, { gap: 0 });
      for (let pick = 0; pick < 4; pick += 1) {
        const bounds = new Map(
          columns.batches.flatMap((weeks, recipe) =>
            weeks.flatMap((column, week) => {
              const most = column === null ? 0 : (model.columns[column]?.upper ?? 0);
              const count = (seed + 7 * pick + 3 * recipe + week) % (most + 1);
              return column === null ? [] : [[column, [count, count]] as const];
            }),
          ),
        );
        const random = await solveInBackground(model, { gap: 0, bounds });
        if (random.status !== 'solved' || best.status !== 'solved') continue;
        expect(violations(model, random.values, 1e-5)).toEqual([]);
        expect(objectiveOf(model, random.values)).toBeGreaterThanOrEqual(best.objective - 0.01);
      }
    }
  });
});

describe('the order of wishes', () => {
  it('prices one unit of the lightest wish above the dearest batch or pack, and each heavier wish above the lighter', () => {
    for (const seed of seeds) {
      const prices = wishPrices(planningSets(tinyYear(seed)), householdRules);
      const ladder = [
        prices.dearestStep,
        prices.variety,
        prices.reserve,
        prices.use,
        prices.gardenUnit,
        prices.firstJars,
        prices.group,
        prices.pinned,
      ];

      expect([...ladder].sort((one, other) => one - other)).toEqual(ladder);
      expect(prices.reserve).toBeGreaterThan(prices.dearestStep);
    }
  });

  it('takes the own garden before the market, though a market plum cost nothing', async () => {
    const market = plumYear().sources[0];
    if (market === undefined) throw new Error('the plum year has a source');
    const garden = { ...market, id: 'garden' as typeof market.id, kind: 'garden' as const };
    const free = market.priceCentsPerLbByWeek.map(() => asCents(0));
    const year = plumYear({
      sources: [
        { ...market, priceCentsPerLbByWeek: free },
        { ...garden, priceCentsPerLbByWeek: free.map(() => asCents(50)) },
      ],
    });

    const answer = await makePlan(year, solveInBackground, { gap: 0 });

    const taken = answer.outcome === 'planned' ? answer.plan.weeks.flatMap(({ purchases }) => purchases) : [];
    const lbFrom = (id: string) =>
      taken.filter(({ what }) => what === id).reduce((sum, { quantity }) => sum + quantity, 0);
    const wanted = (15 / jamRecipe.yieldLowUnits) * 10;
    expect(lbFrom('garden')).toBeGreaterThanOrEqual(Math.floor(wanted / 10) * 10);
  });
});

describe('a solver that fails', () => {
  it.each<Exclude<SolveFailure, 'unbounded'>>([
    'infeasible',
    'time limit without plan',
    'solver crashed',
    'cancelled',
  ])('is an answer by name, %s, with a plan that needs no solver', async (status) => {
    const answer = await makePlan(plumYear(), () => Promise.resolve({ status, detail: 'on purpose' }));

    expect(answer.outcome).toBe(status);
    if (answer.outcome === 'planned') return;
    expect(answer.fallback.plan.weeks).toHaveLength(52);
    expect(answer.fallback.plan.weeks.every(({ sessions }) => sessions.length === 0)).toBe(true);
  });
});
