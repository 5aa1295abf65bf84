import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../../server/solver/plan-year.ts';
import { planSoFar } from '../../../src/planning/answer/plan-so-far.ts';
import { buildModel, canningStage } from '../../../src/planning/model/build-model.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { minutesAtStove } from '../../../src/planning/year/recipe-time.ts';
import { jamRecipe, plumYear } from '../plum-year.ts';

async function soFar(year: PlanningYear) {
  const built = buildModel(year, { ...canningStage, earlier: null });
  const answer = await solveInBackground(built.model, { gap: 0 });
  if (answer.status !== 'solved') throw new Error(answer.detail);
  return { ...planSoFar(built, answer.values), objective: answer.objective };
}

// 30 jars stand, 26 are eaten, 17 are handed over and 2 are held back: 15 are missing, three batches of 7.
describe('what a plan comes to while it is looked for', () => {
  it('is foods that last, jars, time in the kitchen and money', async () => {
    const year = plumYear();

    const { foods, lasting, jars, minutes, cents } = await soFar(year);

    expect({ foods, lasting, jars }).toEqual({ foods: 1, lasting: 1, jars: 21 });
    const sessions = (minutes - 3 * minutesAtStove(jamRecipe)) / year.time.setUpMinutes;
    expect(sessions).toBeCloseTo(2, 6);
    // 20 lb at 90 and 10 lb at 120 cents; 15 lb of sugar less 4, at 80 cents; 24 jars and their spare lids less 10.
    expect(cents).toBeCloseTo(20 * 90 + 10 * 120 + 11 * 80 + (24 * 1.05 - 10) * (450 / 12), 3);
  });

  it('counts a food that is missed as one that does not last, and never its price as money', async () => {
    const sources = plumYear().sources.map((source) => ({
      ...source,
      lbByWeek: source.lbByWeek.map(() => 0),
    }));

    const { objective, ...none } = await soFar(plumYear({ sources }));

    expect(none).toEqual({ foods: 1, lasting: 0, jars: 0, minutes: 0, cents: 0 });
    expect(objective).toBeGreaterThan(0);
  });
});
