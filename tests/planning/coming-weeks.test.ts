import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { asCents } from '../../shared/money.ts';
import { makePlan } from '../../src/planning/make-plan.ts';
import { comingWeekCount } from '../../src/planning/model/coming-weeks.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlannedItem, PlanningYear } from '../../src/planning/planning-year.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';
import { batchOf, food, pack, shortYear, sourceOf } from './short-year.ts';

async function planned(year: PlanningYear): Promise<Plan> {
  const answer = await makePlan(year, solveInBackground, { gap: 0.01 });
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  expect(checkPlan(answer.plan, year)).toEqual([]);
  return answer.plan;
}

/** Units of an item that a plan buys in each week. */
const boughtOf = (plan: Plan, id: PlannedItem['id']): number[] =>
  plan.weeks.map(({ purchases }) =>
    purchases
      .filter(({ kind, what }) => kind === 'item' && what === id)
      .reduce((sum, { quantity }) => sum + quantity, 0),
  );

/** Units of use missed in the coming weeks of what stands and is bought, by hand. */
function missedSoon(plan: Plan, { id, openingLots, useByWeek }: PlannedItem): number {
  let standing = openingLots.reduce((sum, { units }) => sum + units, 0);
  return boughtOf(plan, id)
    .slice(0, comingWeekCount)
    .reduce((missed, units, week) => {
      standing += units - (useByWeek[week] ?? 0);
      const lacking = Math.max(0, -standing);
      standing = Math.max(0, standing);
      return missed + lacking;
    }, 0);
}

describe('where money is short, what is bought', () => {
  it('is on the table in the coming weeks, and what can be set aside then is canned for later', async () => {
    const weeks = 8;
    const year = shortYear(weeks, {
      foods: [
        food('oats', { packs: [pack('bag', 1, 500)] }),
        food('jam', { kind: 'preserve', useByWeek: [0, 0, 0, 0, 1, 1, 1, 1] }),
      ],
      recipes: [batchOf('jam-of-plums', 'jam', { supplies: [], jarKind: null, yieldHighJars: 0 })],
      sources: [
        sourceOf('stall', {
          lbByWeek: [100, 100, 100, 100, 0, 0, 0, 0],
          priceCentsPerLbByWeek: Array(weeks).fill(asCents(200)),
        }),
      ],
      fund: { opening: asCents(1500), setAsideByWeek: Array(weeks).fill(asCents(250)) },
    });
    const plan = await planned(year);
    const id = year.items[0]?.id as PlannedItem['id'];

    // Oats cost all of the first four weeks' money but five dollars, and a batch of jam ten.
    expect(
      boughtOf(plan, id)
        .slice(0, comingWeekCount)
        .reduce((sum, units) => sum + units, 0),
    ).toBeGreaterThanOrEqual(4);
    expect(plan.weeks.flatMap(({ sessions }) => sessions)).toEqual([]);
    expect(plan.rungs.find(({ name }) => name === 'coming weeks')).toMatchObject({ missed: 0 });
  });

  it('is not saved for weeks in which it is cheaper', async () => {
    const year = shortYear(8, {
      foods: [food('oats', { packs: [pack('bag', 1, [500, 500, 500, 500, 400, 400, 400, 400])] })],
      fund: { opening: asCents(2200), setAsideByWeek: Array(8).fill(asCents(0)) },
    });
    const plan = await planned(year);

    expect(boughtOf(plan, year.items[0]?.id as PlannedItem['id'])).toEqual([1, 1, 1, 1, 0, 0, 0, 0]);
    expect(plan.rungs.find(({ name }) => name === 'use')).toMatchObject({ missed: 4 });
  });

  it.each([11, 12, 13, 14, 15])(
    'is missed in none of them while money goes to anything else, seed %i',
    async (seed) => {
      const year = generatedHousehold({ seed, preserves: 5, staples: 5, fundShare: 0.5 });
      const plan = await planned(year);
      const bought = year.items.filter(({ packs }) => packs.length > 0);
      const missed = bought.filter((item) => missedSoon(plan, item) > 1e-6).map(({ id }) => id);
      const soon = plan.weeks.slice(0, comingWeekCount);
      const others = soon.flatMap(({ purchases }) => purchases.filter(({ kind }) => kind !== 'item'));
      const left = Math.min(...soon.map(({ fundAfter }) => fundAfter));
      const cheapest = Math.min(
        ...bought.flatMap(({ packs }) => packs.map(({ priceByWeek }) => priceByWeek[0] ?? 0)),
      );

      expect(bought.length).toBeGreaterThan(0);
      // Whole packs may leave a little money, too little for any of them.
      if (others.length > 0 || left >= cheapest) expect(missed).toEqual([]);
    },
  );
});
