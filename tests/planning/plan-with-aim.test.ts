import { describe, expect, it } from 'vitest';
import { planYear } from '../../server/solver/plan-year.ts';
import { asCents } from '../../shared/money.ts';
import type { PlanBefore } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { planWithAim, usualAim } from '../../src/planning/simulation/plan-with-aim.ts';
import { simulatePlan } from '../../src/planning/simulation/simulate-plan.ts';

import { jamRecipe, plumJam, plumYear } from './plum-year.ts';

const play = { years: 1000, seed: 7, spread: { harvest: 0, windowWeeks: 0, use: 0.12 } };

/**
 * A jar a week: the shelf lasts to the plum season on average, and small batches are made for the 18 weeks after it.
 * Plums never fail, there is money and time for twice the jam, and nothing is held in reserve yet.
 */
const plenty = (): PlanningYear => {
  const year = plumYear({
    items: [
      {
        ...plumJam,
        useByWeek: plumJam.useByWeek.map(() => 1),
        openingLots: plumJam.openingLots.map((lot) => ({ ...lot, units: 34, jars: 34 })),
        reserveUnits: 0,
        yearEndUnits: 0,
      },
    ],
    recipes: [
      {
        ...jamRecipe,
        yieldLowUnits: 2,
        yieldHighJars: 2,
        handsOnMinutes: 10,
        produce: jamRecipe.produce.map((need) => ({ ...need, lb: 3 })),
        supplies: [],
      },
    ],
  });
  return {
    ...year,
    sources: year.sources.map((source) => ({
      ...source,
      poorYearChance: 0,
      lbByWeek: source.lbByWeek.map((lb) => lb * 4),
    })),
    fund: { ...year.fund, opening: (year.fund.opening + 50_000) as typeof year.fund.opening },
  };
};

const near = (year: PlanningYear, earlier: PlanBefore | null) =>
  planYear(year, { earlier: earlier?.plan.weeks ?? null, gap: 0.02 });
const playing: Parameters<typeof planWithAim>[2] = (year, plan) => simulatePlan(year, plan, play);

describe('a chance of lasting that is aimed for', () => {
  it('is reached within three points where the crop, the kitchen and the money allow it', async () => {
    const year = plenty();
    const without = await planWithAim(year, near, playing, { ...usualAim, rounds: 0 });
    const aimed = await planWithAim(year, near, playing, { chance: 0.9, rounds: 3 });

    const before = without.simulated?.items[0]?.lasts.value ?? 1;
    const reached = aimed.simulated?.items[0]?.lasts.value ?? 0;
    // Without a reserve about half of all years want more than the expected use.
    expect(before).toBeLessThan(0.85);
    expect(reached).toBeGreaterThanOrEqual(0.87);
    expect(aimed.year.items[0]?.reserveForAim).toBeGreaterThan(0);
    expect(aimed.year.items[0]?.reserveUnits).toBe(0);
    expect(aimed.roundsUsed).toBeGreaterThan(0);
  });

  it('that is already reached leaves year and plan as they were', async () => {
    const year = plenty();
    const aimed = await planWithAim(year, near, playing, { chance: 0.05, rounds: 3 });

    expect(aimed.roundsUsed).toBe(0);
    expect(aimed.year).toBe(year);
  });

  it('that cannot be reached ends after the rounds allowed and says what was', async () => {
    const year = plenty();
    // Three pounds a week make one batch a week: 8 jars for the 18 weeks after the season.
    const littleToPick = {
      ...year,
      sources: year.sources.map((source) => ({
        ...source,
        lbByWeek: source.lbByWeek.map((lb) => Math.min(lb, 3)),
      })),
    };
    const aimed = await planWithAim(littleToPick, near, playing, { chance: 0.9, rounds: 1 });

    expect(aimed.roundsUsed).toBe(1);
    expect(aimed.simulated?.items[0]?.lasts.value).toBeLessThan(0.5);
  });

  it('before the first plums can be had asks for nothing that no reserve can cure', async () => {
    const year = plenty();
    // The shelf stands empty until August. A stall that nobody can pay has plums in every week.
    const stalls = year.sources.map((source) => ({
      ...source,
      id: 'stall' as typeof source.id,
      name: 'Stall',
      lbByWeek: year.weeks.map(() => 20),
      priceCentsPerLbByWeek: year.weeks.map((_, week) => asCents(week < 30 ? 90_000 : 120)),
    }));
    const bare: PlanningYear = {
      ...year,
      sources: [...year.sources, ...stalls],
      items: year.items.map((item) => ({ ...item, openingLots: [], reserveUnits: 0.5 })),
    };
    const aimed = await planWithAim(bare, near, playing, { chance: 0.9, rounds: 4 });

    // Thirty jars are missed before August whatever stands in reserve after it.
    expect(aimed.simulated?.items[0]?.missedAsPlanned).toBeGreaterThan(20);
    expect(aimed.year.items[0]?.reserveUnits).toBe(0.5);
    expect(aimed.year.items[0]?.reserveForAim ?? 0).toBeLessThanOrEqual(10);
    const answer = aimed.answer;
    const short =
      answer.outcome === 'planned' ? answer.plan.gaveWay.filter(({ rung }) => rung === 'reserve') : [];
    for (const { amount } of short) expect(amount).toBeLessThanOrEqual(0.5);
  });

  it('where crop and hours end, is not chased with reserves, and no more is said short than the target holds', async () => {
    const year = plenty();
    const scarce: PlanningYear = {
      ...year,
      items: year.items.map((item) => ({ ...item, reserveUnits: 2 })),
      sources: year.sources.map((source) => ({
        ...source,
        lbByWeek: source.lbByWeek.map((lb) => Math.min(lb, 3)),
      })),
    };
    const aimed = await planWithAim(scarce, near, playing, { chance: 0.9, rounds: 4 });

    expect(aimed.year.items[0]?.reserveForAim ?? 0).toBeLessThanOrEqual(6);
    const answer = aimed.answer;
    const short =
      answer.outcome === 'planned' ? answer.plan.gaveWay.filter(({ rung }) => rung === 'reserve') : [];
    for (const { amount } of short) expect(amount).toBeLessThanOrEqual(2);
  });
});
