import { describe, expect, it } from 'vitest';
import { asCents } from '../../shared/money.ts';
import { addDays } from '../../shared/week.ts';
import { negativeBinomial, poisson } from '../../src/consumption/count-distribution.ts';
import { assemblePlan } from '../../src/planning/answer/assemble-plan.ts';
import { buildModel } from '../../src/planning/model/build-model.ts';
import { buyAsNeeded } from '../../src/planning/packs/buy-as-needed.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { simulatePlan } from '../../src/planning/simulation/simulate-plan.ts';
import { drawWeeks } from '../../src/shelf/predicted-use.ts';
import { projectShelf } from '../../src/shelf/projection.ts';
import { eats } from '../shelf/households-use.ts';
import { generatedHousehold } from './generated-household.ts';

const year = generatedHousehold({ seed: 4, preserves: 3, staples: 0 });
const noSpread = { harvest: 0, windowWeeks: 0, use: 0 };

/** Nothing is put up or bought: only the opening lots serve, so the exact answer is a sum of counts. */
function shelfOnly(units: number, weeklyUse: number): PlanningYear {
  return {
    ...year,
    items: year.items.slice(0, 1).map((item) => ({
      ...item,
      packs: [{ id: 'never', units: 1, priceByWeek: item.useByWeek.map(() => asCents(100)) }],
      openingLots: item.openingLots.map((lot) => ({ ...lot, units, jars: units })),
      useByWeek: item.useByWeek.map(() => weeklyUse),
    })),
    recipes: [],
    fund: { opening: asCents(0), setAsideByWeek: year.weeks.map(() => asCents(0)) },
  };
}

function planWithoutSolver(of: PlanningYear) {
  const { sets, parameters } = buildModel(of);
  const proof = {
    objective: { total: 0 },
    bound: 0,
    gap: 0,
    solveSeconds: 0,
    packRounding: { cost: asCents(0), gap: 0 },
    rungs: [],
  };
  return assemblePlan(sets, parameters, buyAsNeeded(sets, parameters), proof).plan;
}

describe('a plan played against sampled years', () => {
  it.each([
    { units: 60, weeklyUse: 1 },
    { units: 50, weeklyUse: 1 },
    { units: 33, weeklyUse: 0.5 },
  ])(
    'lasts as often as the Poisson distribution says: $units units, $weeklyUse a week',
    ({ units, weeklyUse }) => {
      const of = shelfOnly(units, weeklyUse);

      const [item] = simulatePlan(of, planWithoutSolver(of), {
        years: 4000,
        seed: 11,
        spread: noSpread,
      }).items;

      const exact = poisson(52 * weeklyUse).atMost(units);
      expect(Math.abs((item?.lasts.value ?? 0) - exact)).toBeLessThan(
        4 * (item?.lasts.standardError ?? 0) + 0.002,
      );
    },
  );

  it('lasts as often as the negative binomial says when the appetite varies too', () => {
    const of = shelfOnly(60, 1);

    const [item] = simulatePlan(of, planWithoutSolver(of), {
      years: 4000,
      seed: 12,
      spread: { ...noSpread, use: 0.3 },
    }).items;

    // A gamma mixture of Poisson totals: variance over mean is 1 + mean × square of the appetite's coefficient of variation.
    const exact = negativeBinomial(52, 1 + 52 * 0.3 ** 2).atMost(60);
    expect(Math.abs((item?.lasts.value ?? 0) - exact)).toBeLessThan(
      4 * (item?.lasts.standardError ?? 0) + 0.002,
    );
  });

  it.each([
    { units: 30, perWeek: 0.5, takings: 12 },
    { units: 30, perWeek: 0.5, takings: 60 },
    { units: 55, perWeek: 0.9, takings: 30 },
    { units: 12, perWeek: 0.3, takings: 3 },
  ])(
    'agrees with the exact projection of the shelf within its stated error: $units units, $perWeek a week, $takings takings seen',
    ({ units, perWeek, takings }) => {
      const of = shelfOnly(units, perWeek);
      const use = eats({ perWeek, takings, weeks: 52 });
      const projection = projectShelf({
        asOf: of.asOf,
        weeks: 52,
        lots: [{ lotId: 'all', units, readyFrom: of.asOf, bestQualityUntil: addDays(of.asOf, 400) }],
        incoming: [],
        use,
        nextSupplyWeek: null,
      });

      const played = simulatePlan(of, planWithoutSolver(of), {
        years: 4000,
        seed: 13,
        spread: noSpread,
        drawUse: new Map(of.items.map(({ id }) => [id, (random) => drawWeeks(use, random)])),
      });

      const lasts = played.items[0]?.lasts;
      expect(projection.method.kind).toBe('exact');
      expect(projection.chanceOfLasting).toBeGreaterThan(0.05);
      expect(projection.chanceOfLasting).toBeLessThan(0.95);
      expect(Math.abs((lasts?.value ?? 0) - projection.chanceOfLasting)).toBeLessThan(
        3 * (lasts?.standardError ?? 0),
      );
    },
  );

  it('says the same for the same seed, and its error shrinks with more years', () => {
    const of = shelfOnly(50, 1);
    const plan = planWithoutSolver(of);
    const few = simulatePlan(of, plan, { years: 400, seed: 3 });
    const again = simulatePlan(of, plan, { years: 400, seed: 3 });
    const many = simulatePlan(of, plan, { years: 1600, seed: 3 });

    expect(few.items[0]?.lasts).toEqual(again.items[0]?.lasts);
    expect(many.items[0]?.lasts.standardError).toBeLessThan(few.items[0]?.lasts.standardError ?? 0);
  });

  it('refuses a number of years that is none', () => {
    const of = shelfOnly(50, 1);

    expect(() => simulatePlan(of, planWithoutSolver(of), { years: 0, seed: 3 })).toThrow(
      'expected 1 or more',
    );
  });
});
