import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { readCanning } from '../../src/planning/answer/read-back.ts';
import { type BuiltModel, buildModel, canningStage } from '../../src/planning/model/build-model.ts';
import type { CanningDecision } from '../../src/planning/model/planning-stage.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import type { SolvedAnswer } from '../../src/planning/solving/solving.ts';
import { nothingPutUp, packedYear } from './packed-year.ts';
import { tinyYear } from './tiny-year.ts';

const seeds = Array.from({ length: 40 }, (_, at) => at + 1);

const packsAround = (year: PlanningYear, canning: CanningDecision): BuiltModel =>
  buildModel(year, { wholePacks: true, joinedWeeks: false, canning, earlier: null });

const packsOf = (seed: number): BuiltModel => {
  const year = packedYear(seed);
  return packsAround(year, nothingPutUp(year));
};

/** Packs around the best canning plan of a year in which little is bought ready: sugar, jars and lids come in packs too. */
async function packsForCanning(seed: number): Promise<BuiltModel> {
  const year = tinyYear(seed);
  const built = buildModel(year, { ...canningStage, joinedWeeks: false });
  return packsAround(year, readCanning(built, (await solved(built.model)).values));
}

const withoutRounding = ({ model }: BuiltModel) => ({
  ...model,
  rows: model.rows.filter(({ name }) => !name.startsWith('whole_packs')),
});

async function solved(model: BuiltModel['model'], relaxed = false): Promise<SolvedAnswer> {
  const answer = await solveInBackground(model, { gap: 0, relaxed });
  if (answer.status !== 'solved') throw new Error(`${answer.status}: ${answer.detail}`);
  return answer;
}

describe('whole packs by each week', () => {
  it('forbid no plan: the cheapest one costs the same with them and without', async () => {
    const disagreements: string[] = [];
    for (const seed of seeds) {
      const built = packsOf(seed);
      const [held, free] = [await solved(built.model), await solved(withoutRounding(built))];
      if (Math.abs(held.objective - free.objective) > 0.01 + 1e-6 * free.objective)
        disagreements.push(`seed ${seed}: ${held.objective} with, ${free.objective} without`);
    }

    expect(disagreements).toEqual([]);
  });

  it('forbid no plan where canning needs supplies, jars and lids', async () => {
    const disagreements: string[] = [];
    let held = 0;
    for (const seed of seeds) {
      const built = await packsForCanning(seed);
      const [rounded, free] = [await solved(built.model), await solved(withoutRounding(built))];
      held += built.model.rows.length - withoutRounding(built).rows.length;
      if (Math.abs(rounded.objective - free.objective) > 0.01 + 1e-6 * free.objective)
        disagreements.push(`seed ${seed}: ${rounded.objective} with, ${free.objective} without`);
    }

    expect(disagreements).toEqual([]);
    expect(held).toBeGreaterThan(seeds.length);
  });

  it('bring the relaxation nearer to whole packs, and never above them', async () => {
    let [without, held, whole] = [0, 0, 0];
    for (const seed of seeds) {
      const built = packsOf(seed);
      const relaxed = await solved(built.model, true);
      const best = await solved(built.model);

      expect(relaxed.objective).toBeLessThanOrEqual(best.objective + 0.01);

      without += (await solved(withoutRounding(built), true)).objective;
      held += relaxed.objective;
      whole += best.objective;
    }

    expect((whole - held) / (whole - without)).toBeLessThan(0.5);
  });
});
