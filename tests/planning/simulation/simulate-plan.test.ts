import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { AfterYear, PlanningYear } from '../../../src/planning/planning-year.ts';
import { simulatePlan, simulation } from '../../../src/planning/simulation/simulate-plan.ts';
import type { DrawUse, SimulationOptions } from '../../../src/planning/simulation/simulated-plan.ts';
import { planOf } from '../short-plan.ts';
import { batchOf, food, pack, pint, shortYear, sourceOf, weekAt } from '../short-year.ts';

const none = { harvest: 0, windowWeeks: 0, use: 0 };
/** Use that comes as told, in the sampled years one after the other. */
const using = (...years: readonly (readonly number[])[]): DrawUse => {
  let at = -1;
  return () => {
    at += 1;
    return years[at % years.length] ?? [];
  };
};
function played(
  year: PlanningYear,
  plan: Plan,
  use: Readonly<Record<string, DrawUse>>,
  options: Partial<SimulationOptions> = {},
) {
  const { items, ...all } = simulatePlan(year, plan, {
    years: 1,
    seed: 4,
    spread: none,
    drawUse: new Map(year.items.map(({ id }) => [id, use[id] ?? using(year.weeks.map(() => 0))])),
    ...options,
  });
  const of = (name: string) => {
    const item = items.find(({ item }) => item === name);
    if (item === undefined) throw new Error(name);
    return item;
  };
  return { ...all, items, of };
}
const oats = (change: Parameters<typeof food>[1] = {}) =>
  food('oats', { packs: [pack('bag', 2, 300)], ...change });
const jamYear = (change: Parameters<typeof food>[1] = {}, recipe: Parameters<typeof batchOf>[2] = {}) =>
  shortYear(5, {
    foods: [food('jam', { kind: 'preserve', jarKind: pint, ...change })],
    sources: [sourceOf('tree')],
    recipes: [batchOf('jam-of-plums', 'jam', { allowedByWeek: [false, false, true, true, true], ...recipe })],
  });
const ones = [1, 1, 1, 1, 1];
const batchIn = (...weeks: readonly number[]) =>
  Object.fromEntries(weeks.map((week) => [week, { sessions: [{ recipe: 'jam-of-plums', batches: 1 }] }]));

describe('an item that is played', () => {
  test('is missed where nothing is there for what is wanted', () => {
    const year = shortYear(5, { foods: [oats({ stands: 3 })] });
    const { of } = played(year, planOf(year), { oats: using(ones) });

    expect(of('oats')).toMatchObject({
      lasts: { value: 0, standardError: 0 },
      missedUnits: { value: 2, standardError: 0 },
      missedAsPlanned: 2,
    });
  });

  test.each([
    [4.6, 1],
    [4.5, 0],
    [4.4, 0],
    [5, 1],
  ])('lasts with %d of five units: less than half a unit missed is none', (stands, lasts) => {
    const year = shortYear(5, { foods: [oats({ stands })] });

    expect(played(year, planOf(year), { oats: using(ones) }).of('oats').lasts.value).toBe(lasts);
  });

  test('is missed from the week on in which it can first be had, not before', () => {
    const made = jamYear();
    expect(played(made, planOf(made), { jam: using(ones) }).of('jam').missedUnits.value).toBe(3);
    expect(played(made, planOf(made), { jam: using(ones) }).of('jam').missedAsPlanned).toBe(3);

    const cured = jamYear({}, { readyAfterWeeks: 1 });
    expect(played(cured, planOf(cured), { jam: using(ones) }).of('jam').missedUnits.value).toBe(2);
    expect(played(cured, planOf(cured), { jam: using(ones) }).of('jam').missedAsPlanned).toBe(2);
  });

  test('has what is put up and what is bought', () => {
    const made = jamYear();
    expect(played(made, planOf(made, batchIn(2)), { jam: using(ones) }).of('jam').missedUnits.value).toBe(0);

    const year = shortYear(5, { foods: [oats()] });
    const plan = planOf(year, { 1: { purchases: [{ kind: 'item', what: 'oats', quantity: 2 }] } });
    expect(played(year, plan, { oats: using(ones) }).of('oats')).toMatchObject({
      missedUnits: { value: 3 },
      missedAsPlanned: 3,
    });
  });

  test('has what stands from the week in which it is ready, before the year or in it', () => {
    const at = (readyFrom: number) => {
      const year = shortYear(5, { foods: [oats({ stands: 5 })] });
      const later = {
        ...year,
        items: year.items.map((item) => ({
          ...item,
          openingLots: item.openingLots.map((lot) => ({ ...lot, readyFrom: weekAt(readyFrom) })),
        })),
      };
      return played(later, planOf(later), { oats: using(ones) }).of('oats').missedUnits.value;
    };

    expect([-9, 0, 1, 4, 5, 9].map(at)).toEqual([0, 0, 1, 4, 5, 5]);
  });

  test('is older at the year’s end where its best has passed by then', () => {
    const at = (bestQualityUntil: number) => {
      const year = shortYear(5, { foods: [oats({ stands: 7 })] });
      const older = {
        ...year,
        items: year.items.map((item) => ({
          ...item,
          openingLots: item.openingLots.map((lot) => ({
            ...lot,
            bestQualityUntil: weekAt(bestQualityUntil),
          })),
        })),
      };
      return played(older, planOf(older), { oats: using([1, 1, 0, 0, 0]) }).of('oats').olderAtEnd.value;
    };

    expect([-2, 4, 5].map(at)).toEqual([5, 5, 0]);
  });

  test('has nothing of the first that comes while its emergency shelf lacks it, whatever the order of the lines', () => {
    const year = shortYear(5, {
      foods: [oats({ emergencyUnits: 3 })],
      recipes: [batchOf('b-late', 'oats', { jarKind: null, produce: [], readyAfterWeeks: 3 })],
    });
    const plan = planOf(year, {
      0: { sessions: [{ recipe: 'b-late', batches: 1 }] },
      1: { purchases: [{ kind: 'item', what: 'oats', quantity: 4 }] },
    });

    // Of four bought three stay; one is eaten in the second week, the four of the batch from the fourth on.
    expect(played(year, plan, { oats: using(ones) }).of('oats')).toMatchObject({
      missedUnits: { value: 2 },
      missedAsPlanned: 2,
    });
  });

  test('comes late with its crop: what that brings nothing of is not missed', () => {
    const year = jamYear({ bestQualityWeeks: 2 });
    const { of } = played(
      year,
      planOf(year, batchIn(2)),
      { jam: using([0, 0, 1, 0, 0]) },
      { years: 4000, spread: { ...none, windowWeeks: 1 } },
    );

    // On time or early, in Φ(0.5) = 69.15 % of years, its three left are past their best by the last week.
    const { value, standardError } = of('jam').olderAtEnd;
    expect(Math.abs(value - 0.6915 * 3)).toBeLessThan(4 * standardError);
  });
});

describe('an item after the year', () => {
  const afterYear = (change: Partial<AfterYear> = {}): AfterYear => ({
    useByWeek: [1, 1, 1, 1],
    seasonWeeks: [2],
    isRunning: false,
    failsChance: 0,
    ...change,
  });
  const lasting = (after: AfterYear | undefined, stands = 5) => {
    const year = jamYear({ stands, packs: [pack('jar', 1, 900)], ...(after && { afterYear: after }) });
    return played(year, planOf(year), { jam: using([...ones, 1, 1, 1, 1]) }).of('jam');
  };

  test('has to last to the season that brings more of it', () => {
    expect(lasting(afterYear()).missedUnits.value).toBe(2);
    expect(lasting(afterYear(), 6).missedUnits.value).toBe(1);
    expect(lasting(afterYear({ seasonWeeks: [0] })).missedUnits.value).toBe(0);
    expect(lasting(undefined).missedUnits.value).toBe(0);
  });

  test('has to last through all that is looked at where no season brings any', () => {
    expect(lasting(afterYear({ failsChance: 1 })).missedUnits.value).toBe(4);
  });

  test('is missed as planned until its first season, as its use is expected', () => {
    expect(lasting(afterYear({ failsChance: 1 })).missedAsPlanned).toBe(2);
    expect(lasting(afterYear({ useByWeek: [3, 4, 9, 9] })).missedAsPlanned).toBe(7);
    expect(lasting(undefined, 4).missedAsPlanned).toBe(1);
  });
});

describe('figures of several years', () => {
  const year = shortYear(5, { foods: [oats()] });
  // Ten years: one to ten units missed, the worst first.
  const tenth = Array.from({ length: 10 }, (_, at) => [10 - at, 0, 0, 0, 0]);
  const ofTen = () => played(year, planOf(year), { oats: using(...tenth) }, { years: 10 }).of('oats');

  test('are their mean and its standard error', () => {
    const { missedUnits } = ofTen();

    expect(missedUnits.value).toBe(5.5);
    // Variance of 1 to 10 with nine degrees of freedom is 9.1667; its tenth's root.
    expect(missedUnits.standardError).toBeCloseTo(Math.sqrt(55 / 6 / 10), 9);
  });

  test.each([
    [0, 1],
    [0.05, 1],
    [0.1, 1],
    [0.11, 2],
    [0.5, 5],
    [0.9, 9],
    [0.91, 10],
    [1, 10],
  ])('say what would have had to stand by in a share of %d of them', (share, units) => {
    expect(ofTen().missedQuantile(share)).toBe(units);
  });

  test('are a share of the years in which it lasted', () => {
    const { lasts } = played(
      year,
      planOf(year),
      { oats: using([0, 0, 0, 0, 0], [1, 0, 0, 0, 0], [0, 0, 0, 0, 0], [0, 0, 0, 0, 0]) },
      { years: 4 },
    ).of('oats');

    expect(lasts.value).toBe(0.75);
    expect(lasts.standardError).toBeCloseTo(0.25, 9);
  });
});

describe('a year as a whole', () => {
  const poor = (poorYearShare: number, poorYearChance = 1): PlanningYear => ({
    ...jamYear(),
    sources: shortYear(5, {
      sources: [
        sourceOf('tree', {
          poorYearChance,
          poorYearShare,
          priceCentsPerLbByWeek: [100, 100, 100, 100, 180].map(asCents),
        }),
      ],
    }).sources,
  });
  const plan = (year: PlanningYear) =>
    planOf(year, {
      2: {
        ...batchIn(2)[2],
        purchases: [{ kind: 'produce', what: 'tree', quantity: 100 }],
        spend: 10_000,
      },
      3: { spend: 250 },
    });

  test('costs what the plan does and what a poor crop adds', () => {
    const full = poor(1);
    expect(played(full, plan(full), {}).spend.value).toBe(10_250);
    const scarce = poor(0.5);
    expect(played(scarce, plan(scarce), {}).spend.value).toBe(10_250 + 50 * 80);
  });

  test('loses batches where a crop fails and nothing is bought instead', () => {
    const without = (share: number, chance = 1) => {
      const year = poor(share, chance);
      return {
        ...year,
        sources: year.sources.map((source) => ({ ...source, fallBack: 'do-without' as const })),
      };
    };
    const lost = (year: PlanningYear, years = 1) => played(year, plan(year), {}, { years }).batchesLost.value;

    expect(lost(without(0.9))).toBe(1);
    expect(lost(without(1))).toBe(0);
    expect(lost(poor(0.9))).toBe(0);
    expect(Math.abs(lost(without(0.5, 0.3), 4000) - 0.3)).toBeLessThan(4 * Math.sqrt((0.3 * 0.7) / 4000));
  });

  test('is one of so many, of a seed', () => {
    const year = poor(1);
    const { years, seed, items } = played(year, plan(year), {}, { years: 3, seed: 99 });

    expect({ years, seed }).toEqual({ years: 3, seed: 99 });
    expect(items.map(({ item }) => item)).toEqual(['jam']);
  });

  test('is played one after the other, each told as it is done', () => {
    const year = poor(1);
    const playing = simulation(year, plan(year), { years: 2, seed: 1 });

    expect(playing.next()).toEqual({ done: false, value: 1 });
    expect(playing.next()).toEqual({ done: false, value: 2 });
    expect(playing.next()).toMatchObject({ done: true, value: { years: 2 } });
  });

  test.each([0, -1, 1.5])('is refused where %d of them are asked for', (years) => {
    const year = poor(1);

    expect(() => simulatePlan(year, plan(year), { years, seed: 1 })).toThrow(
      `expected 1 or more sampled years, got ${years}`,
    );
  });
});

describe('use that nobody forecast', () => {
  const year = shortYear(5, { foods: [oats({ useByWeek: [2, 2, 2, 2, 2] })] });
  const missed = (use: number) =>
    simulatePlan(year, planOf(year), { years: 4000, seed: 5, spread: { ...none, use } }).items[0]
      ?.missedUnits;

  // A Poisson total of ten has variance 10; with an appetite of coefficient 0.4, 10 + (0.4 × 10)².
  test.each([
    [0, 10],
    [0.4, 26],
  ])('varies around what is expected: with an appetite of %d', (use, variance) => {
    const { value = 0, standardError = 0 } = missed(use) ?? {};

    expect(Math.abs(value - 10)).toBeLessThan(4 * standardError);
    expect(standardError ** 2 * 4000).toBeGreaterThan(variance * 0.85);
    expect(standardError ** 2 * 4000).toBeLessThan(variance * 1.15);
  });
});
