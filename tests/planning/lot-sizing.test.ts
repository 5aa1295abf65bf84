import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { buildModel, canningStage } from '../../src/planning/model/build-model.ts';
import { lotSizingRules } from '../../src/planning/model/rules.ts';
import { type LotSizingInstance, lotSizingYear } from './lot-sizing-year.ts';

async function leastCost(instance: LotSizingInstance, maxAgePeriods: number | null, gap = 0) {
  const built = buildModel(lotSizingYear(instance, maxAgePeriods), canningStage, lotSizingRules);
  const answer = await solveInBackground(built.model, { gap, secondsLimit: 60 });
  if (answer.status !== 'solved') throw new Error(`${instance.name}: ${answer.status} ${answer.detail}`);
  return answer;
}

/** Periods share nothing but stock: the kitchen is far larger than the demand. */
const uncapacitated = (
  name: string,
  demand: readonly number[],
  setupCost: number | readonly number[],
  holdingCost: number,
): LotSizingInstance => ({
  name,
  capacityByPeriod: demand.map(() => 100_000),
  unitCapacity: [1],
  holdingCost: [holdingCost],
  setupTime: [0],
  setupCost: [setupCost],
  demandByItemByPeriod: [demand],
});

// Wagner, H. M. and Whitin, T. M. (1958), Dynamic version of the economic lot size model, Management Science 5(1), 89-96:
// inputs read from public restatements, the optimum 864 from memory and recomputed by a dynamic programme.
const wagnerWhitin = uncapacitated(
  'wagner-whitin-1958',
  [69, 29, 36, 61, 61, 26, 34, 67, 45, 67, 79, 56],
  [85, 102, 102, 101, 98, 114, 105, 86, 119, 110, 98, 114],
  1,
);

describe('Wagner and Whitin 1958 through the planning core', () => {
  it('finds the published least cost of 864', async () => {
    const { objective, bound } = await leastCost(wagnerWhitin, null);

    expect(objective).toBeCloseTo(864, 4);
    expect(bound).toBeCloseTo(864, 4);
  });

  // Derived from the same data by limiting the age of stock, computed by a dynamic programme; not published.
  it.each([
    [1, 1234],
    [2, 901],
    [3, 864],
  ])('with units that keep %i periods the least cost is %i', async (maxAgePeriods, cost) => {
    const { objective } = await leastCost(wagnerWhitin, maxAgePeriods);

    expect(objective).toBeCloseTo(cost, 4);
  });

  // The same source, table of minimum costs of the first periods; computed by a dynamic programme.
  it('finds the least cost of every shorter horizon', async () => {
    const costs: number[] = [];
    for (let periods = 1; periods <= 12; periods += 1) {
      const shorter = {
        ...wagnerWhitin,
        capacityByPeriod: wagnerWhitin.capacityByPeriod.slice(0, periods),
        setupCost: wagnerWhitin.setupCost.map((cost) =>
          typeof cost === 'number' ? cost : cost.slice(0, periods),
        ),
        demandByItemByPeriod: wagnerWhitin.demandByItemByPeriod.map((demand) => demand.slice(0, periods)),
      };
      costs.push(Math.round((await leastCost(shorter, null)).objective * 1e4) / 1e4);
    }

    expect(costs).toEqual([85, 114, 186, 277, 348, 400, 469, 555, 600, 710, 789, 864]);
  });
});

describe('the five-week example of Nahmias, Production and Operations Analysis, lot-sizing section', () => {
  // Inputs read; the optimum 310 computed by a dynamic programme.
  it('costs 310 at least', async () => {
    const { objective } = await leastCost(uncapacitated('nahmias', [18, 30, 42, 5, 20], 80, 2), null);

    expect(objective).toBeCloseTo(310, 4);
  });
});

// Trigeiro, W. W., Thomas, L. J., McClain, J. O. (1989), Capacitated lot sizing with setup times, Management Science 35(3),
// 353-366. Optima proved by two solvers; see tests/reference/lotsizing/README.md. The slower instances run in bench:plan.
describe('capacitated lot sizing with set-up times (Trigeiro, Thomas and McClain 1989)', () => {
  it.each([
    ['X11117A', null, 8375.8],
    ['X11117A', 4, 8375.8],
    ['X12117A', null, 7447.8],
    ['X12117A', 4, 7447.8],
    ['X12227A', null, 22489.6],
    ['X12227A', 4, 22489.6],
  ] as const)('%s with units that keep %s periods costs %d', async (name, maxAgePeriods, optimum) => {
    const file = new URL(`../reference/lotsizing/${name}.json`, import.meta.url);
    const instance = JSON.parse(readFileSync(file, 'utf8')) as LotSizingInstance;

    const { objective, bound } = await leastCost(instance, maxAgePeriods, 0.0005);

    expect(bound).toBeLessThanOrEqual(optimum + 1e-3);
    expect(objective).toBeGreaterThanOrEqual(optimum - 1e-3);
    expect(objective).toBeLessThanOrEqual(optimum * 1.0005 + 1e-3);
  });
});
