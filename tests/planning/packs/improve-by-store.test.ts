import { describe, expect, test } from 'vitest';
import { objectiveOf } from '../../../src/planning/model/model.ts';
import { improveByStore } from '../../../src/planning/packs/improve-by-store.ts';
import type { Solve, SolveAnswer, SolvedAnswer } from '../../../src/planning/solving/solving.ts';
import { byWeek, food, pack, packsAround, shortYear, valuesOf } from '../short-year.ts';

// Three foods, a bag a week: salt at 10 cents, oats at 300, rice at 500.
const year = shortYear(2, {
  foods: [
    food('oats', { packs: [pack('bag', 1, 300)] }),
    food('rice', { packs: [pack('bag', 1, 500)] }),
    food('salt', { packs: [pack('bag', 1, 10)] }),
  ],
});
const built = packsAround(year);
const solvedAt = (values: Float64Array, objective: number, seconds = 1): SolvedAnswer => ({
  status: 'solved',
  stoppedBy: 'gap',
  values,
  objective,
  bound: 0,
  basis: null,
  nodes: 0,
  seconds,
});
const solved = (values: Float64Array, seconds = 1) =>
  solvedAt(values, objectiveOf(built.model, values), seconds);
const relaxed = solved(valuesOf(built, {}));
const all = { ...byWeek('fund[*]', [98_380, 96_760]) };
const start = solved(
  valuesOf(built, {
    ...byWeek('purchases[oats,bag,*]', [1, 1]),
    ...byWeek('purchases[rice,bag,*]', [1, 1]),
    ...byWeek('purchases[salt,bag,*]', [1, 1]),
    ...all,
  }),
  2,
);
const cost = objectiveOf(built.model, start.values);

type Question = { readonly food: string; readonly asked: Parameters<Solve> };
/** A solver that keeps what it is asked and answers by the food whose store it is asked about. */
function answering(answers: Readonly<Record<string, (asked: Parameters<Solve>) => SolveAnswer>>) {
  const questions: Question[] = [];
  const solve: Solve = async (...asked) => {
    const food = /purchases\[(\w+),/.exec(asked[0].columns[0]?.name ?? '')?.[1] ?? '';
    questions.push({ food, asked });
    return answers[food]?.(asked) ?? { status: 'time limit without plan', detail: 'none' };
  };
  return { questions, solve };
}
/** So many packs of the store in the first week and none after, said to cost so much in all. */
const packsAt =
  (packs: number, objective: number, seconds = 1) =>
  ([model]: Parameters<Solve>): SolveAnswer =>
    solvedAt(new Float64Array(model.columns.length).fill(packs, 0, 1), objective, seconds);
const improve = (solve: Solve, change: Partial<Parameters<typeof improveByStore>[4]> = {}, from = start) =>
  improveByStore(built, relaxed, from, solve, { bounds: new Map(), secondsLimit: 100, ...change });
const packsOf = (answer: SolvedAnswer | null, name: string) =>
  built.model.columns.flatMap((column, at) =>
    column.name.startsWith(`purchases[${name},`) ? [answer?.values[at]] : [],
  );

describe('stores looked at', () => {
  test('are those that cost more than a quarter dollar over the relaxation, the dearest first', async () => {
    const { questions, solve } = answering({});

    const answer = await improve(solve);

    expect(questions.map(({ food }) => food)).toEqual(['rice', 'oats']);
    expect(answer?.values).toEqual(start.values);
    expect(answer?.objective).toBe(cost);
    expect(answer?.seconds).toBe(2);
  });

  test('cost what they keep as well, and less what the relaxation pays', async () => {
    const { questions, solve } = answering({});
    const paid = solved(valuesOf(built, byWeek('purchases[rice,bag,*]', [1, 0.5])));

    await improveByStore(built, paid, start, solve, { bounds: new Map(), secondsLimit: 100 });

    // Rice costs 250 over it, oats 600.
    expect(questions.map(({ food }) => food)).toEqual(['oats', 'rice']);
  });

  test.each([
    [2, []],
    [3, ['salt']],
  ])('are left where they cost no more than that: salt for %d tenths', async (packs, foods) => {
    const { questions, solve } = answering({});
    const salt = solved(valuesOf(built, byWeek('purchases[salt,bag,*]', [packs, 0.5])));

    await improve(solve, {}, salt);

    // Twenty-five cents over are left, thirty-five are looked at.
    expect(questions.map(({ food }) => food)).toEqual(foods);
  });

  test('are no more than asked for', async () => {
    const { questions, solve } = answering({});

    await improve(solve, { mostStores: 1 });

    expect(questions.map(({ food }) => food)).toEqual(['rice']);
  });
});

describe('a store’s question', () => {
  test('starts from what stands, within the bounds given, and ends soon', async () => {
    const { questions, solve } = answering({});
    const at = (name: string) => built.model.columns.findIndex((column) => column.name === name);
    const { signal } = new AbortController();

    await improve(solve, {
      signal,
      bounds: new Map([
        [at('fund_over[2027-W02]'), [0, 7]],
        [at('purchases[oats,bag,2027-W01]'), [1, 1]],
      ]),
    });

    const [model, request] = questions[0]?.asked ?? [];
    const names = model?.columns.map(({ name }) => name) ?? [];
    expect(names.filter((name) => name.startsWith('purchases'))).toEqual([
      'purchases[rice,bag,2027-W01]',
      'purchases[rice,bag,2027-W02]',
    ]);
    expect(Array.from(request?.start ?? [])[names.indexOf('fund[2027-W02]')]).toBe(96_760);
    expect(Array.from(request?.start ?? []).slice(0, 2)).toEqual([1, 1]);
    expect([...(request?.bounds ?? [])]).toEqual([[names.indexOf('fund_over[2027-W02]'), [0, 7]]]);
    expect(request).toMatchObject({ gap: 0, absoluteGap: 25, nodeLimit: 2, isSmall: true, secondsLimit: 8 });
    expect(request?.signal).toBe(signal);
  });

  test('says nothing of calling off where nobody may', async () => {
    const { questions, solve } = answering({});

    await improve(solve);

    expect(questions[0]?.asked[1]).not.toHaveProperty('signal');
  });

  test('has no more seconds than are left, and none is asked once they are gone', async () => {
    const { questions, solve } = answering({
      rice: packsAt(1, cost, 6),
      oats: packsAt(1, cost, 3),
    });

    const answer = await improve(solve, { secondsLimit: 9 });
    expect(questions.map(({ asked }) => asked[1].secondsLimit)).toEqual([8, 3]);
    expect(answer?.seconds).toBe(11);

    const gone = answering({ rice: packsAt(1, cost, 6) });
    await improve(gone.solve, { secondsLimit: 6 });
    expect(gone.questions).toHaveLength(1);
  });
});

describe('what a store finds', () => {
  test('stands where it costs less, and the next store is asked with it', async () => {
    const { questions, solve } = answering({
      rice: packsAt(0, cost - 1000),
      oats: packsAt(3, cost - 1500),
    });

    const answer = await improve(solve);

    expect(packsOf(answer, 'rice')).toEqual([0, 0]);
    expect(packsOf(answer, 'oats')).toEqual([3, 0]);
    expect(packsOf(answer, 'salt')).toEqual([1, 1]);
    expect(answer?.objective).toBe(cost - 1500);
    expect(answer?.seconds).toBe(4);
    // With no rice bought the rest costs a thousand cents less.
    const [model, request] = questions[1]?.asked ?? [];
    const startCost = model?.columns.reduce(
      (sum, column, at) => sum + column.cost * (request?.start?.[at] ?? Number.NaN),
      model.constant,
    );
    expect(startCost).toBeCloseTo(cost - 1000, 6);
  });

  test('is left where it costs as much or more than what stands by then', async () => {
    const same = await improve(answering({ rice: packsAt(4, cost), oats: packsAt(4, cost + 1) }).solve);
    expect(same?.values).toEqual(start.values);

    const { solve } = answering({ rice: packsAt(0, cost - 1000), oats: packsAt(4, cost - 1000) });
    const answer = await improve(solve);
    expect(packsOf(answer, 'oats')).toEqual([1, 1]);
    expect(answer?.objective).toBe(cost - 1000);
  });

  test('is nothing where a search ends without an answer; the others are asked all the same', async () => {
    const { solve } = answering({ oats: packsAt(0, cost - 600) });

    expect(packsOf(await improve(solve), 'oats')).toEqual([0, 0]);
  });

  test('is nothing at all once it is called off', async () => {
    const { questions, solve } = answering({
      rice: () => ({ status: 'cancelled', detail: 'asked to' }),
      oats: packsAt(0, cost - 600),
    });

    expect(await improve(solve)).toBeNull();
    expect(questions).toHaveLength(1);
  });
});
