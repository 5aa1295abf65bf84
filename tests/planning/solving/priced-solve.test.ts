import { describe, expect, test } from 'vitest';
import type { BuiltModel } from '../../../src/planning/model/build-model.ts';
import { shortSeconds, solvePriced } from '../../../src/planning/solving/priced-solve.ts';
import type { RungName } from '../../../src/planning/solving/rungs.ts';
import type { Solve, SolveAnswer, SolvedAnswer } from '../../../src/planning/solving/solving.ts';
import type { WishRung } from '../../../src/planning/solving/wish-rungs.ts';

// A model of a cent of money, a unit of use and one of reserve missed.
const names = ['money', 'use missed', 'reserve missed'];
const columns = names.map((name, at) => ({
  name,
  lower: 0,
  upper: 99,
  integer: false,
  cost: [1, 10, 4][at] ?? 0,
}));
const built = { model: { constant: 0, columns, rows: [] } } as unknown as BuiltModel;
const rung = (name: RungName, column: number): WishRung => ({ name, entries: [[column, 1]], cents: 10 });
const wishes = [rung('use', 1), rung('reserve', 2)];

type Values = readonly [money: number, use: number, reserve: number];
const solved = (values: Values, change: Partial<SolvedAnswer> = {}): SolvedAnswer => ({
  status: 'solved',
  stoppedBy: 'time limit',
  values: Float64Array.from(values),
  objective: 0,
  bound: 0,
  basis: null,
  nodes: 0,
  seconds: 1,
  ...change,
});
const soonSeconds = shortSeconds(columns.length, 40);

/** Priced solves answered in their order; relaxations of a rung by what least of it has to be missed. */
async function asked(
  priced: readonly SolveAnswer[],
  {
    least = 0,
    ...request
  }: Partial<Parameters<typeof solvePriced>[3]> & { readonly least?: number | null } = {},
) {
  const requests: Parameters<Solve>[1][] = [];
  const solve: Solve = async (_, one) => {
    if (one.relaxed === true)
      return least === null
        ? { status: 'time limit without plan', detail: 'no relaxation' }
        : solved([0, least, 0], { bound: least, stoppedBy: 'gap' });
    requests.push(one);
    return priced[requests.length - 1] ?? { status: 'solver crashed', detail: 'asked too often' };
  };
  const answer = await solvePriced(built, wishes, solve, { gap: 0.01, secondsLimit: 40, ...request });
  return { ...answer, requests };
}

describe('a priced solve', () => {
  test('that is proven, or has no plan, is asked for once', async () => {
    for (const first of [
      solved([50, 3, 0], { stoppedBy: 'gap' }),
      solved([50, 3, 0], { stoppedBy: 'node limit' }),
      { status: 'infeasible', detail: 'so' } as const,
      { status: 'cancelled', detail: 'so' } as const,
    ]) {
      const { answer, isCutShort, requests } = await asked([first]);
      expect(answer).toBe(first);
      expect(isCutShort).toBe(false);
      expect(requests).toEqual([{ gap: 0.01, secondsLimit: soonSeconds }]);
    }
  });

  test('ends soon where a wish gives way that could be served', async () => {
    const first = solved([50, 9, 0]);

    const { answer, isCutShort, requests } = await asked([first], { least: 5.9 });

    expect(answer).toBe(first);
    expect(isCutShort).toBe(true);
    expect(requests).toHaveLength(1);
  });

  test.each([
    ['nothing is missed', [50, 0, 0], 0],
    ['only reserve is missed', [50, 0, 9], 0],
    ['a few units are missed', [50, 3, 0], 0],
    ['nobody could serve what is missed', [50, 9, 0], 9],
    ['anybody misses about as much', [50, 9, 0], 6],
    ['nobody knows whether it could be served', [50, 9, 0], null],
  ] as const)('goes on from what was found where %s', async (_, values, least) => {
    const later = solved([40, 0, 0], { stoppedBy: 'gap', bound: 7, seconds: 5 });

    const { answer, isCutShort, requests } = await asked([solved(values, { bound: 9, seconds: 2 }), later], {
      least,
    });

    expect(isCutShort).toBe(false);
    expect(answer).toEqual({ ...later, bound: 9, seconds: 7 });
    expect(requests[1]).toEqual({
      gap: 0.01,
      start: Float64Array.from(values),
      secondsLimit: 40 - soonSeconds,
    });
  });

  test('goes on where nothing was found soon, and tells what was found later', async () => {
    const later = solved([40, 0, 0], { bound: 7 });

    const { answer, requests } = await asked([{ status: 'time limit without plan', detail: 'so' }, later]);

    expect(answer).toBe(later);
    expect(requests[1]).toEqual({ gap: 0.01, secondsLimit: 40 - soonSeconds });
  });

  test('has all its seconds at once where it goes on from a plan, or has few', async () => {
    const first = solved([50, 3, 0]);
    const start = [50, 3, 0];

    const goingOn = await asked([first], { start });
    expect(goingOn.requests).toEqual([{ gap: 0.01, start, secondsLimit: 40 }]);
    expect(goingOn.isCutShort).toBe(false);
    const brief = await asked([first], { secondsLimit: 0.5 });
    expect(brief.requests).toEqual([{ gap: 0.01, secondsLimit: 0.5 }]);
    expect(brief.isCutShort).toBe(false);
  });

  test('is given more seconds by the size of its model, and by what whoever asks has in all', () => {
    // Twenty preserves and fifteen things bought make about three thousand columns.
    expect(shortSeconds(3000, 36)).toBeCloseTo(4, 9);
    expect(shortSeconds(13_000, 36)).toBeCloseTo(14, 9);
    expect(shortSeconds(3000, 5)).toBeCloseTo(4, 9);
    // An hour: a busy machine proves what a free one does.
    expect(shortSeconds(3000, 3600)).toBeCloseTo(400, 9);
  });
});
