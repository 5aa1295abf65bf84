import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../../server/solver/plan-year.ts';
import { makePlan } from '../../../src/planning/make-plan.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import type { MayChange } from '../../../src/planning/solving/held-batches.ts';
import { generatedHousehold } from '../generated-household.ts';
import { checkPlan } from '../independent-checker.ts';

const year = generatedHousehold({ seed: 2, preserves: 5, staples: 2 });
const crop = year.sources[0]?.crop;
/** More of one crop than before, in every week that has any. */
const richer: PlanningYear = {
  ...year,
  sources: year.sources.map((source) =>
    source.crop === crop ? { ...source, lbByWeek: source.lbByWeek.map((lb) => lb * 1.5) } : source,
  ),
};
const ofCropOnly: MayChange = ({ produce }) => produce.some((need) => need.crop === crop);

async function planned(of: PlanningYear, options: Parameters<typeof makePlan>[2]): Promise<Plan> {
  const answer = await makePlan(of, solveInBackground, options);
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  return answer.plan;
}

const otherBatches = ({ weeks }: Plan) =>
  weeks.flatMap(({ week, sessions }) =>
    sessions
      .filter(({ recipe }) => {
        const produce = year.recipes.find(({ id }) => id === recipe)?.produce ?? [];
        return !produce.some((need) => need.crop === crop);
      })
      .map(({ recipe, batches }) => `${week} ${recipe} ${batches}`),
  );

describe('batches held as they were planned', () => {
  it('stay in their weeks when only one crop may move, and the plan can be carried out', async () => {
    const before = await planned(year, {});

    const after = await planned(richer, { earlier: before.weeks, mayChange: ofCropOnly });

    expect(otherBatches(before).length).toBeGreaterThan(3);
    expect(otherBatches(after)).toEqual(otherBatches(before));
    expect(checkPlan(after, richer)).toEqual([]);
  });

  it('claim no bound above a plan in which everything may move', async () => {
    const before = await planned(year, {});
    const near = await planned(richer, { earlier: before.weeks, mayChange: ofCropOnly });
    const free = await planned(richer, { earlier: before.weeks });

    expect(near.bound).toBeLessThanOrEqual((free.objective.total ?? 0) + 0.01);
  });

  it('that no longer fit are let go: the whole year is planned again', async () => {
    const before = await planned(year, {});
    const without: PlanningYear = {
      ...year,
      time: { ...year.time, maxSessionsByWeek: year.time.maxSessionsByWeek.map(() => 0) },
    };

    const after = await planned(without, { earlier: before.weeks, mayChange: () => false });

    expect(after.weeks.flatMap(({ sessions }) => sessions)).toEqual([]);
    expect(checkPlan(after, without)).toEqual([]);
  });
});
