import { describe, expect, test } from 'vitest';
import { objectiveOf } from '../../../src/planning/model/model.ts';
import { householdRules } from '../../../src/planning/model/rules.ts';
import { solvePackStage } from '../../../src/planning/packs/pack-stage.ts';
import { rungTolerance, type ServedRung } from '../../../src/planning/solving/rungs.ts';
import type {
  Solve,
  SolveAnswer,
  SolvedAnswer,
  UnsolvedAnswer,
} from '../../../src/planning/solving/solving.ts';
import { costOfWishes, wishRungs } from '../../../src/planning/solving/wish-rungs.ts';
import { generatedHousehold } from '../generated-household.ts';
import { nothingPutUp } from '../packed-year.ts';
import { byWeek, canningOf, food, pack, packsAround, shortYear, valuesOf } from '../short-year.ts';

// Peas for two weeks, a unit a week, in bags of one at 300 cents; they live in the freezer, which holds two quarts.
const year = shortYear(2, {
  foods: [food('peas', { packs: [pack('bag', 1, 300)], freezerQuartsPerUnit: 1 })],
  storage: { freezerQuarts: 2, freezerQuartsPerDay: 0, crockQuarts: 0 },
});
const canning = canningOf(year);
const built = packsAround(year, canning);
const { model } = built;
/** A unit missed soon is missed of the coming weeks, and of use. */
const soon = built.prices.use + built.prices.comingWeeks;

interface Told {
  readonly bags?: readonly number[];
  readonly missed?: readonly number[];
  readonly fundOver?: readonly number[];
  readonly freezerOver?: readonly number[];
}
const valuesAt = ({ bags = [1, 1], missed = [0, 0], fundOver = [0, 0], freezerOver = [0, 0] }: Told = {}) =>
  valuesOf(built, {
    ...byWeek('purchases[peas,bag,*]', bags),
    ...byWeek('shortage[peas,*]', missed),
    ...byWeek('fund_over[*]', fundOver),
    ...byWeek('freezer_over[*]', freezerOver),
  });
const solved = (values: Float64Array, bound = 0): SolvedAnswer => ({
  status: 'solved',
  stoppedBy: 'gap',
  values,
  objective: 0,
  bound,
  basis: null,
  nodes: 0,
  seconds: 1,
});
const unsolved = (status: UnsolvedAnswer['status']): UnsolvedAnswer => ({ status, detail: `said ${status}` });

type Kind = 'within the fund' | 'overdrawn' | 'rounded' | 'block' | 'store' | 'bound';
interface Question {
  readonly kind: Kind;
  readonly names: readonly string[];
  readonly costs: readonly number[];
  readonly bounds: Readonly<Record<string, readonly [number, number]>>;
  readonly request: Parameters<Solve>[1];
}
/** What the stage asks, told apart: of all columns or a part of them, with wishes above packs or at their own prices. */
const kindOf = (asked: Parameters<Solve>[0], { isSmall, bounds }: Parameters<Solve>[1]): Kind => {
  if (isSmall === true) return 'store';
  if (asked.columns.length < model.columns.length) return 'block';
  if (asked.columns.every(({ cost }, at) => cost === model.columns[at]?.cost)) return 'bound';
  if (bounds === undefined) return 'overdrawn';
  return [...bounds.keys()].some((at) => model.columns[at]?.name.startsWith('purchases'))
    ? 'rounded'
    : 'within the fund';
};

function scripted(answers: Partial<Record<Kind, (at: number, width: number) => SolveAnswer>>) {
  const questions: Question[] = [];
  const solve: Solve = async (asked, request) => {
    const kind = kindOf(asked, request);
    const names = asked.columns.map(({ name }) => name);
    const at = questions.filter((one) => one.kind === kind).length;
    questions.push({
      kind,
      names,
      costs: asked.columns.map(({ cost }) => cost),
      bounds: Object.fromEntries(
        [...(request.bounds ?? [])].map(([column, both]) => [names[column] ?? '', both]),
      ),
      request,
    });
    return answers[kind]?.(at, names.length) ?? unsolved('time limit without plan');
  };
  return { questions, solve, kinds: () => questions.map(({ kind }) => kind) };
}
/** Answers of a year in which nothing is in the way, some of them otherwise. */
const usual = (change: Partial<Record<Kind, (at: number, width: number) => SolveAnswer>> = {}) =>
  scripted({
    'within the fund': () => solved(valuesAt(), 580),
    rounded: () => solved(valuesAt()),
    bound: () => solved(valuesAt(), 0),
    ...change,
  });
const none: readonly ServedRung[] = wishRungs(built).map(({ name }) => ({ name, missed: 0, atLeast: 0 }));
const stage = (solve: Solve, settled: readonly ServedRung[] = none, signal?: AbortSignal) =>
  solvePackStage(year, canning, householdRules, solve, { settled, ...(signal && { signal }) });
const bagsOf = (answer: SolveAnswer) =>
  answer.status === 'solved'
    ? (built.columns.purchases[0]?.[0] ?? []).map((at) => answer.values[at ?? -1])
    : answer.status;

describe('the relaxation of whole packs', () => {
  test('is asked with wishes fifty times above packs, no week overdrawn', async () => {
    const { questions, solve } = usual();
    const { signal } = new AbortController();

    await stage(solve, none, signal);

    const { kind, costs, names, bounds, request } = questions[0] as Question;
    expect(kind).toBe('within the fund');
    expect(bounds).toEqual({ 'fund_over[2027-W01]': [0, 0], 'fund_over[2027-W02]': [0, 0] });
    expect(costs[names.indexOf('shortage[peas,2027-W01]')]).toBeCloseTo(50 * soon, 0);
    expect(costs[names.indexOf('purchases[peas,bag,2027-W01]')]).toBe(300);
    for (const { request: each } of questions) expect(each.signal).toBe(signal);
    expect(request).toMatchObject({ gap: 0, relaxed: true, secondsLimit: 10 });
  });

  // HiGHS takes 1e-6 of a row for nothing (primal feasibility tolerance, HiGHS documentation, from memory).
  test.each(Array.from({ length: 12 }, (_, at) => at + 1))(
    'prices no wish so high that a solver’s tolerance is worth a pack, seed %i',
    async (seed) => {
      const generated = generatedHousehold({ seed, preserves: 5, staples: 5, fundShare: 0.5 });
      const cheapest = Math.min(
        ...generated.items.flatMap(({ packs }) => packs.flatMap(({ priceByWeek }) => priceByWeek)),
      );
      let dearest = 0;
      await solvePackStage(
        generated,
        nothingPutUp(generated),
        householdRules,
        async ({ columns }) => {
          for (const { name, cost } of columns)
            if (name.startsWith('shortage[')) dearest = Math.max(dearest, cost);
          return unsolved('cancelled');
        },
        { settled: [] },
      );

      expect(dearest).toBeGreaterThan(0);
      expect(1e-6 * dearest).toBeLessThan(cheapest);
    },
  );

  test('is asked week by week, however far ahead', async () => {
    const far = shortYear(12, { foods: [food('peas', { packs: [pack('bag', 1, 300)] })] });
    const names: string[] = [];

    await solvePackStage(
      far,
      canningOf(far),
      householdRules,
      async ({ columns }) => {
        names.push(...columns.map(({ name }) => name));
        return unsolved('cancelled');
      },
      { settled: [] },
    );

    expect(names.filter((name) => name.startsWith('stock[peas,'))).toHaveLength(12);
  });

  test('may overdraw weeks where nothing else is possible', async () => {
    const { kinds, solve } = usual({
      'within the fund': () => unsolved('infeasible'),
      overdrawn: () => solved(valuesAt()),
    });

    expect(bagsOf((await stage(solve)).answer)).toEqual([1, 1]);
    expect(kinds().slice(0, 3)).toEqual(['within the fund', 'overdrawn', 'rounded']);
  });

  test.each(['cancelled', 'time limit without plan'] as const)(
    'that ends otherwise is the answer: %s',
    async (status) => {
      const { kinds, solve } = usual({ 'within the fund': () => unsolved(status) });

      expect(await stage(solve)).toMatchObject({ answer: unsolved(status), rungs: [] });
      expect(kinds()).toEqual(['within the fund']);
    },
  );
});

describe('the rounding that is gone on with', () => {
  /** Four roundings, of which each has so many bags. */
  const ofFour = (...told: readonly (Told | null)[]) =>
    usual({
      rounded: (at) => {
        const one = told[at];
        return one == null ? unsolved('infeasible') : solved(valuesAt(one));
      },
    });

  test('is the cheapest of those that overdraw nothing', async () => {
    const dear = { bags: [3, 1] };

    expect(
      bagsOf((await stage(ofFour(dear, { bags: [2, 1] }, { bags: [2, 2] }, dear).solve)).answer),
    ).toEqual([2, 1]);
  });

  // Whatever is missed where nothing is overdrawn.
  const missing = { bags: [0, 0], missed: [1, 1] };
  test.each([
    ['money', { fundOver: [0.4, 0.5] }, [1, 1]],
    ['money', { fundOver: [0.6, 0.5] }, [0, 0]],
    ['freezer', { freezerOver: [0.005, 0.004] }, [1, 1]],
    ['freezer', { freezerOver: [0.005, 0.006] }, [0, 0]],
  ])(
    'overdraws the least it can, but for a cent and a hundredth of a quart: %s, %j',
    async (_, over, bags) => {
      const { solve } = ofFour(missing, { bags: [1, 1], ...over }, missing, missing);

      expect(bagsOf((await stage(solve, [])).answer)).toEqual(bags);
    },
  );

  test('serves wishes before it is cheap', async () => {
    const short = { bags: [1, 0], missed: [0, 0.02] };

    expect(bagsOf((await stage(ofFour(short, { bags: [1, 2] }, short, short).solve)).answer)).toEqual([1, 2]);
  });

  test('is any that has an answer, and none where none has', async () => {
    expect(bagsOf((await stage(ofFour(null, null, null, { bags: [2, 1] }).solve)).answer)).toEqual([2, 1]);
    expect((await stage(ofFour(null, null, null, null).solve)).answer).toEqual({
      status: 'infeasible',
      detail: 'no rounding of the packs',
    });
  });

  test('is none once it is called off', async () => {
    const { kinds, solve } = usual({
      rounded: (at) => (at === 1 ? unsolved('cancelled') : solved(valuesAt())),
    });

    expect(await stage(solve)).toMatchObject({ answer: unsolved('cancelled'), rungs: [] });
    expect(kinds()).toEqual(['within the fund', 'rounded', 'rounded']);
  });
});

describe('packs block by block', () => {
  const short = (missed: number, told: Told = {}) => ({ bags: [1, 0], missed: [0, missed], ...told });
  const settledAt = (missed: number) =>
    none.map((rung) => (['use', 'coming weeks'].includes(rung.name) ? { ...rung, missed } : rung));

  test.each([
    [0, rungTolerance - 0.001, false],
    [0, rungTolerance + 0.001, true],
    [0.4, 0.4 + rungTolerance - 0.001, false],
    [0.4, 0.4 + rungTolerance + 0.001, true],
  ])(
    'are asked for only where more is missed than any amount would: %d settled, %d missed',
    async (before, missed, asked) => {
      const { kinds, solve } = usual({ rounded: () => solved(valuesAt(short(missed))) });

      await stage(solve, settledAt(before));

      expect(kinds().includes('block')).toBe(asked);
    },
  );

  test('count as missed what nothing was settled about', async () => {
    const { kinds, solve } = usual({ rounded: () => solved(valuesAt(short(0.5))) });

    await stage(solve, []);

    expect(kinds()).toContain('block');
  });

  test('overdraw nothing in the coming weeks, and where that cannot be, no week more than the rounding they start from', async () => {
    const { questions, solve } = usual({
      rounded: () => solved(valuesAt(short(0.5, { fundOver: [0, 7], freezerOver: [2, -1e-9] }))),
      block: () => unsolved('infeasible'),
    });
    const { signal } = new AbortController();

    await stage(solve, none, signal);

    const blocks = questions.filter(({ kind }) => kind === 'block');
    const asRounded = {
      'fund_over[2027-W01]': [0, 0],
      'fund_over[2027-W02]': [0, 7],
      'freezer_over[2027-W01]': [0, 2],
      'freezer_over[2027-W02]': [0, 0],
    };
    expect(blocks.map(({ bounds }) => bounds)).toEqual([
      { ...asRounded, 'fund_over[2027-W02]': [0, 0] },
      asRounded,
    ]);
    for (const { request } of blocks) expect(request.signal).toBe(signal);
  });

  test('stand where they serve more, and not where they serve less', async () => {
    const inBlocks = (bags: number, missed: number) => (_at: number, width: number) => {
      const values = new Float64Array(width);
      // Columns of a part are those of peas first: bags, what stands, what is missed.
      values[1] = bags;
      values[5] = missed;
      return solved(values);
    };
    const rounded = () => solved(valuesAt(short(0.5)));

    expect(bagsOf((await stage(usual({ rounded, block: inBlocks(1, 0) }).solve)).answer)).toEqual([0, 1]);
    expect(bagsOf((await stage(usual({ rounded, block: inBlocks(1, 0.9) }).solve)).answer)).toEqual([1, 0]);
    expect(bagsOf((await stage(usual({ rounded }).solve)).answer)).toEqual([1, 0]);
  });

  test('are the answer once they are called off', async () => {
    const { solve } = usual({
      rounded: () => solved(valuesAt(short(0.5))),
      block: () => unsolved('cancelled'),
    });

    expect(await stage(solve)).toMatchObject({ answer: unsolved('cancelled'), rungs: [] });
  });
});

describe('what the stage answers', () => {
  test('is whole packs at their own price, searched up to a count, with what each rung misses', async () => {
    const told = { bags: [1, 0], missed: [0, 0.9] };
    const settled = none.map((rung) => (rung.name === 'use' ? { ...rung, missed: 1, atLeast: 0.7 } : rung));
    const { solve } = usual({ rounded: () => solved(valuesAt(told)) });

    const { answer, rungs } = await stage(solve, settled);

    expect(answer).toMatchObject({ status: 'solved', stoppedBy: 'node limit', basis: null });
    if (answer.status !== 'solved') throw new Error(answer.status);
    expect(answer.objective).toBeCloseTo(objectiveOf(model, valuesAt(told)), 6);
    expect(rungs.map(({ name }) => name)).toEqual(none.map(({ name }) => name));
    expect(rungs.find(({ name }) => name === 'use')).toEqual({ name: 'use', missed: 0.9, atLeast: 0.7 });
  });

  test('proves no more of a rung than it misses, and nothing of one that nothing was settled about', async () => {
    const { solve } = usual({ rounded: () => solved(valuesAt({ missed: [0, 0.5] })) });
    const settled = none.map((rung) => (rung.name === 'use' ? { ...rung, missed: 1, atLeast: 0.7 } : rung));
    const of = (rungs: readonly ServedRung[]) => rungs.find(({ name }) => name === 'use');

    expect(of((await stage(solve, settled)).rungs)).toEqual({ name: 'use', missed: 0.5, atLeast: 0.5 });
    expect(
      of(
        (
          await stage(
            solve,
            settled.filter(({ name }) => name !== 'use'),
          )
        ).rungs,
      ),
    ).toEqual({
      name: 'use',
      missed: 0.5,
      atLeast: 0,
    });
  });

  // Two bags cost 600, and keep nothing.
  test.each([
    ['of plans that serve the wishes as well', 580, () => solved(valuesAt(), 3), 580],
    ['of any plan at its own prices, where that says more', 580, () => solved(valuesAt(), 590), 590],
    ['never above what it costs', 580, () => solved(valuesAt(), 900), 600],
    ['of the first alone, where the second was not worked out', 580, () => unsolved('infeasible'), 580],
    ['at least nought', -580, () => unsolved('infeasible'), 0],
  ])('has a bound %s', async (_, ofWishes, bound, expected) => {
    const { solve } = usual({ 'within the fund': () => solved(valuesAt(), ofWishes), bound });

    const { answer } = await stage(solve);

    expect(answer.status === 'solved' ? answer.bound : null).toBeCloseTo(expected, 6);
  });

  test('has no bound that counts a wish fifty times', async () => {
    const told = { bags: [1, 0], missed: [0, 1] };
    const settled = none.map((rung) => ({ ...rung, missed: 5 }));
    const wishes = costOfWishes(wishRungs(built), valuesAt(told));
    const { solve } = usual({
      'within the fund': () => solved(valuesAt(), 50 * wishes + 250),
      rounded: () => solved(valuesAt(told)),
    });

    const { answer } = await stage(solve, settled);

    expect(answer.status === 'solved' ? answer.bound : null).toBeCloseTo(wishes + 250, 3);
  });

  test('is bound within what it overdraws, and asked for no whole packs', async () => {
    const { questions, solve } = usual({ rounded: () => solved(valuesAt({ fundOver: [0, 3] })) });

    await stage(solve);

    const last = questions.at(-1);
    expect(last?.kind).toBe('bound');
    expect(last?.bounds['fund_over[2027-W02]']).toEqual([0, 3]);
    expect(last?.request).toMatchObject({ gap: 0, relaxed: true, secondsLimit: 10 });
  });

  test('is bought better store by store, where one is dear against the relaxation', async () => {
    const { questions, solve } = usual({
      'within the fund': () => solved(valuesAt({ bags: [0, 0] }), 0),
      rounded: () => solved(valuesAt({ bags: [2, 2] })),
      store: (_, width) => ({ ...solved(new Float64Array(width).fill(1, 0, 2)), objective: -1, seconds: 4 }),
    });

    const { answer } = await stage(solve);

    expect(bagsOf(answer)).toEqual([1, 1]);
    expect(answer).toMatchObject({ objective: 600, seconds: 5 });
    const store = questions.find(({ kind }) => kind === 'store');
    expect(store?.bounds).toHaveProperty(['fund_over[2027-W01]']);
    expect(store?.costs[store.names.indexOf('shortage[peas,2027-W01]')]).toBeCloseTo(50 * soon, 0);
  });

  test('is bought better in no store at the cost of the coming weeks', async () => {
    // Dear peas, and half a unit missed in the first week whatever is bought.
    const { questions, solve } = usual({
      'within the fund': () => solved(valuesAt({ bags: [0, 0] }), 0),
      rounded: () => solved(valuesAt({ bags: [2, 2], missed: [0.5, 0] })),
    });

    await stage(
      solve,
      none.map((rung) => (['use', 'coming weeks'].includes(rung.name) ? { ...rung, missed: 0.5 } : rung)),
    );

    const store = questions.find(({ kind }) => kind === 'store');
    expect(store?.bounds).toMatchObject({
      'shortage[peas,2027-W01]': [0, 0.5],
      'shortage[peas,2027-W02]': [0, 0],
    });
  });

  test('goes on from the relaxation where it is rounded', async () => {
    const basis = { columns: Int32Array.of(1), rows: Int32Array.of(2) };
    const { questions, solve } = usual({
      'within the fund': () => ({ ...solved(valuesAt(), 580), basis }),
    });

    await stage(solve);

    const rounded = questions.filter(({ kind }) => kind === 'rounded');
    expect(rounded).toHaveLength(4);
    for (const { request } of rounded) expect(request.basis).toBe(basis);
  });

  test('is none once buying store by store is called off', async () => {
    const { solve } = usual({
      'within the fund': () => solved(valuesAt({ bags: [0, 0] }), 0),
      store: () => unsolved('cancelled'),
    });

    expect(await stage(solve)).toMatchObject({
      answer: { status: 'cancelled', detail: 'store by store' },
      rungs: [],
    });
  });
});
