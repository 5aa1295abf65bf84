import { describe, expect, it, test } from 'vitest';
import { planYear, solveInBackground } from '../../server/solver/plan-year.ts';
import { makePlan } from '../../src/planning/make-plan.ts';
import { afterFilling, setAsideLongest } from '../../src/planning/model/emergency-shelf.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlannedItem, PlanningYear } from '../../src/planning/planning-year.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';

const sum = (list: readonly number[]) => list.reduce((total, units) => total + units, 0);
const standingOf = (item: PlannedItem) => sum(item.openingLots.map(({ units }) => units));

/** Some of every second food kept for an emergency: some more than stands, some less. */
const withEmergency = (year: PlanningYear): PlanningYear => ({
  ...year,
  items: year.items.map((item, at) =>
    at % 2 === 0 ? { ...item, emergencyUnits: at % 4 === 0 ? Math.ceil(standingOf(item)) + 3 : 5 } : item,
  ),
});

const planned = async (year: PlanningYear): Promise<Plan> => {
  const answer = await planYear(year, { gap: 0.05, secondsLimit: 20 });
  if (answer.outcome !== 'planned') throw new Error(answer.detail);
  return answer.plan;
};

/** Units a printed plan brings of an item in each week, with those that are ready of what stood before. */
const comingByWeek = (plan: Plan, year: PlanningYear, item: PlannedItem): number[] =>
  plan.weeks.map(
    (week, at) =>
      sum(
        week.purchases
          .filter(({ kind, what }) => kind === 'item' && what === item.id)
          .map(({ quantity }) => quantity),
      ) +
      sum(
        plan.weeks.flatMap(({ sessions }, madeAt) =>
          sessions.flatMap(({ recipe, jars, units }) => {
            const way = year.recipes.find(
              ({ id, jarKind }) => id === recipe && jarKind === (jars[0]?.kind ?? null),
            );
            return way?.itemId === item.id && madeAt + way.readyAfterWeeks === at ? [units] : [];
          }),
        ),
      ),
  );

describe('what is kept for an emergency', () => {
  it.each([
    { seed: 1, preserves: 4, staples: 3 },
    { seed: 5, preserves: 6, staples: 2, rich: true },
    { seed: 3, preserves: 5, staples: 4, fundShare: 0.6 },
  ])('is in no plan, and what is missing of it comes or is said: seed $seed', async (size) => {
    const year = withEmergency(generatedHousehold(size));
    const plan = await planned(year);

    expect(checkPlan(plan, year)).toEqual([]);
    for (const item of year.items)
      expect(plan.items.find((own) => own.item === item.id)?.openingStock).toBeCloseTo(standingOf(item), 6);
  });

  it('is missed by the checker where a plan used it up', async () => {
    const household = generatedHousehold({ seed: 1, preserves: 4, staples: 3 });
    const plan = await planned(household);

    expect(checkPlan(plan, household)).toEqual([]);
    expect(checkPlan(plan, withEmergency(household)).join('\n')).toMatch(
      /units of use not served beside \d+ for an emergency/,
    );
  });

  it('is filled in the first weeks where it can be bought and money allows', async () => {
    const household = generatedHousehold({ seed: 2, preserves: 2, staples: 4 });
    const year = withEmergency({ ...household, fund: { ...household.fund, opening: 10_000_000 as never } });
    const answer = await makePlan(year, solveInBackground, { gap: 0.01 });
    if (answer.outcome !== 'planned') throw new Error(answer.detail);
    const { plan } = answer;

    const bought = year.items.filter(
      ({ packs, emergencyUnits = 0 }) => packs.length > 0 && emergencyUnits > 0,
    );
    expect(bought.length).toBeGreaterThan(0);
    for (const item of bought) {
      const coming = comingByWeek(plan, year, item);
      for (let week = 0; week < 8; week += 1) {
        const had = standingOf(item) + sum(coming.slice(0, week + 1));
        const eaten = sum(item.useByWeek.slice(0, week + 1));
        expect(had - eaten, `${item.id} in week ${week}`).toBeGreaterThanOrEqual(
          (item.emergencyUnits ?? 0) - 1e-6,
        );
      }
    }
  });

  it('turns over in a year that is lived: its jars are eaten before they are past their best, and replaced', async () => {
    const household = generatedHousehold({ seed: 1, preserves: 4, staples: 3 });
    const year: PlanningYear = {
      ...household,
      items: household.items.map((item) => ({ ...item, emergencyUnits: 5 })),
    };
    const plan = await planned(year);
    for (const item of year.items.filter(({ kind }) => kind === 'preserve')) {
      const shelf = item.openingLots.map(({ units, bestQualityUntil }) => ({
        units,
        until: year.weeks.indexOf(bestQualityUntil),
        isOld: true,
      }));
      comingByWeek(plan, year, item).forEach((units, week) => {
        if (units > 0) shelf.push({ units, until: week + item.bestQualityWeeks, isOld: false });
        let toEat = Math.min(item.useByWeek[week] ?? 0, Math.max(0, sum(shelf.map((lot) => lot.units)) - 5));
        for (const lot of shelf.sort((one, other) => one.until - other.until)) {
          const eaten = Math.min(toEat, lot.units);
          lot.units -= eaten;
          toEat -= eaten;
        }
        expect(sum(shelf.map((lot) => lot.units)), `${item.id} in week ${week}`).toBeGreaterThanOrEqual(
          5 - 1e-6,
        );
      });
      const old = shelf.filter(({ isOld }) => isOld);
      expect(sum(old.map(({ units }) => units)), `${item.id} of the year before`).toBeLessThan(1e-6);
    }
  });
});

describe('which lots stay', () => {
  const lot = (lotId: string, units: number, bestQualityUntil: string) => ({
    lotId,
    units,
    bestQualityUntil,
  });

  test('those that keep longest, in part where that is enough', () => {
    const lots = [lot('b', 6, '2027-08-01'), lot('a', 4, '2027-03-01')];

    expect(setAsideLongest(lots, 5)).toEqual({
      above: [lot('b', 1, '2027-08-01'), lot('a', 4, '2027-03-01')],
      missing: 0,
    });
    expect(setAsideLongest(lots, 12)).toEqual({ above: [], missing: 2 });
    expect(setAsideLongest(lots, 0)).toEqual({ above: lots, missing: 0 });
  });

  test('the first to come fill what is missing', () => {
    expect(afterFilling([{ units: 2 }, { units: 3 }, { units: 4 }], 4)).toEqual([{ units: 1 }, { units: 4 }]);
  });
});
