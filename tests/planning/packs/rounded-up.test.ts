import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../../server/solver/plan-year.ts';
import { makePlan } from '../../../src/planning/make-plan.ts';
import type { Model } from '../../../src/planning/model/model.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import type { Solve, SolveRequest } from '../../../src/planning/solving/solving.ts';
import { generatedHousehold } from '../generated-household.ts';
import { checkPlan } from '../independent-checker.ts';

/** A busy machine: no answer comes in time to some questions. */
const tooBusyFor =
  (isAsked: (model: Model, request: SolveRequest) => boolean): Solve =>
  async (model, request) =>
    isAsked(model, request)
      ? { status: 'time limit without plan', detail: 'busy' }
      : solveInBackground(model, request);

const isOfPacks = ({ rows }: Model) => rows.some(({ name }) => name.startsWith('whole_packs['));
const isWeekly = ({ items, weeks }: PlanningYear) => {
  const all = items.length * weeks.length;
  return ({ rows }: Model) => rows.filter(({ name }) => name.startsWith('stock_balance[')).length === all;
};

const years = [
  { what: 'money enough', ...{ seed: 1, preserves: 4, staples: 4 } },
  { what: 'too little money', ...{ seed: 3, preserves: 3, staples: 3, fundShare: 0.55 } },
] as const;

const canned = ({ weeks }: Plan) =>
  weeks.map(({ sessions }) => sessions.map(({ recipe, batches }) => `${recipe} ${batches}`));

async function planned(year: PlanningYear, solve: Solve): Promise<Plan> {
  const answer = await makePlan(year, solve, { gap: 0.02 });
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  return answer.plan;
}

describe.each(years)('on a busy machine, with $what,', ({ what: _, ...size }) => {
  const year = generatedHousehold(size);

  it('the canning plan stands and packs are rounded up where none were found in time', async () => {
    const [quiet, busy] = [
      await planned(year, solveInBackground),
      await planned(year, tooBusyFor(isOfPacks)),
    ];

    expect(canned(busy)).toEqual(canned(quiet));
    expect(busy.packRounding.isRoundedUp).toBe(true);
    expect(quiet.packRounding.isRoundedUp).toBeUndefined();
    expect(checkPlan(busy, year)).toEqual([]);
  });

  it('so too where nothing was worked out week by week', async () => {
    const weekly = isWeekly(year);
    const busy = await planned(year, tooBusyFor(weekly));

    expect(busy.weeks.flatMap(({ sessions }) => sessions).length).toBeGreaterThan(0);
    expect(busy.packRounding.isRoundedUp).toBe(true);
    expect(checkPlan(busy, year)).toEqual([]);
  });

  it('batches are rounded down where no canning plan was found in time, and the gap says how far it may be from the best', async () => {
    const busy = await planned(
      year,
      tooBusyFor((model, { relaxed }) => !relaxed && !isWeekly(year)(model)),
    );

    expect(busy.weeks.flatMap(({ sessions }) => sessions).length).toBeGreaterThan(0);
    expect(busy.gap).toBeGreaterThanOrEqual(0);
    expect(busy.gap).toBeLessThanOrEqual(1);
    expect(busy.bound).toBeLessThanOrEqual((busy.objective.total ?? 0) + 1e-6);
    expect(checkPlan(busy, year)).toEqual([]);
  });
});

describe('on a machine that finds nothing at all', () => {
  it('there is the plan that needs no solver, and it says so', async () => {
    const answer = await makePlan(
      generatedHousehold(years[0]),
      tooBusyFor(() => true),
    );

    expect(answer.outcome).toBe('time limit without plan');
  });
});
