import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { asCents } from '../../shared/money.ts';
import { makePlan, type PlanOptions } from '../../src/planning/make-plan.ts';
import { householdRules } from '../../src/planning/model/rules.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';
import { checkPlan } from './independent-checker.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from './plum-year.ts';

async function planned(year: PlanningYear, options: PlanOptions = {}): Promise<Plan> {
  const answer = await makePlan(year, solveInBackground, { gap: 0, ...options });
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  expect(checkPlan(answer.plan, year)).toEqual([]);
  return answer.plan;
}

/** Weeks of the year in which the plums of these tests come, and the one after. */
const ripe = 35;
const onlyIn = <T>(there: T, otherwise: T, ...weeks: readonly number[]): T[] =>
  plumWeeks.map((_, week) => (weeks.includes(week) ? there : otherwise));
const batchesOf = (plan: Plan, recipe: string, week?: number) =>
  plan.weeks
    .filter((_, at) => week === undefined || at === week)
    .flatMap(({ sessions }) => sessions.filter((session) => session.recipe === recipe))
    .reduce((sum, { batches }) => sum + batches, 0);

const rich = { opening: asCents(100_000), setAsideByWeek: plumWeeks.map(() => asCents(0)) };
const [orchard] = plumYear().sources;
const plums = (lb: number, kind: 'market' | 'garden' = 'market') =>
  orchard === undefined ? [] : [{ ...orchard, kind, lbByWeek: onlyIn(lb, 0, ripe) }];
const processing = jamRecipe.processing as NonNullable<PlannedRecipe['processing']>;

describe('what the freezer takes in', () => {
  // A pound of plums is a quart. Four quarts a day are 28 in the week the plums are ripe, in which nobody cans: two batches
  // of 10 lb can be kept for later, though three are wanted, 200 lb are to be had and 100 quarts stand empty.
  it('is seven days of what it can freeze in a day', async () => {
    const year = plumYear({
      fund: rich,
      sources: plums(200),
      recipes: [{ ...jamRecipe, produce: jamRecipe.produce.map((line) => ({ ...line, mayBeFrozen: true })) }],
      freezable: jamRecipe.produce.map(({ crop }) => ({
        crop,
        quartsPerLb: 1,
        keepsMonthsFrozen: 8,
        openingLb: 0,
      })),
      storage: { freezerQuarts: 100, freezerQuartsPerDay: 4, crockQuarts: 0 },
      time: { ...plumYear().time, maxSessionsByWeek: onlyIn(0, 1, ripe) },
    });

    const plan = await planned(year);

    expect(plan.weeks[ripe]?.materials[0]?.freeze ?? 0).toBeLessThanOrEqual(4 * 7 + 1e-6);
    expect(batchesOf(plan, 'jam-of-plums')).toBe(2);
  });
});

describe('a canner in a week in which it has been used', () => {
  // Loads of 140 minutes with ten minutes of work: two fit a session of 300 minutes, and one beside one that is done.
  const year = (kept: PlanningYear['kept']) =>
    plumYear({
      fund: rich,
      kept,
      sources: plums(100),
      recipes: [{ ...jamRecipe, handsOnMinutes: 10, processing: { ...processing, loadMinutes: 140 } }],
    });

  it('has only the rest of its minutes left', async () => {
    const week = plumWeeks[ripe] ?? ('' as never);
    const oneDone = [{ recipeId: jamRecipe.id, week, decision: 'done', batches: 1 } as const];

    expect(batchesOf(await planned(year([])), 'jam-of-plums', ripe)).toBe(2);
    expect(batchesOf(await planned(year(oneDone)), 'jam-of-plums', ripe)).toBe(1);
  });
});

describe('two crops of the garden and the time for one', () => {
  const pear = 'pear' as PlannedRecipe['produce'][number]['crop'];
  const butter = { ...plumJam, id: 'pear-butter' as typeof plumJam.id, name: 'Pear butter' };
  const pearButter: PlannedRecipe = {
    ...jamRecipe,
    id: 'butter-of-pears' as PlannedRecipe['id'],
    itemId: butter.id,
    name: 'Butter of pears',
    yieldLowUnits: 4,
    yieldHighJars: 4,
    produce: [{ crop: pear, lb: 20, mayBeFrozen: false }],
    processing: { ...processing, scheduleKey: 'pear-butter-pint' },
  };
  const garden = plums(10, 'garden').flatMap((tree) => [
    tree,
    { ...tree, id: 'pear-tree' as typeof tree.id, crop: pear, lbByWeek: onlyIn(20, 0, ripe) },
  ]);
  const year = plumYear({
    fund: rich,
    items: [plumJam, butter],
    recipes: [jamRecipe, pearButter],
    sources: garden,
    // Set-up of 30 minutes and one batch of 100.
    time: { ...plumYear().time, hoursPerSessionByWeek: plumWeeks.map(() => 2.2) },
  });

  // 10 lb of plums would have given 7 jars, 20 lb of pears 4: the pears are left, and count as the 4 jars they were not.
  it('leave the one that would have given fewer jars, at what those jars are worth', async () => {
    const plan = await planned(year);

    expect(batchesOf(plan, 'jam-of-plums', ripe)).toBe(1);
    expect(batchesOf(plan, 'butter-of-pears')).toBe(0);
    expect(plan.rungs.find(({ name }) => name === 'garden crop')?.missed).toBeCloseTo(4, 6);
  });
});

describe('a change to a week that is near', () => {
  const near = 2;
  const year = (kept: PlanningYear['kept']) =>
    plumYear({
      fund: rich,
      kept,
      sources: plums(20).map((source) => ({ ...source, lbByWeek: onlyIn(20, 0, near, ripe) })),
    });
  const decided = (decision: PlanningYear['kept'][number]) => [decision];
  const week = plumWeeks[near] ?? ('' as never);

  it('costs the same for each batch, more or fewer', async () => {
    const none = await planned(year(decided({ recipeId: jamRecipe.id, week, decision: 'ruled-out' })));
    const two = await planned(
      year(decided({ recipeId: jamRecipe.id, week, decision: 'pinned', batches: 2 })),
    );
    expect([batchesOf(none, 'jam-of-plums', near), batchesOf(two, 'jam-of-plums', near)]).toEqual([0, 2]);

    const more = await planned(
      year(decided({ recipeId: jamRecipe.id, week, decision: 'pinned', batches: 2 })),
      { earlier: none.weeks },
    );
    const fewer = await planned(year(decided({ recipeId: jamRecipe.id, week, decision: 'ruled-out' })), {
      earlier: two.weeks,
    });

    expect(more.objective.changes).toBeCloseTo(2 * householdRules.changeCentsPerBatch, 3);
    expect(fewer.objective.changes).toBeCloseTo(2 * householdRules.changeCentsPerBatch, 3);
  });
});
