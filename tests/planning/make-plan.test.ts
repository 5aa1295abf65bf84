import { describe, expect, test } from 'vitest';
import { asCents } from '../../shared/money.ts';
import {
  makePlan,
  type PlanningAnswer,
  type PlanOptions,
  type PlanProgress,
} from '../../src/planning/make-plan.ts';
import { type Model, objectiveOf } from '../../src/planning/model/model.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { shortSeconds } from '../../src/planning/solving/priced-solve.ts';
import type { Solve, SolveAnswer, SolvedAnswer, UnsolvedAnswer } from '../../src/planning/solving/solving.ts';
import { planOf } from './short-plan.ts';
import { batchOf, byWeek, food, pack, pint, shortYear, sourceOf, weekAt } from './short-year.ts';

// Four weeks: a batch of jam in the third from five pounds at a dollar, sugar at 400 for five pounds; oats in bags of two at 300.
const year = shortYear(4, {
  foods: [
    food('jam', { kind: 'preserve', jarKind: pint, useByWeek: [0, 0, 2, 2] }),
    food('oats', { packs: [pack('bag', 2, 300)] }),
  ],
  sources: [sourceOf('tree')],
  recipes: [batchOf('jam-of-plums', 'jam', { allowedByWeek: [false, false, true, true] })],
  supplies: [{ id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 5, packPrice: asCents(400) }],
  jars: [{ kind: pint, owned: 99, empty: 99, pack: 12, packPrice: asCents(900), returnShare: 0 }],
  lids: [{ mouth: 'regular', onHand: 99, box: 12, boxPrice: asCents(300) }],
});

type Told = Readonly<Record<string, number>>;
/** In any amount: two pounds of sugar, two bags of oats. */
const inAnyAmount: Told = {
  'batches[jam-of-plums in pint/regular,2027-W03]': 1,
  'total_batches[jam-of-plums in pint/regular]': 1,
  'sessions[2027-W03]': 1,
  'produce[tree,2027-W03]': 5,
  'supply_bought[sugar,2027-W02]': 0.4,
  ...byWeek('purchases[oats,bag,*]', [0.5, 0.5, 0.5, 0.5]),
};
const wholePacks: Told = {
  ...inAnyAmount,
  'supply_bought[sugar,2027-W02]': 1,
  ...byWeek('purchases[oats,bag,*]', [1, 0, 1, 0]),
};
const moneyInAnyAmount = 500 + 160 + 600;

type Stage = 'canning' | 'weekly' | 'packs';
interface Question {
  readonly stage: Stage;
  readonly model: Model;
  readonly request: Parameters<Solve>[1];
}
const stageOf = ({ columns }: Model): Stage => {
  if (columns.some(({ name }) => name.startsWith('fund_over['))) return 'packs';
  return columns.some(({ name, lower }) => name.startsWith('sessions[') && lower > 0) ||
    columns.filter(({ name }) => name.startsWith('sessions[')).every(({ upper }) => upper === 0)
    ? 'weekly'
    : 'canning';
};
const unsolved = (status: UnsolvedAnswer['status']): UnsolvedAnswer => ({ status, detail: `said ${status}` });
const solved = (model: Model, told: Told, change: Partial<SolvedAnswer> = {}): SolvedAnswer => {
  const values = Float64Array.from(model.columns, ({ name }) => told[name] ?? 0);
  const objective = objectiveOf(model, values);
  return {
    status: 'solved',
    stoppedBy: 'gap',
    values,
    objective,
    bound: objective,
    basis: null,
    nodes: 0,
    seconds: 1,
    ...change,
  };
};
type Answering = (question: Question, at: number) => SolveAnswer;
const usual: Record<Stage, Answering> = {
  canning: ({ model }) => solved(model, inAnyAmount, { seconds: 10 }),
  weekly: ({ model }) => solved(model, inAnyAmount, { seconds: 3 }),
  packs: ({ model }) => solved(model, wholePacks),
};
/** A solver that keeps what it is asked, stage by stage. */
function scripted(change: Partial<Record<Stage, Answering>> = {}) {
  const questions: Question[] = [];
  const solve: Solve = async (model, request) => {
    const question = { stage: stageOf(model), model, request };
    const at = questions.filter(({ stage }) => stage === question.stage).length;
    questions.push(question);
    return { ...usual, ...change }[question.stage](question, at);
  };
  return { questions, solve, stages: () => questions.map(({ stage }) => stage) };
}
function planned(answer: PlanningAnswer): Extract<PlanningAnswer, { outcome: 'planned' }> {
  if (answer.outcome !== 'planned') throw new Error(`${answer.outcome}: ${answer.detail}`);
  return answer;
}
const made = async (change: Partial<Record<Stage, Answering>> = {}, options: PlanOptions = {}) =>
  planned(await makePlan(year, scripted(change).solve, options));
const bagsIn = ({ weeks }: Plan) =>
  weeks.map(({ purchases }) => purchases.find(({ what }) => what === 'oats')?.packs?.count ?? 0);
const batchesIn = ({ weeks }: Plan) => weeks.map(({ sessions }) => sessions[0]?.batches ?? 0);

describe('a plan of a year', () => {
  test('is what to put up, then the same week by week, then whole packs around it', async () => {
    const { solve, stages } = scripted();

    const { plan, paths } = planned(await makePlan(year, solve));

    expect([...new Set(stages())]).toEqual(['canning', 'weekly', 'packs']);
    expect(stages().slice(0, 3)).toEqual(['canning', 'weekly', 'packs']);
    expect(batchesIn(plan)).toEqual([0, 0, 1, 0]);
    expect(bagsIn(plan)).toEqual([1, 0, 1, 0]);
    expect(plan.weeks.map(({ spend }) => spend)).toEqual([300, 400, 800, 0]);
    expect(paths.map(({ item }) => item)).toEqual(['jam', 'oats']);
  });

  test('says what was proven and how long it took', async () => {
    const { plan, ...answer } = await made({
      canning: ({ model }) =>
        solved(model, inAnyAmount, { seconds: 10, bound: 1000, stoppedBy: 'node limit' }),
    });

    expect(answer).toMatchObject({ stoppedBy: 'node limit', canningSeconds: 10 });
    expect(plan.bound).toBe(1000);
    const total = plan.objective.total ?? 0;
    expect(total).toBeGreaterThan(1000);
    expect(plan.gap).toBeCloseTo((total - 1000) / total, 9);
    expect(plan.solveSeconds).toBe(10 + 3 + 1);
    expect(plan.objective).toMatchObject({ groceries: 600, produce: 500, supplies: 160 });
  });

  test('claims no bound above what it costs', async () => {
    const { plan } = await made({ canning: ({ model }) => solved(model, inAnyAmount, { bound: 1e6 }) });

    expect(plan.bound).toBe(plan.objective.total);
    expect(plan.gap).toBe(0);
  });

  test('says what whole packs cost over any amount, and how near to the least that is', async () => {
    const { plan } = await made();
    // Sugar for 400 where 160 would do; oats cost the same.
    expect(plan.packRounding).toEqual({ cost: 240, gap: 0 });

    const looser = await made({
      packs: ({ model }, at) => solved(model, wholePacks, { bound: at === 0 ? 750 : 0 }),
    });
    const { gap } = looser.plan.packRounding;
    // A thousand for packs, 500 for plums, 40 for the session; keeping a few cents.
    expect(gap).toBeCloseTo((1540 - 750) / 1540, 3);
  });

  test('tells the size of what was asked', async () => {
    const { questions, solve } = scripted();
    const { size } = planned(await makePlan(year, solve));
    const { columns, rows } = questions[0]?.model ?? { columns: [], rows: [] };

    expect(size).toEqual({
      rows: rows.length,
      columns: columns.length,
      integers: columns.filter(({ integer }) => integer).length,
    });
    expect(size.integers).toBeGreaterThan(0);
    expect(size.integers).toBeLessThan(size.columns);
  });

  test('tells what each rung misses, proven as far as canning was', async () => {
    const missed: Told = { ...wholePacks, 'shortage[oats,2027-W04]': 0.9 };
    const short: Told = { ...inAnyAmount, 'shortage[oats,2027-W04]': 0.5 };
    const { plan } = await made({
      canning: ({ model, request }) => solved(model, short, request.relaxed === true ? { bound: 0.5 } : {}),
      weekly: ({ model }) => solved(model, short),
      packs: ({ model }) => solved(model, missed),
    });

    // What is bought and missed in the fourth week is missed of the coming weeks too.
    const both = ['coming weeks', 'use'];
    expect(plan.rungs.filter(({ name }) => both.includes(name))).toEqual(
      both.map((name) => ({ name, missed: 0.9, atLeast: 0.5 })),
    );
    expect(plan.rungs.filter(({ name }) => !both.includes(name)).every(({ atLeast }) => atLeast === 0)).toBe(
      true,
    );
  });

  test('is refused of a year that breaks a rule, with all it breaks', async () => {
    const unsound = {
      ...year,
      items: year.items.map((item) => ({ ...item, useByWeek: [1] })),
    };

    await expect(makePlan(unsound, scripted().solve)).rejects.toThrow(
      /Use of jam should have one entry.*\. Use of oats should have one entry/,
    );
  });
});

describe('what the stages are asked', () => {
  const soonOf = (question: Question | undefined) =>
    shortSeconds(question?.model.columns.length ?? Number.NaN, 0);

  test('is nine tenths of the gap and four fifths of the seconds for canning, none for the weeks', async () => {
    const { questions, solve } = scripted();
    await makePlan(year, solve);
    const of = (stage: Stage) => questions.find((one) => one.stage === stage)?.request;

    expect(of('canning')?.gap).toBeCloseTo(0.009, 12);
    // The first solve ends soon, or goes on for three quarters of the seconds.
    const soon = soonOf(questions[0]);
    expect(of('canning')?.secondsLimit).toBeCloseTo(soon, 9);
    const unsure = scripted({ canning: () => unsolved('time limit without plan') });
    await makePlan(year, unsure.solve);
    expect(unsure.questions[1]?.request.secondsLimit).toBeCloseTo(60 * 0.8 * 0.75 - soon, 9);
    expect(of('weekly')).toMatchObject({ gap: 0 });
    const weekly = scripted({ weekly: () => unsolved('time limit without plan') });
    await makePlan(year, weekly.solve);
    const limits = weekly.questions
      .filter(({ stage }) => stage === 'weekly')
      .map(({ request }) => request.secondsLimit ?? Number.NaN);
    expect(limits).toHaveLength(2);
    expect(limits.reduce((sum, seconds) => sum + seconds, 0)).toBeCloseTo(7.5, 9);
    for (const { request } of questions) expect(request).not.toHaveProperty('signal');
    for (const { request } of questions) expect(request).not.toHaveProperty('onProgress');
  });

  test('is within the gap and the seconds given, and may be called off at any time', async () => {
    const { questions, solve } = scripted();
    const { signal } = new AbortController();
    await makePlan(year, solve, { gap: 0.1, secondsLimit: 10, signal });

    expect(questions[0]?.request.gap).toBeCloseTo(0.09, 12);
    expect(questions[0]?.request.secondsLimit).toBeCloseTo(soonOf(questions[0]), 9);
    const brief = scripted();
    await makePlan(year, brief.solve, { secondsLimit: 1 });
    expect(brief.questions[0]?.request.secondsLimit).toBeCloseTo(0.6, 9);
    for (const { request } of questions) expect(request.signal).toBe(signal);
  });

  test('is no closer look at a rung than canning took', async () => {
    const short: Told = { ...inAnyAmount, 'shortage[oats,2027-W04]': 0.5 };
    const { stages, solve } = scripted({
      canning: ({ model, request }) => solved(model, short, request.relaxed === true ? { bound: 0.5 } : {}),
      weekly: ({ model }) => solved(model, short),
    });

    await makePlan(year, solve);

    expect(stages().filter((stage) => stage === 'weekly')).toHaveLength(1);
  });
});

describe('the weeks of a plan', () => {
  const stocksOf = (question: Question | undefined) =>
    (question?.model.columns ?? []).filter(({ name }) => name.startsWith('stock[oats,')).length;
  const jamOf = (question: Question | undefined) =>
    (question?.model.columns ?? []).filter(({ name }) => name.startsWith('stock[jam,')).length;

  test('may be joined while canning is open, and stand each for itself after', async () => {
    const { questions, solve } = scripted();

    await makePlan(year, solve);

    const first = (stage: Stage) => questions.find((one) => one.stage === stage);
    // No jam can come before the third week: the two before it are one.
    expect((['canning', 'weekly', 'packs'] as const).map((stage) => jamOf(first(stage)))).toEqual([3, 4, 4]);
    expect(stocksOf(first('packs'))).toBe(4);
  });

  test('settle what packs may miss: no more is looked for block by block', async () => {
    const short = (missed: number, told: Told): Told => ({ ...told, 'shortage[oats,2027-W04]': missed });
    const relaxedAt = ({ request }: Question, bound: number) => (request.relaxed === true ? { bound } : {});
    const { questions, solve } = scripted({
      canning: (question) => solved(question.model, short(0.5, inAnyAmount), relaxedAt(question, 0.5)),
      weekly: (question) => solved(question.model, short(0.9, inAnyAmount), relaxedAt(question, 0.9)),
      packs: ({ model }) => solved(model, short(0.9, wholePacks)),
    });

    await makePlan(year, solve);

    const sizes = questions.filter(({ stage }) => stage === 'packs').map(({ model }) => model.columns.length);
    expect(new Set(sizes).size).toBe(1);
  });
});

describe('progress', () => {
  test('is told with what the best plan so far comes to, from the first on', async () => {
    const told: PlanProgress[] = [];
    const step = { incumbent: 9, bound: 1, gap: 0.5, seconds: 2 };
    const { solve } = scripted({
      canning: ({ model, request }) => {
        const { values } = solved(model, inAnyAmount);
        request.onProgress?.({ ...step, incumbent: null });
        request.onProgress?.({ ...step, values });
        request.onProgress?.(step);
        return solved(model, inAnyAmount);
      },
    });

    await makePlan(year, solve, { onProgress: (progress) => told.push(progress) });

    const soFar = { foods: 2, lasting: 2, jars: 4, minutes: 60, cents: moneyInAnyAmount };
    expect(told).toEqual([
      { ...step, incumbent: null },
      { ...step, soFar },
      { ...step, soFar },
    ]);
  });
});

describe('a year of which no plan is found', () => {
  test.each([
    ['infeasible', 'infeasible'],
    ['unbounded', 'solver crashed'],
    ['solver crashed', 'solver crashed'],
    ['cancelled', 'cancelled'],
  ] as const)('says so: %s', async (status, outcome) => {
    const { stages, solve } = scripted({ canning: () => unsolved(status) });

    const answer = await makePlan(year, solve);

    expect(answer).toMatchObject({ outcome, detail: `canning: said ${status}` });
    expect(stages()).toEqual(['canning']);
  });

  test('has the plan that needs no solver, with nothing proven', async () => {
    const answer = await makePlan(year, scripted({ canning: () => unsolved('infeasible') }).solve);

    if (answer.outcome === 'planned') throw new Error('planned');
    const { plan, paths } = answer.fallback;
    expect(bagsIn(plan)).toEqual([1, 0, 1, 0]);
    expect(batchesIn(plan)).toEqual([0, 0, 0, 0]);
    expect(plan).toMatchObject({
      objective: { groceries: 600, total: 600 },
      bound: 0,
      gap: 1,
      solveSeconds: 0,
      packRounding: { cost: 0, gap: 0 },
      rungs: [],
    });
    expect(paths.map(({ boughtByWeek }) => boughtByWeek)).toEqual([
      [0, 0, 0, 0],
      [2, 0, 2, 0],
    ]);
  });

  test.each([
    ['week by week', { weekly: () => unsolved('cancelled') }],
    ['whole packs', { packs: () => unsolved('cancelled') }],
  ] as const)('is none once it is called off %s', async (stage, change) => {
    expect(await makePlan(year, scripted(change).solve)).toMatchObject({
      outcome: 'cancelled',
      detail: `${stage}: said cancelled`,
    });
  });
});

describe('packs that are not found in time', () => {
  test('are rounded up, with what that costs over any amount', async () => {
    const { plan } = await made({ packs: () => unsolved('time limit without plan') });

    expect(bagsIn(plan)).toEqual([1, 0, 1, 0]);
    expect(plan.packRounding).toEqual({ cost: 240, gap: expect.closeTo(240 / 1500, 9), isRoundedUp: true });
    expect(plan.solveSeconds).toBe(13);
    expect(plan.rungs.every(({ missed }) => missed === 0)).toBe(true);
  });

  test('are rounded up around the first stage where nothing was worked out week by week', async () => {
    const { stages, solve } = scripted({ weekly: () => unsolved('time limit without plan') });

    const { plan } = planned(await makePlan(year, solve));

    expect(stages()).not.toContain('packs');
    expect(batchesIn(plan)).toEqual([0, 0, 1, 0]);
    expect(plan.packRounding).toMatchObject({ cost: 240, isRoundedUp: true });
    expect(plan.solveSeconds).toBe(10);
  });
});

describe('canning that is not found in time', () => {
  const half: Told = {
    ...inAnyAmount,
    'batches[jam-of-plums in pint/regular,2027-W03]': 1.9999999,
    'batches[jam-of-plums in pint/regular,2027-W04]': 0.8,
    'sessions[2027-W03]': 0.3,
    'sessions[2027-W04]': 1e-9,
  };
  const relaxedAlone: Answering = ({ model, request }) =>
    request.relaxed === true
      ? solved(model, half, { bound: 100, seconds: 4 })
      : unsolved('time limit without plan');

  test('is the relaxation rounded down, in the sessions it needs', async () => {
    const { questions, solve } = scripted({
      canning: relaxedAlone,
      weekly: ({ model }) =>
        solved(model, { ...inAnyAmount, 'shortage[oats,2027-W04]': 0.5 }, { seconds: 3 }),
    });
    const { signal } = new AbortController();

    const { plan, stoppedBy } = planned(await makePlan(year, solve, { signal }));

    expect(batchesIn(plan)).toEqual([0, 0, 2, 0]);
    expect(plan.weeks.map(({ kitchenSessions }) => kitchenSessions)).toEqual([0, 0, 1, 0]);
    expect(stoppedBy).toBe('time limit');
    expect(plan.bound).toBe(100);
    // Soon, and as long as there is time for it.
    expect(questions.slice(0, 2).every(({ request }) => request.relaxed !== true)).toBe(true);
    expect(questions[2]?.request).toEqual({ gap: 0, relaxed: true, secondsLimit: 30, signal });
    // What it misses is not looked at more closely week by week.
    expect(questions.filter(({ stage }) => stage === 'weekly')).toHaveLength(1);
    expect(plan.rungs.every(({ atLeast }) => atLeast === 0)).toBe(true);
  });

  test('is none where nothing is found week by week either', async () => {
    const { solve } = scripted({ canning: relaxedAlone, weekly: () => unsolved('time limit without plan') });

    expect(await makePlan(year, solve)).toMatchObject({
      outcome: 'time limit without plan',
      detail: 'week by week: said time limit without plan',
    });
  });

  test('is none where the relaxation has no answer', async () => {
    const { stages, solve } = scripted({ canning: () => unsolved('time limit without plan') });

    expect(await makePlan(year, solve)).toMatchObject({
      outcome: 'time limit without plan',
      detail: 'canning: said time limit without plan',
    });
    expect(stages()).toEqual(['canning', 'canning', 'canning']);
  });
});

describe('planning near an earlier plan', () => {
  const earlier = planOf(year, { 3: { sessions: [{ recipe: 'jam-of-plums', batches: 1 }] } }).weeks;
  const held = ({ model, request }: Question) =>
    [...(request.bounds ?? [])].map(([at, both]) => [model.columns[at]?.name, both]);
  const weekThree = 'batches[jam-of-plums in pint/regular,2027-W03]';
  const weekFour = 'batches[jam-of-plums in pint/regular,2027-W04]';

  test('holds what may not change, and has the bound of the relaxation with nothing held', async () => {
    const { questions, solve } = scripted({
      canning: ({ model, request }) =>
        solved(model, inAnyAmount, { bound: request.relaxed === true ? 700 : 1200, seconds: 10 }),
    });

    const { plan } = planned(await makePlan(year, solve, { earlier, mayChange: (_, week) => week === 2 }));

    const canning = questions.filter(({ stage }) => stage === 'canning');
    expect(canning.map(held)).toEqual([[[weekFour, [1, 1]]], []]);
    expect(canning[1]?.request.relaxed).toBe(true);
    expect(plan.bound).toBe(700);
    expect(canning[0]?.model.columns.map(({ name }) => name)).toContain('changed[jam-of-plums,2027-W04]');
  });

  test('proves nothing where that relaxation has no answer, and never more than it costs', async () => {
    const bound = async (relaxed: (model: Model) => SolveAnswer) => {
      const { solve } = scripted({
        canning: ({ model, request }) =>
          request.relaxed === true ? relaxed(model) : solved(model, inAnyAmount, { bound: 1200 }),
      });
      const { plan } = planned(await makePlan(year, solve, { earlier, mayChange: () => false }));
      return plan.bound;
    };

    expect(await bound(() => unsolved('time limit without plan'))).toBe(0);
    expect(await bound((model) => solved(model, inAnyAmount, { bound: 1e9 }))).toBeLessThan(2000);
  });

  test('asks the whole year where what is held no longer fits', async () => {
    const { questions, solve } = scripted({
      canning: ({ model, request }) =>
        request.bounds === undefined ? solved(model, inAnyAmount, { bound: 1100 }) : unsolved('infeasible'),
    });

    const { plan } = planned(await makePlan(year, solve, { earlier, mayChange: () => false }));

    expect(questions.filter(({ stage }) => stage === 'canning').map(held)).toEqual([
      [
        [weekThree, [0, 0]],
        [weekFour, [1, 1]],
      ],
      [],
    ]);
    expect(plan.bound).toBe(1100);
  });

  test.each([
    ['the plan', (relaxed: boolean) => !relaxed],
    ['its bound', (relaxed: boolean) => relaxed],
  ])('is called off while %s is looked for', async (_, isCalledOff) => {
    const { stages, solve } = scripted({
      canning: ({ model, request }) =>
        isCalledOff(request.relaxed === true) ? unsolved('cancelled') : solved(model, inAnyAmount),
    });

    const answer = await makePlan(year, solve, { earlier, mayChange: () => false });

    expect(answer).toMatchObject({ outcome: 'cancelled', detail: 'canning: said cancelled' });
    expect(stages()).toHaveLength(isCalledOff(false) ? 1 : 2);
  });

  test('proves nothing of a rung', async () => {
    const short: Told = { ...inAnyAmount, 'shortage[oats,2027-W04]': 0.5 };
    const { solve, stages } = scripted({
      canning: ({ model, request }) => solved(model, short, request.relaxed === true ? { bound: 0.5 } : {}),
      weekly: ({ model }) => solved(model, short),
      packs: ({ model }) => solved(model, { ...wholePacks, 'shortage[oats,2027-W04]': 0.5 }),
    });

    const { plan } = planned(await makePlan(year, solve, { earlier, mayChange: () => false }));

    expect(plan.rungs.find(({ name }) => name === 'use')).toEqual({ name: 'use', missed: 0.5, atLeast: 0 });
    expect(stages().filter((stage) => stage === 'weekly')).toHaveLength(1);
  });

  const planBefore = (change: Partial<Plan> = {}, of: Pick<PlanningYear, 'items'> = year) => ({
    year: of,
    plan: { ...planOf(year, { 3: { sessions: [{ recipe: 'jam-of-plums', batches: 1 }] } }), ...change },
  });
  const canningIn = (questions: readonly Question[]) => questions.filter(({ stage }) => stage === 'canning');

  test('begins from it where it is told to: its batches held in a question before, whose answer the search starts with', async () => {
    const { questions, solve } = scripted();

    await makePlan(year, solve, { earlier, beginsFrom: planBefore() });

    const [first, search, ...others] = canningIn(questions);
    expect(first === undefined ? [] : held(first)).not.toEqual([]);
    expect(first?.request.start).toBeUndefined();
    expect(search === undefined ? null : held(search)).toEqual([]);
    expect(search?.request.start).toBeDefined();
    expect(others).toEqual([]);
  });

  test('opens what changed, then what shares a crop with it, while a wish heavier than reserve is missed more than by that plan', async () => {
    const short: Told = { ...inAnyAmount, 'shortage[oats,2027-W04]': 0.5 };
    const lessJam = {
      items: year.items.map((item) => (item.id === 'jam' ? { ...item, yearEndUnits: 3 } : item)),
    };
    const asked = async (change: Partial<Plan>) => {
      const { questions, solve } = scripted({ canning: ({ model }) => solved(model, short) });
      await makePlan(year, solve, { earlier, beginsFrom: planBefore(change, lessJam) });
      return canningIn(questions)
        .filter(({ request }) => request.gap === 0.002)
        .map(held);
    };
    const holding = [
      [weekThree, [0, 0]],
      [weekFour, [1, 1]],
    ];

    expect(await asked({})).toEqual([holding, [], []]);
    const missed = (name: Plan['rungs'][number]['name']) => ({ name, missed: 0.5, atLeast: 0.5 });
    expect(await asked({ rungs: [missed('coming weeks'), missed('use')] })).toEqual([holding]);
  });

  test('ends soon in a new week, and about as near to the best as that plan was where its search ended unproven in the same week', async () => {
    const asked = async (change: Partial<Plan>, stands: Told = inAnyAmount) => {
      const { questions, solve } = scripted({ canning: ({ model }) => solved(model, stands) });
      await makePlan(year, solve, { earlier, beginsFrom: planBefore(change), secondsLimit: 100 });
      const { gap, secondsLimit } = canningIn(questions)[1]?.request ?? {};
      return { gap, secondsLimit };
    };
    const usual = { gap: 0.01 * 0.9, secondsLimit: 60 };

    expect(await asked({ gap: 0.01 })).toEqual(usual);
    const near = await asked({ gap: 0.2 });
    expect(near.gap).toBeCloseTo(0.22, 9);
    expect(near.secondsLimit).toBeLessThan(usual.secondsLimit);
    const ofNewWeek = await asked({ gap: 0.2, weeks: earlier.slice(1) });
    expect(ofNewWeek.gap).toBe(usual.gap);
    expect(ofNewWeek.secondsLimit).toBeLessThan(usual.secondsLimit);
  });

  test('begins from nothing where its batches no longer fit, or there is none', async () => {
    const { questions, solve } = scripted({
      canning: (asked) =>
        held(asked).length > 0 ? unsolved('infeasible') : solved(asked.model, inAnyAmount),
    });

    planned(await makePlan(year, solve, { earlier, beginsFrom: planBefore() }));
    planned(await makePlan(year, solve, { earlier }));

    const searches = canningIn(questions).filter(
      (one) => held(one).length === 0 && one.request.gap === 0.01 * 0.9,
    );
    expect(searches).toHaveLength(2);
    expect(searches[1]?.request.start).toBeUndefined();
  });

  test('holds nothing where any batch may change', async () => {
    const { questions, solve } = scripted();

    await makePlan(year, solve, { earlier });
    await makePlan(year, solve, { mayChange: () => false });

    expect(questions.filter(({ stage }) => stage === 'canning').map(held)).toEqual([[], []]);
  });
});

describe('how long items last under a plan', () => {
  test('is asked item by item, one after the other', async () => {
    const asked: string[] = [];
    let running = 0;
    const { plan } = await made(
      {},
      {
        outlookOf: async ({ item, boughtByWeek }) => {
          running += 1;
          expect(running).toBe(1);
          asked.push(`${item} ${boughtByWeek.join(' ')}`);
          await Promise.resolve();
          running -= 1;
          return {
            runOutWeek: { p10: null, p50: weekAt(1), p90: null },
            chanceOfLasting: item === 'jam' ? 0.25 : 0.75,
          };
        },
      },
    );

    expect(asked).toEqual(['jam 0 0 0 0', 'oats 2 0 2 0']);
    expect(plan.items.map(({ chanceOfLasting, runOutWeek }) => [chanceOfLasting, runOutWeek.p50])).toEqual([
      [0.25, weekAt(1)],
      [0.75, weekAt(1)],
    ]);
  });

  test('is asked of the plan that needs no solver as well', async () => {
    const answer = await makePlan(year, scripted({ canning: () => unsolved('infeasible') }).solve, {
      outlookOf: () => ({ runOutWeek: { p10: null, p50: null, p90: null }, chanceOfLasting: 0.5 }),
    });

    if (answer.outcome === 'planned') throw new Error('planned');
    expect(answer.fallback.plan.items.map(({ chanceOfLasting }) => chanceOfLasting)).toEqual([0.5, 0.5]);
  });

  test('is as use is expected where nobody asks', async () => {
    const { plan } = await made({
      packs: ({ model }) =>
        solved(model, { ...wholePacks, ...byWeek('purchases[oats,bag,*]', [1, 0, 0, 0]) }),
    });

    expect(plan.items).toMatchObject([
      { item: 'jam', chanceOfLasting: 1, runOutWeek: { p50: null } },
      { item: 'oats', chanceOfLasting: 0, runOutWeek: { p50: weekAt(2) } },
    ]);
  });
});
