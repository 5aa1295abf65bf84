import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { objectiveOf, type Row } from '../../../src/planning/model/model.ts';
import { buyBlockByBlock } from '../../../src/planning/packs/buy-block-by-block.ts';
import type {
  Solve,
  SolveAnswer,
  SolvedAnswer,
  UnsolvedAnswer,
} from '../../../src/planning/solving/solving.ts';
import {
  batchOf,
  byWeek,
  canningOf,
  food,
  pack,
  packsAround,
  pint,
  shortYear,
  sourceOf,
  valuesOf,
  weekAt,
} from '../short-year.ts';

// Oats for ten weeks, a unit a week, in bags of two; sugar for a batch of jam in the third week.
const year = shortYear(10, {
  foods: [food('jam', { jarKind: pint }), food('oats', { packs: [pack('bag', 2, 300)] })],
  sources: [sourceOf('stall')],
  recipes: [batchOf('jam-of-plums', 'jam')],
  supplies: [{ id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 5, packPrice: asCents(400) }],
});
const built = packsAround(year, canningOf(year, { 'jam-of-plums': [0, 0, 1, 0, 0, 0, 0, 0, 0, 0] }));
const weeks = built.sets.weekIndexes;
const half = weeks.map(() => 0.5);
const start: SolvedAnswer = {
  status: 'solved',
  stoppedBy: 'node limit',
  values: valuesOf(built, {
    ...byWeek('supply_bought[sugar,*]', [null, 1]),
    ...byWeek('purchases[oats,bag,*]', half),
  }),
  objective: 0,
  bound: 3,
  basis: null,
  nodes: 9,
  seconds: 7,
};

interface Question {
  readonly names: readonly string[];
  readonly whole: readonly string[];
  readonly bounds: Readonly<Record<string, readonly [number, number]>>;
  readonly request: Parameters<Solve>[1];
  readonly rows: readonly Row[];
}

const isOfTotals = ({ names }: Question) => names.some((name) => name.startsWith('pack_total'));

/**
 * A solver that keeps what it is asked; what a function answers, with half a bag a week unless other packs are said. Asked for whole packs
 * in all, it answers apart, and finds none unless said.
 */
function scripted(
  answer: (
    question: Question,
    at: number,
  ) =>
    | Exclude<SolveAnswer, SolvedAnswer>
    | { objective: number; packs?: readonly number[]; missed?: number; seconds?: number },
  totals: number | UnsolvedAnswer = { status: 'infeasible', detail: 'no totals' },
) {
  const questions: Question[] = [];
  const ofTotals: Question[] = [];
  const solve: Solve = async (model, request) => {
    const names = model.columns.map(({ name }) => name);
    const question = {
      names,
      whole: model.columns.flatMap(({ name, integer }) => (integer ? [name] : [])),
      bounds: Object.fromEntries(
        [...(request.bounds ?? [])].map(([at, both]) => [names[at] ?? `none ${at}`, both]),
      ),
      request,
      rows: model.rows,
    };
    if (isOfTotals(question)) {
      ofTotals.push(question);
      if (typeof totals !== 'number') return totals;
      const values = names.map((name) => (name.startsWith('pack_total') ? totals : 0.5));
      return { ...start, values: Float64Array.from(values) };
    }
    const said = answer(question, questions.length);
    questions.push(question);
    if ('status' in said) return said;
    const values = new Float64Array(names.length);
    weeks.forEach((week) => {
      values[names.indexOf(bag(week))] = said.packs?.[week] ?? 0.5;
    });
    values[names.indexOf(`shortage[oats,${weekAt(1)}]`)] = said.missed ?? 0;
    return {
      ...start,
      stoppedBy: 'gap',
      values,
      objective: said.objective,
      bound: 0,
      seconds: said.seconds ?? 1,
    };
  };
  return { questions, ofTotals, solve };
}
const bag = (week: number) => `purchases[oats,bag,${weekAt(week)}]`;
const buy = (solve: Solve, change: Partial<Parameters<typeof buyBlockByBlock>[3]> = {}) =>
  buyBlockByBlock(built, start, solve, { bounds: new Map(), secondsLimit: 1000, ...change });
const fixedWeeks = ({ bounds }: Question) => weeks.filter((week) => bounds[bag(week)] !== undefined);

describe('packs bought block by block', () => {
  test('are asked about in what is eaten alone: what canning needs stays as it is bought', async () => {
    const { questions, solve } = scripted(() => ({ objective: 1000 }));

    await buy(solve);

    expect(questions[0]?.names).toContain(bag(9));
    expect(questions[0]?.names).toContain('fund_over[2027-W10]');
    expect(
      questions.flatMap(({ names }) => names).filter((name) => /sugar|produce|batches/.test(name)),
    ).toEqual([]);
  });

  test('are rounded four weeks at a time, the weeks before as bought', async () => {
    // Each block a little dearer than the year before it, so that every way is looked at.
    const { questions, solve } = scripted((_, at) => ({
      objective: 1000 + Math.ceil(at / 3),
      packs: [1, 0, 1, 0, 1, 0, 1, 0, 1, 0],
    }));

    await buy(solve);

    // Any amount first, then each block in three ways.
    expect(questions.map(fixedWeeks)).toEqual([
      [],
      ...Array.from({ length: 3 }, () => [0, 1, 2, 3]),
      ...Array.from({ length: 3 }, () => [0, 1, 2, 3, 4, 5, 6, 7]),
      ...Array.from({ length: 3 }, () => weeks),
    ]);
    for (const { request } of questions)
      expect(request).toMatchObject({ gap: 0, relaxed: true, secondsLimit: 8 });
    expect(questions[7]?.bounds[bag(6)]).toEqual([1, 1]);
    expect(questions[7]?.bounds[bag(7)]).toEqual([0, 0]);
  });

  test('of a block are looked for no further once a rounding takes next to nothing from the year', async () => {
    const asked = async (second: number) => {
      const { questions, solve } = scripted((_, at) => ({
        objective: at === 0 ? 1000 : at === 2 ? second : 1004,
        packs: [1, 0, 1, 0, 1, 0, 1, 0, 1, 0],
      }));
      await buy(solve);
      return questions.map(fixedWeeks).filter((fixed) => fixed.length === 4).length;
    };

    expect(await asked(1000.5)).toBe(2);
    expect(await asked(1000.6)).toBe(3);
  });

  test('beyond the weeks that are searched are rounded at once, and not searched', async () => {
    const { questions, solve } = scripted((_, at) => ({
      objective: at === 0 ? 1000 : 1000 * 2 ** Math.ceil(at / 4),
      packs: [1, 0, 1, 0, 1, 0, 1, 0, 1, 0],
    }));

    await buy(solve, { searchedWeeks: 4 });

    // Any amount, then three ways and a search of the first block, then three ways of all that is left.
    expect(
      questions.map((question) => [fixedWeeks(question).length, question.request.relaxed === true]),
    ).toEqual([
      [0, true],
      ...Array.from({ length: 3 }, () => [4, true]),
      [0, false],
      ...Array.from({ length: 3 }, () => [10, true]),
    ]);
  });

  test('keep the bounds given in every question, and may be called off', async () => {
    const { questions, solve } = scripted(() => ({ objective: 1000 }));
    const { signal } = new AbortController();
    const fundOver = built.columns.fundOver[2] ?? -1;
    const sugar = built.columns.supplyBought[0]?.[1] ?? -1;

    await buy(solve, {
      signal,
      bounds: new Map([
        [fundOver, [0, 5]],
        [sugar, [1, 1]],
      ]),
    });

    for (const { bounds, request } of questions) {
      expect(bounds['fund_over[2027-W03]']).toEqual([0, 5]);
      expect(Object.keys(bounds).filter((name) => name.startsWith('none'))).toEqual([]);
      expect(request.signal).toBe(signal);
    }
    const quiet = scripted(() => ({ objective: 1000 }));
    await buy(quiet.solve);
    expect(quiet.questions[0]?.request).not.toHaveProperty('signal');
  });

  test('are those of the cheapest rounding, whole, at the whole year’s cost', async () => {
    const { solve } = scripted((_, at) =>
      at === 2
        ? { objective: 1002, packs: [1.0001, 0.9999, 0, 0, 1, 0, 0, 0, 0, 0] }
        : {
            objective: at === 0 ? 1000 : at < 4 ? 1004 : 1004 + Math.ceil(at / 3),
            packs: [1, 1, 0, 0, 2, 0, 0, 0, 3, 0],
          },
    );

    const answer = await buy(solve);

    if (answer.status !== 'solved') throw new Error(answer.status);
    const found = weeks.map((week) => answer.values[built.columns.purchases[1]?.[0]?.[week] ?? -1]);
    expect(found).toEqual([1, 1, 0, 0, 2, 0, 0, 0, 3, 0]);
    expect(answer.values[built.columns.supplyBought[0]?.[1] ?? -1]).toBe(1);
    expect(answer.objective).toBe(objectiveOf(built.model, answer.values));
    // One in any amount, three for each of three blocks.
    expect(answer.seconds).toBe(10);
  });

  test('of a block are bought as the cheapest rounding has them, to the whole pack', async () => {
    const { questions, solve } = scripted((_, at) => ({
      objective: at === 0 ? 1000 : at === 2 ? 1002 : 1004,
      packs: at === 2 ? [1.0001, 0.9999, 0, 0, 1, 0, 0, 0, 0, 0] : [3, 0, 0, 0, 0, 0, 0, 0, 0, 0],
    }));

    await buy(solve);

    expect([0, 1, 2, 3].map((week) => questions[4]?.bounds[bag(week)])).toEqual([
      [1, 1],
      [1, 1],
      [0, 0],
      [0, 0],
    ]);
  });
});

describe('a week in which a line is skipped', () => {
  test('has no packs to be bought in its block', async () => {
    const skipping = packsAround(
      { ...year, skipped: [{ kind: 'item', what: 'oats', week: weekAt(1) }] },
      canningOf(year),
    );
    const { questions, solve } = scripted(() => ({ objective: 1000, packs: [1, 0, 1, 0, 1, 0, 1, 0, 1, 0] }));

    const answer = await buyBlockByBlock(
      skipping,
      { ...start, values: new Float64Array(skipping.model.columns.length) },
      solve,
      { bounds: new Map(), secondsLimit: 1000 },
    );

    expect(answer.status).toBe('solved');
    expect(questions.map(fixedWeeks).at(-1)).toEqual([0, 2, 3, 4, 5, 6, 7, 8, 9]);
  });
});

describe('a block whose roundings all take from the year', () => {
  const isSearch = ({ request }: Question) => request.relaxed !== true;
  // The year costs 1000 in any amount; half a per cent more needs no search.
  test.each([
    [1004.9, 0],
    [1005.1, 1],
  ])('is searched for whole packs: at %d, %d times', async (objective, searches) => {
    const { questions, solve } = scripted((_, at) => ({ objective: at === 0 ? 1000 : objective }));

    await buy(solve);

    expect(questions.slice(0, 5).filter(isSearch)).toHaveLength(searches);
  });

  test('is searched with the packs of the next two weeks whole as well, those after in any amount', async () => {
    const { questions, solve } = scripted((question, at) => ({
      objective: at === 0 ? 1000 : isSearch(question) ? 1010 : 2000,
      packs: isSearch(question) ? [2, 0, 1, 0, 0.5, 0, 0, 0, 0, 0] : [1, 0, 0, 0, 0, 0, 0, 0, 0, 0],
      seconds: isSearch(question) ? 0.1 : 1,
    }));

    const answer = await buy(solve);

    const searches = questions.filter(isSearch);
    expect(searches.map(({ whole }) => whole.filter((name) => name.startsWith('purchases')))).toEqual([
      weeks.slice(0, 6).map(bag),
      weeks.map(bag),
      weeks.map(bag),
    ]);
    expect(searches[0]?.request).toMatchObject({
      gap: 0.005,
      nodeLimit: 100,
      isSmall: true,
      secondsLimit: expect.closeTo(0.4 + (questions[0]?.names.length ?? 0) / 4000, 9),
    });
    expect(searches[0]?.names).toEqual(questions[0]?.names);
    expect(fixedWeeks(searches[0] as Question)).toEqual([]);
    expect(fixedWeeks(searches[1] as Question)).toEqual([0, 1, 2, 3]);
    // What the search found is cheaper than every rounding.
    expect([0, 2].map((week) => searches[1]?.bounds[bag(week)])).toEqual([
      [2, 2],
      [1, 1],
    ]);
    expect(answer.status === 'solved' ? answer.seconds : null).toBeCloseTo(1 + 3 * 3.1, 9);
  });

  test('is searched from the cheapest of them, and from none where there is none', async () => {
    const startOf = async (isFeasible: boolean) => {
      const { questions, solve } = scripted((question, at) =>
        at === 0
          ? { objective: 1000 }
          : isSearch(question)
            ? { objective: 1500, packs: [2, 0, 0, 0, 0, 0, 0, 0, 0, 0] }
            : isFeasible
              ? { objective: at === 2 ? 1900 : 2000, packs: at === 2 ? [1, 1, 0, 0] : [1, 0, 0, 0] }
              : { status: 'infeasible', detail: 'no packs' },
      );
      await buy(solve);
      const search = questions.find(isSearch) as Question;
      return search.request.start?.[search.names.indexOf(bag(1))];
    };

    expect(await startOf(true)).toBe(1);
    expect(await startOf(false)).toBe(undefined);
  });

  test('is only rounded once the seconds of searches are gone', async () => {
    const searchesOf = async (seconds: number) => {
      const { questions, solve } = scripted((question, at) => ({
        objective: at === 0 ? 1000 : isSearch(question) ? 1010 + at : 2000 + at,
        seconds: isSearch(question) ? seconds : 0,
      }));
      const answer = await buy(solve);
      expect(answer.status).toBe('solved');
      return questions.filter(isSearch).map(({ request }) => request.secondsLimit);
    };
    const all = 0.5 + built.model.columns.length / 1600;

    expect(await searchesOf(9)).toHaveLength(1);
    expect(await searchesOf(0.01)).toHaveLength(3);
    const limits = await searchesOf(0.4);
    expect(limits).toHaveLength(2);
    expect(limits[1]).toBeLessThan(all - 0.4 + 1e-9);
  });

  test('is searched for longer, beside those seconds, where it misses more of the coming weeks than any amount', async () => {
    const searchesOf = async (missed: number) => {
      const { questions, solve } = scripted((question, at) => ({
        objective: at === 0 ? 1000 : isSearch(question) ? 1010 + at : 2000 + at,
        seconds: isSearch(question) ? 9 : 0,
        missed: at === 0 ? 0.5 : missed,
      }));
      await buy(solve);
      return questions.filter(isSearch).map(({ request }) => request.secondsLimit ?? 0);
    };

    const [usual, ...others] = await searchesOf(0.52);
    expect(others).toEqual([]);
    const [longer, next] = await searchesOf(0.53);
    expect(longer).toBeGreaterThan(usual ?? Number.NaN);
    // The search came first: the next block misses no more than it did.
    expect(next).toBe(usual);
  });

  test('keeps the cheapest rounding where the search finds nothing', async () => {
    const { solve } = scripted((question, at) =>
      isSearch(question)
        ? { status: 'time limit without plan', detail: 'slow' }
        : { objective: at === 0 ? 1000 : 2000, packs: [1, 0, 0, 0, 2, 0, 0, 0, 0, 1] },
    );

    const answer = await buy(solve);

    if (answer.status !== 'solved') throw new Error(answer.status);
    expect(weeks.map((week) => answer.values[built.columns.purchases[1]?.[0]?.[week] ?? -1])).toEqual([
      1, 0, 0, 0, 2, 0, 0, 0, 0, 1,
    ]);
  });

  test('answers what the search says where no rounding has an answer either', async () => {
    const infeasible = { status: 'infeasible', detail: 'no packs' } as const;
    const { questions, solve } = scripted((question, at) =>
      at === 0
        ? { objective: 1000 }
        : isSearch(question)
          ? { status: 'infeasible', detail: 'none at all' }
          : infeasible,
    );

    expect(await buy(solve)).toEqual({ status: 'infeasible', detail: 'none at all' });
    expect(questions).toHaveLength(5);
  });

  test('stands as searched where no rounding has an answer', async () => {
    const { questions, solve } = scripted((question, at) =>
      at === 0 || isSearch(question)
        ? { objective: 1000, packs: [3, 0, 0, 0, 0, 0, 0, 0, 0, 0] }
        : { status: 'infeasible', detail: 'no packs' },
    );

    const answer = await buy(solve);

    expect(answer.status).toBe('solved');
    expect(questions.filter(isSearch)).toHaveLength(3);
  });
});

describe('the last weeks', () => {
  const steady = () => ({ objective: 1000, packs: [1, 0, 1, 0, 1, 0, 1, 0, 1, 0] });

  test('are whole in their sum before they are whole week by week', async () => {
    const { questions, ofTotals, solve } = scripted(steady, 5);

    await buy(solve);

    // Asked for once, with the first block as bought.
    expect(ofTotals).toHaveLength(1);
    expect(ofTotals.map(fixedWeeks)).toEqual([[0, 1, 2, 3]]);
    expect(ofTotals[0]?.whole).toEqual(['pack_total[0]']);
    const rowOf = (question: Question | undefined) =>
      question?.rows.filter(({ name }) => name.startsWith('pack_total'));
    const bags = weeks.map((week) => [questions[0]?.names.indexOf(bag(week)), 1]);
    const total = ofTotals[0]?.names.indexOf('pack_total[0]');
    expect(rowOf(ofTotals[0])).toMatchObject([{ lower: 0, upper: 0, entries: [...bags, [total, -1]] }]);
    expect(rowOf(questions[1])).toEqual([]);
    expect(rowOf(questions[2])).toMatchObject([{ lower: 5, upper: 5, entries: bags }]);
  });

  test('go on in any amount where no whole sums are found, and end where they are called off', async () => {
    const { questions, solve } = scripted(steady);
    expect((await buy(solve)).status).toBe('solved');
    expect(questions.flatMap(({ rows }) => rows).filter(({ name }) => name.startsWith('pack_total'))).toEqual(
      [],
    );

    const off = scripted(steady, { status: 'cancelled', detail: 'asked to' });
    expect(await buy(off.solve)).toEqual({ status: 'cancelled', detail: 'asked to' });
    expect(off.questions).toHaveLength(2);
  });

  test('let their sums go where no weeks add up to them', async () => {
    const { questions, solve } = scripted(
      (question) =>
        question.rows.some(({ name }) => name.startsWith('pack_total'))
          ? { status: 'infeasible', detail: 'does not add up' }
          : steady(),
      7,
    );

    expect((await buy(solve)).status).toBe('solved');
    // Three roundings and a search with the sums, and the same block again without.
    expect(questions.map(({ rows }) => rows.some(({ name }) => name.startsWith('pack_total')))).toEqual([
      ...[false, false],
      ...[true, true, true, true],
      ...[false, false],
    ]);
  });

  test('are not asked for where only near weeks are searched', async () => {
    const { ofTotals, solve } = scripted(steady, 5);

    await buy(solve, { searchedWeeks: 4 });

    expect(ofTotals).toEqual([]);
  });
});

describe('a year in any amount', () => {
  test('goes on from where the last one ended', async () => {
    const basis = { columns: Int32Array.of(1), rows: Int32Array.of(2) };
    const { questions, solve } = scripted((_, at) => ({ objective: 1000 + Math.ceil(at / 3) }));
    await buyBlockByBlock(
      built,
      start,
      async (model, request) => ({ ...(await solve(model, request)), basis }),
      {
        bounds: new Map(),
        secondsLimit: 1000,
      },
    );

    expect(questions.map(({ request }) => request.basis)).toEqual([undefined, ...Array(9).fill(basis)]);
  });
});

describe('packs that are not found block by block', () => {
  test('are told with what the solver said of any amount', async () => {
    const { questions, solve } = scripted(() => ({ status: 'infeasible', detail: 'no money' }));

    expect(await buy(solve)).toEqual({ status: 'infeasible', detail: 'no money' });
    expect(questions).toHaveLength(1);
  });

  test.each([
    ['a rounding', (at: number) => at === 3],
    ['a search', (at: number) => at === 4],
  ])('are none once %s is called off', async (_, isCalledOff) => {
    const { questions, solve } = scripted((_question, at) =>
      isCalledOff(at) ? { status: 'cancelled', detail: 'asked to' } : { objective: at === 0 ? 1000 : 2000 },
    );

    expect(await buy(solve)).toEqual({ status: 'cancelled', detail: 'asked to' });
    expect(questions.length).toBeLessThanOrEqual(6);
    expect(isCalledOff(questions.length - 1)).toBe(true);
  });

  test.each([
    // Four answers of a second before the second block, seven before the third.
    [4, 'weeks from 4', 4],
    [4.1, 'weeks from 8', 7],
    [7, 'weeks from 8', 7],
    [7.1, null, 10],
  ])('are none once the seconds are gone: of %d', async (secondsLimit, detail, asked) => {
    const { questions, solve } = scripted((_question, at) => ({ objective: 1000 + Math.ceil(at / 3) }));

    const answer = await buy(solve, { secondsLimit });

    expect(answer).toMatchObject(
      detail === null ? { status: 'solved' } : { status: 'time limit without plan', detail },
    );
    expect(questions).toHaveLength(asked);
  });
});
