import { describe, expect, test } from 'vitest';
import type { WeekKey } from '../../../shared/week.ts';
import { type BatchMove, moveCost } from '../../../src/planning/explanation/move-cost.ts';
import type { Plan, PlannedSession } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import type { Solve, SolveAnswer, SolveRequest } from '../../../src/planning/solving/solving.ts';
import { jamRecipe, plumWeeks, plumYear } from '../plum-year.ts';

// Plums come in weeks 34 to 37, 20 lb each: two batches of 10 lb may be made in any of them.
const weekAt = (at: number): WeekKey => plumWeeks[at] ?? ('' as never);
const butter = { ...jamRecipe, id: 'butter-of-plums' as never, jarKind: null, processing: null };
const year = plumYear({ recipes: [jamRecipe, butter] });
const jam = 'jam-of-plums in pint/regular';

type Batches = Readonly<Record<number, number>>;
const planOf = (jams: Batches, butters: Batches = {}): Plan =>
  ({
    weeks: plumWeeks.map((week, at) => ({
      week,
      sessions: [
        ...(jams[at] === undefined
          ? []
          : [{ recipe: jamRecipe.id, batches: jams[at], jars: [{ kind: jamRecipe.jarKind, count: 8 }] }]),
        ...(butters[at] === undefined ? [] : [{ recipe: butter.id, batches: butters[at], jars: [] }]),
      ] as unknown as PlannedSession[],
    })),
  }) as unknown as Plan;

const solved = (objective: number) => ({ status: 'solved', objective }) as SolveAnswer;
const failed = (status: string) => ({ status, detail: '' }) as SolveAnswer;

/** What is asked of the solver: whole batches held, by name of their column, those of none left out. */
async function moved(
  plan: Plan,
  { by, from = 35, recipe = jamRecipe.id }: { by: number; from?: number; recipe?: BatchMove['recipe'] },
  answers: readonly SolveAnswer[] = [solved(100), solved(350.4)],
  of: PlanningYear = year,
) {
  const held: Record<string, number>[] = [];
  const requests: SolveRequest[] = [];
  const solve: Solve = async (model, request) => {
    requests.push(request);
    const batches: Record<string, number> = {};
    for (const [at, [least, most]] of request.bounds ?? []) {
      const name = model.columns[at]?.name ?? '';
      expect(name).toMatch(/^batches\[/);
      expect(least).toBe(most);
      if (most !== 0) batches[name] = most;
    }
    held.push(batches);
    return answers[held.length - 1] ?? failed('cancelled');
  };
  const cost = await moveCost(of, plan, { recipe, week: weekAt(from), by }, solve);
  return { cost, held, requests };
}
const nowhere = { outcome: 'cannot be made then' };

describe('a batch moved to another week', () => {
  test('costs what the year costs more, every other batch where it is', async () => {
    const { cost, held, requests } = await moved(planOf({ 34: 1, 35: 1 }, { 36: 1 }), { by: 1 });
    expect(cost).toEqual({ outcome: 'possible', cents: 250 });
    const rest = { [`batches[${jam},${weekAt(34)}]`]: 1, [`batches[butter-of-plums,${weekAt(36)}]`]: 1 };
    expect(held).toEqual([
      { ...rest, [`batches[${jam},${weekAt(35)}]`]: 1 },
      { ...rest, [`batches[${jam},${weekAt(36)}]`]: 1 },
    ]);
    // Both are held in every week in which they could be made, and worked out exactly.
    for (const { bounds, gap } of requests) {
      expect(bounds?.size).toBe(8);
      expect(gap).toBe(0);
    }
  });

  test('earlier as well, and may save something', async () => {
    const { cost, held } = await moved(planOf({ 35: 2 }), { by: -1 }, [solved(400), solved(100)]);
    expect(cost).toEqual({ outcome: 'possible', cents: -300 });
    expect(held[1]).toEqual({ [`batches[${jam},${weekAt(34)}]`]: 2 });
  });

  test('goes in beside what stands there, as far as its produce reaches', async () => {
    expect((await moved(planOf({ 35: 1, 36: 1 }), { by: 1 })).held[1]).toEqual({
      [`batches[${jam},${weekAt(36)}]`]: 2,
    });
    const over = await moved(planOf({ 35: 2, 36: 1 }), { by: 1 });
    expect(over.cost).toEqual(nowhere);
    expect(over.held).toEqual([]);
  });

  test('is the recipe that was named, of those in the week', async () => {
    const { held } = await moved(planOf({ 35: 1 }, { 35: 2 }), { by: 1, recipe: butter.id });
    expect(held[1]).toEqual({
      [`batches[${jam},${weekAt(35)}]`]: 1,
      [`batches[butter-of-plums,${weekAt(36)}]`]: 2,
    });
  });

  test('is that in the jars planned, where a recipe has several', async () => {
    const quart = { ...jamRecipe, jarKind: 'quart/wide' as never };
    const both = plumYear({ recipes: [quart, jamRecipe] });
    const plan = planOf({ 35: 1 });
    const { held } = await moved(plan, { by: 1 }, undefined, both);
    expect(held).toEqual([
      { [`batches[${jam},${weekAt(35)}]`]: 1 },
      { [`batches[${jam},${weekAt(36)}]`]: 1 },
    ]);
  });

  test('cannot be made out of season, outside the year, or where nothing is planned', async () => {
    const plan = planOf({ 35: 1, 37: 1 });
    expect((await moved(plan, { from: 37, by: 1 })).cost).toEqual(nowhere);
    expect((await moved(plan, { by: 40 })).cost).toEqual(nowhere);
    expect((await moved(plan, { by: -36 })).cost).toEqual(nowhere);
    expect((await moved(plan, { from: 34, by: 1 })).cost).toEqual(nowhere);
    expect((await moved(plan, { from: 99, by: 1 })).cost).toEqual(nowhere);
    expect((await moved(plan, { by: 1, recipe: 'gone' as never })).cost).toEqual(nowhere);
  });

  test('does not fit where the rest of the plan leaves no room for it', async () => {
    const { cost } = await moved(planOf({ 35: 1 }), { by: 1 }, [solved(1), failed('infeasible')]);
    expect(cost).toEqual({ outcome: 'does not fit' });
  });

  test('is not worked out where the solver stops before, with its reason', async () => {
    const plan = planOf({ 35: 1 });
    const before = await moved(plan, { by: 1 }, [failed('infeasible'), solved(1)]);
    expect(before.cost).toEqual({ outcome: 'not worked out', detail: 'infeasible' });
    expect(before.held).toHaveLength(1);
    const then = await moved(plan, { by: 1 }, [solved(1), failed('time limit without plan')]);
    expect(then.cost).toEqual({ outcome: 'not worked out', detail: 'time limit without plan' });
  });
});
