import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { buildModel, canningStage } from '../../src/planning/model/build-model.ts';
import { householdRules } from '../../src/planning/model/rules.ts';
import type { RungName } from '../../src/planning/solving/rungs.ts';
import { solveInRungs } from '../../src/planning/solving/solve-in-rungs.ts';
import type { Solve } from '../../src/planning/solving/solving.ts';
import { bestInOrderOfWishes, cheapestByTrying } from './brute-force.ts';
import { tinyYear } from './tiny-year.ts';

const rules = { ...householdRules, keepingCentsPerUnitWeek: 0 };
const weekByWeek = { ...canningStage, joinedWeeks: false };
/** In the order in which trying every plan counts them. */
const tiedRungs: readonly RungName[] = [
  'pins',
  'family minimums and groups',
  'first jars',
  'use',
  'reserve',
  'variety',
];

describe('the order of wishes', () => {
  it.each([1, 51, 101])(
    'is kept in the 50 tiny years from seed %i: no lighter wish is served at a heavier one’s cost, however many units',
    async (first) => {
      const disagreements: string[] = [];
      for (let seed = first; seed < first + 50; seed += 1) {
        const year = tinyYear(seed);
        const built = buildModel(year, weekByWeek, rules);
        const { answer, rungs } = await solveInRungs(built, solveInBackground, { gap: 0, secondsLimit: 60 });
        const tried = bestInOrderOfWishes(year, { ...built.prices, ...rules });
        const missed = tiedRungs.map((name) => rungs.find((rung) => rung.name === name)?.missed ?? 0);
        const isSame = missed.every((units, at) => Math.abs(units - (tried.rungs[at] ?? 0)) <= 0.03);
        const costs = answer.status === 'solved' ? answer.objective : Number.NaN;
        if (!isSame) disagreements.push(`seed ${seed}: missed ${missed}, tried ${tried.rungs}`);
        else if (!(Math.abs(costs - tried.cost) <= 0.03 * built.prices.pinned))
          disagreements.push(`seed ${seed}: cost ${costs}, tried ${tried.cost}`);
        const unproven = rungs.filter(({ missed: units, atLeast }) => units > atLeast + 0.03);
        if (unproven.length > 0) disagreements.push(`seed ${seed}: not proven ${JSON.stringify(unproven)}`);
      }

      expect(disagreements).toEqual([]);
    },
  );

  it('is not what prices alone would keep: some tiny years need the second look', () => {
    const seeds = Array.from({ length: 150 }, (_, at) => at + 1);
    const inverted = seeds.filter((seed) => {
      const year = tinyYear(seed);
      const prices = { ...buildModel(year, weekByWeek, rules).prices, ...rules };
      const priced = cheapestByTrying(year, prices).rungs;
      const inOrder = bestInOrderOfWishes(year, prices).rungs;
      return priced.some((units, at) => Math.abs(units - (inOrder[at] ?? 0)) > 0.03);
    });

    expect(inverted.length).toBeGreaterThan(0);
  });

  it('costs no second solve where every wish is served', async () => {
    const year = { ...tinyYear(7), groups: [], kept: [] };
    const modest = {
      ...year,
      items: year.items.map((item) => ({
        ...item,
        useByWeek: item.useByWeek.map(() => 0),
        reserveUnits: 0,
        yearEndUnits: 0,
        familyMinimumUnits: null,
      })),
    };
    let solves = 0;
    const counted: Solve = (model, request) => {
      solves += 1;
      return solveInBackground(model, request);
    };

    await solveInRungs(buildModel(modest, weekByWeek, rules), counted, { gap: 0, secondsLimit: 60 });

    expect(solves).toBe(1);
  });
});
