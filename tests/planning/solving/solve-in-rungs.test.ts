import { describe, expect, test } from 'vitest';
import type { BuiltModel } from '../../../src/planning/model/build-model.ts';
import { rungTolerance, type ServedRung } from '../../../src/planning/solving/rungs.ts';
import { type RungsRequest, solveInRungs } from '../../../src/planning/solving/solve-in-rungs.ts';
import type {
  Solve,
  SolveAnswer,
  SolvedAnswer,
  UnsolvedAnswer,
} from '../../../src/planning/solving/solving.ts';

// A cent of money, a unit of use missed at 10 cents, one of reserve at 4.
const column = (name: string, cost: number) => ({ name, lower: 0, upper: 99, integer: false, cost });
const built = {
  model: {
    constant: 0,
    columns: [column('money', 1), column('use missed', 10), column('reserve missed', 4)],
    rows: [],
  },
  terms: {
    groceries: { constant: 0, entries: [[0, 1]] },
    use: { constant: 0, entries: [[1, 10]] },
    reserve: { constant: 0, entries: [[2, 4]] },
  },
  prices: { pinned: 1, group: 1, firstJars: 1, gardenUnit: 1, use: 10, reserve: 4, variety: 1 },
} as unknown as BuiltModel;

type Values = readonly [money: number, use: number, reserve: number];
const solved = (values: Values, change: Partial<SolvedAnswer> = {}): SolvedAnswer => ({
  status: 'solved',
  stoppedBy: 'gap',
  values: Float64Array.from(values),
  objective: values[0] + 10 * values[1] + 4 * values[2],
  bound: 0,
  basis: null,
  nodes: 0,
  seconds: 1,
  ...change,
});
const unsolved = (status: UnsolvedAnswer['status'], detail = 'so'): UnsolvedAnswer => ({ status, detail });

interface Question {
  /** `priced`, a rung `relaxed` or `whole`, or `again` without the prices of wishes. */
  readonly kind: string;
  /** Rungs held with the most that may be missed. */
  readonly held: Readonly<Record<string, number>>;
  readonly request: Parameters<Solve>[1];
}
/** Answers by kind: `priced`, `use relaxed`, `use whole`, `reserve relaxed`, `reserve whole`, `again`. */
function scripted(answers: Readonly<Record<string, SolveAnswer>>) {
  const questions: Question[] = [];
  const solve: Solve = async (model, request) => {
    const costs = model.columns.map(({ cost }) => cost).join(' ');
    const how = request.relaxed === true ? 'relaxed' : 'whole';
    const kinds: Record<string, string> = {
      '1 10 4': 'priced',
      '0 1 0': `use ${how}`,
      '0 0 1': `reserve ${how}`,
      '1 0 0': 'again',
    };
    const kind = kinds[costs] ?? costs;
    questions.push({
      kind,
      held: Object.fromEntries(
        model.rows.map(({ name, upper }) => [
          /\[(.*)\]/.exec(name)?.[1] ?? name,
          Math.round(upper * 1e3) / 1e3,
        ]),
      ),
      request,
    });
    return answers[kind] ?? unsolved('solver crashed', kind);
  };
  return { questions, kinds: () => questions.map(({ kind }) => kind), solve };
}
/** Three columns, and 75 of a hundred seconds where 36 are usual. */
const soonSeconds = ((1 + 3 / 1000) * 75) / 36;
const startOf = (question: Question | undefined) => Array.from(question?.request.start ?? []);
const inRungs = (solve: Solve, change: Partial<RungsRequest> = {}) =>
  solveInRungs(built, solve, { gap: 0, secondsLimit: 100, ...change });
const rung = (name: ServedRung['name'], missed: number, atLeast = 0): ServedRung => ({
  name,
  missed,
  atLeast,
});

describe('a plan whose wishes are all served', () => {
  test('is the priced one, asked for once', async () => {
    const { kinds, questions, solve } = scripted({ priced: solved([50, 0, 0], { bound: 50 }) });
    const onProgress = () => {};
    const { signal } = new AbortController();
    const bounds = new Map([[0, [0, 60]]] as const);

    const { answer, rungs } = await inRungs(solve, { gap: 0.03, onProgress, signal, bounds });

    expect(kinds()).toEqual(['priced']);
    expect(answer).toEqual(solved([50, 0, 0], { bound: 50 }));
    expect(rungs).toEqual([rung('use', 0), rung('reserve', 0)]);
    expect(questions[0]?.request).toEqual({
      gap: 0.03,
      onProgress,
      signal,
      bounds,
      secondsLimit: expect.closeTo(soonSeconds, 9),
    });
  });

  test('is served up to what a page rounds away', async () => {
    const at = async (missed: number) => {
      const { kinds, solve } = scripted({ priced: solved([50, missed, 0], { bound: 999 }) });
      await inRungs(solve);
      return kinds();
    };

    expect(await at(rungTolerance)).toEqual(['priced']);
    expect(await at(rungTolerance + 1e-6)).toContain('use relaxed');
  });

  test('is told with what the priced solve says where that has no answer', async () => {
    const { kinds, solve } = scripted({ priced: unsolved('infeasible') });

    expect(await inRungs(solve)).toEqual({ answer: unsolved('infeasible'), rungs: [] });
    expect(kinds()).toEqual(['priced']);
  });
});

describe('a rung that misses something', () => {
  test('is left as it is where the relaxation proves that nothing less is to be had', async () => {
    const { kinds, questions, solve } = scripted({
      priced: solved([50, 3, 0], { bound: 80 }),
      'use relaxed': solved([0, 3, 0], { bound: 2.99, seconds: 4 }),
    });
    const { signal } = new AbortController();
    const bounds = new Map([[0, [0, 60]]] as const);

    const { answer, rungs } = await inRungs(solve, { gap: 0.03, signal, bounds });

    expect(kinds()).toEqual(['priced', 'use relaxed']);
    expect(rungs).toEqual([rung('use', 3, 2.99), rung('reserve', 0)]);
    expect(answer).toEqual(solved([50, 3, 0], { bound: 80, seconds: 5 }));
    expect(questions[1]?.request).toEqual({ gap: 0, relaxed: true, signal, bounds, secondsLimit: 10 });
  });

  test('from use on is looked at for less than a second where it gives way by much, else for a tenth of all', async () => {
    const secondsFor = async (wish: 'use' | 'garden crop', missed: number) => {
      const terms = {
        ...built.terms,
        ...(wish === 'use' ? {} : { 'garden crop': built.terms.use, use: undefined }),
      };
      const other = { ...built, terms, prices: { ...built.prices, gardenUnit: 10 } } as unknown as BuiltModel;
      const { questions, solve } = scripted({
        priced: solved([50, missed, 0], { bound: 999 }),
        'use relaxed': solved([0, 1, 0], { bound: 1 }),
        'use whole': solved([50, missed, 0], { bound: 2 }),
      });
      await solveInRungs(other, solve, { gap: 0, secondsLimit: 100 });
      return questions.find(({ kind }) => kind === 'use whole')?.request.secondsLimit;
    };

    expect(await secondsFor('use', 4.1)).toBeCloseTo(((0.2 + 3 / 10_000) * 10) / 4.8, 9);
    expect(await secondsFor('use', 4)).toBe(10);
    expect(await secondsFor('garden crop', 9)).toBe(10);
  });

  test('proves no more than it misses', async () => {
    const { solve } = scripted({
      priced: solved([50, 3, 0], { bound: 80 }),
      'use relaxed': solved([0, 3, 0], { bound: 3.01 }),
    });

    expect((await inRungs(solve)).rungs[0]).toEqual(rung('use', 3, 3));
  });

  test('is searched where the relaxation leaves room, and the plan made again with it held', async () => {
    const { kinds, questions, solve } = scripted({
      priced: solved([50, 3, 0], { bound: 20 }),
      'use relaxed': solved([0, 1, 0], { bound: 1, seconds: 2 }),
      'use whole': solved([70, 2, 0], { bound: 1.99, seconds: 3 }),
      'reserve relaxed': solved([0, 0, 0], { bound: 0, seconds: 4 }),
      again: solved([60, 2, 0], { objective: 60, bound: 55, seconds: 5 }),
    });

    const { answer, rungs } = await inRungs(solve, { rungSeconds: 0.1, gap: 0.03 });

    // Once one rung is better, the next is looked at again, whatever it missed.
    expect(kinds()).toEqual(['priced', 'use relaxed', 'use whole', 'reserve relaxed', 'again']);
    expect(questions[2]?.request).toMatchObject({
      gap: 0,
      absoluteGap: rungTolerance / 2,
      nodeLimit: 2000,
      secondsLimit: 0.1,
    });
    expect(startOf(questions[2])).toEqual([50, 3, 0]);
    expect(questions[3]?.held).toEqual({ use: 2 });
    expect(questions[4]?.held).toEqual({ use: 2, reserve: 0 });
    expect(startOf(questions[4])).toEqual([70, 2, 0]);
    // Ten of a hundred seconds are gone.
    expect(questions[4]?.request).toMatchObject({ gap: 0.03, secondsLimit: 90 });
    expect(rungs).toEqual([rung('use', 2, 1.99), rung('reserve', 0)]);
    // Money proven at 55, and 1.99 of use at 10.
    expect(answer).toMatchObject({ status: 'solved', objective: 80, bound: 74.9, seconds: 15 });
    expect(answer.status === 'solved' ? [...answer.values] : []).toEqual([60, 2, 0]);
  });

  test('has the bound of the priced plan where that says more, and none above what it costs', async () => {
    const bound = async (priced: number, again: number) => {
      const { solve } = scripted({
        priced: solved([50, 3, 0], { bound: priced }),
        'use relaxed': solved([0, 1, 0], { bound: 1 }),
        'use whole': solved([70, 2, 0], { bound: 1.5 }),
        'reserve relaxed': solved([0, 0, 0]),
        again: solved([60, 2, 0], { objective: 60, bound: again }),
      });
      const { answer } = await inRungs(solve);
      return answer.status === 'solved' ? answer.bound : null;
    };

    expect(await bound(72, 55)).toBe(72);
    expect(await bound(90, 55)).toBe(80);
    expect(await bound(20, 99)).toBe(80);
  });

  test('keeps what it had where the search finds hardly less', async () => {
    const whole = async (missed: number) => {
      const { kinds, solve } = scripted({
        priced: solved([50, 3, 0], { bound: 80 }),
        'use relaxed': solved([0, 1, 0], { bound: 1 }),
        'use whole': solved([60, missed, 0], { bound: 2.5, seconds: 6 }),
        again: solved([60, missed, 0], { objective: 60, bound: 0 }),
      });
      const { rungs, answer } = await inRungs(solve);
      return {
        use: rungs[0],
        asked: kinds().length,
        seconds: answer.status === 'solved' ? answer.seconds : null,
      };
    };

    // The priced one, two looks and no second plan: eight seconds.
    expect(await whole(3 - rungTolerance)).toEqual({ use: rung('use', 3, 2.5), asked: 3, seconds: 8 });
    expect((await whole(3)).use).toEqual(rung('use', 3, 2.5));
    expect((await whole(3 - rungTolerance - 1e-6)).asked).toBeGreaterThan(3);
  });

  test('proves no more by its search than what is missed with it', async () => {
    const whole = async (missed: number, bound: number, relaxed = 1) => {
      const { solve } = scripted({
        priced: solved([50, 3, 0], { bound: 80 }),
        'use relaxed': solved([0, 1, 0], { bound: relaxed }),
        'use whole': solved([60, missed, 0], { bound }),
        'reserve relaxed': solved([0, 0, 0]),
        again: solved([60, missed, 0], { objective: 60, bound: 0 }),
      });
      return (await inRungs(solve)).rungs[0];
    };

    expect(await whole(2, 2.4)).toEqual(rung('use', 2, 2));
    expect(await whole(2, 1.5, 1.8)).toEqual(rung('use', 2, 1.8));
    expect(await whole(3, 9)).toEqual(rung('use', 3, 3));
    expect(await whole(2, -1, -1)).toEqual(rung('use', 2, 0));
  });

  test('is left, with what the relaxation proved, where the search ends without an answer', async () => {
    const { kinds, solve } = scripted({
      priced: solved([50, 3, 0], { bound: 80 }),
      'use relaxed': solved([0, 1, 0], { bound: 1, seconds: 4 }),
      'use whole': unsolved('time limit without plan'),
    });

    const { answer, rungs } = await inRungs(solve);

    expect(kinds()).toEqual(['priced', 'use relaxed', 'use whole']);
    expect(rungs[0]).toEqual(rung('use', 3, 1));
    expect(answer).toMatchObject({ seconds: 5 });
  });

  test('is searched with nothing proven where the relaxation ends without an answer', async () => {
    const { solve } = scripted({
      priced: solved([50, 3, 0], { bound: 80 }),
      'use relaxed': unsolved('time limit without plan'),
      'use whole': solved([50, 3, 0], { bound: 2, seconds: 3 }),
    });

    const { answer, rungs } = await inRungs(solve);

    expect(rungs[0]).toEqual(rung('use', 3, 2));
    expect(answer).toMatchObject({ seconds: 4 });
  });

  test('is looked at no closer than an earlier stage settled', async () => {
    const settled = [rung('use', 3, 2), rung('reserve', 0.5, 0.4)];
    const { kinds, solve } = scripted({ priced: solved([50, 3.01, 0.1], { bound: 999 }) });

    const { rungs } = await inRungs(solve, { settled });

    expect(kinds()).toEqual(['priced']);
    expect(rungs).toEqual([rung('use', 3.01, 2), rung('reserve', 0.1, 0.1)]);
  });

  test('is looked at where only another was settled, and may not be called off where nobody can', async () => {
    const { kinds, questions, solve } = scripted({
      priced: solved([50, 3, 0], { bound: 80 }),
      'use relaxed': solved([0, 3, 0], { bound: 3 }),
    });

    await inRungs(solve, { settled: [rung('reserve', 9, 9)] });

    expect(kinds()).toEqual(['priced', 'use relaxed']);
    expect(questions[1]?.request).not.toHaveProperty('signal');
    expect(questions[1]?.request).not.toHaveProperty('bounds');
  });

  test('holds what is heavier, missed or not, while lighter ones are asked', async () => {
    const { questions, solve } = scripted({
      priced: solved([50, 3, 5], { bound: 80 }),
      'use relaxed': solved([0, 3, 0], { bound: 3 }),
      'reserve relaxed': solved([0, 0, 5], { bound: 5 }),
    });

    await inRungs(solve);
    expect(questions.map(({ held }) => held)).toEqual([{}, {}, { use: 3 }, { use: 3, reserve: 5 }]);

    const served = scripted({
      priced: solved([50, 0, 5], { bound: 60 }),
      'reserve relaxed': solved([0, 0, 5], { bound: 5 }),
    });
    await inRungs(served.solve, { gap: 1 });
    expect(served.questions.map(({ held }) => held)).toEqual([{}, { use: 0 }]);
  });
});

describe('a search that is called off', () => {
  const asked = {
    priced: solved([50, 3, 0], { bound: 20 }),
    'use relaxed': solved([0, 1, 0], { bound: 1 }),
    'use whole': solved([70, 2, 0], { bound: 1.5 }),
    'reserve relaxed': solved([0, 0, 0]),
    again: solved([60, 2, 0]),
  };

  test.each([
    ['priced', 'so', 1],
    ['use relaxed', 'use', 2],
    ['use whole', 'use', 3],
    ['reserve relaxed', 'reserve', 4],
    ['again', 'so', 5],
  ])('answers that, and nothing else: at %s', async (kind, detail, count) => {
    const { kinds, solve } = scripted({ ...asked, [kind]: unsolved('cancelled') });

    expect(await inRungs(solve)).toEqual({ answer: { status: 'cancelled', detail }, rungs: [] });
    expect(kinds()).toHaveLength(count);
  });
});

describe('the plan made again', () => {
  test('has a second at least, however long the rungs took', async () => {
    const { questions, solve } = scripted({
      priced: solved([50, 3, 0], { seconds: 80 }),
      'use relaxed': solved([0, 3, 0], { bound: 3, seconds: 30 }),
      again: solved([50, 3, 0]),
    });

    await inRungs(solve);

    expect(questions.at(-1)?.kind).toBe('again');
    expect(questions.at(-1)?.request.secondsLimit).toBe(1);
  });

  test('is no longer looked for than a year whose wishes give way to each other is', async () => {
    const { questions, solve } = scripted({
      priced: solved([50, 9, 0], { bound: 20, stoppedBy: 'time limit' }),
      'use relaxed': solved([0, 1, 0], { bound: 1 }),
      'use whole': solved([50, 9, 0], { bound: 1 }),
      again: solved([50, 9, 0]),
    });

    await inRungs(solve);

    expect(questions.filter(({ kind }) => kind === 'priced')).toHaveLength(1);
    expect(questions.at(-1)?.kind).toBe('again');
    expect(questions.at(-1)?.request.secondsLimit).toBeCloseTo(soonSeconds, 9);
  });

  test.each([
    [5.9, soonSeconds],
    [6, 98],
  ])(
    'is soon over where a wish gives way that nobody has proven to: %d of 9 proven',
    async (proven, seconds) => {
      const { questions, solve } = scripted({
        priced: solved([50, 9, 0], { bound: 20 }),
        'use relaxed': solved([0, 1, 0], { bound: proven }),
        'use whole': solved([50, 9, 0], { bound: 1, seconds: 0 }),
        again: solved([50, 9, 0]),
      });

      await inRungs(solve);

      expect(questions.at(-1)?.kind).toBe('again');
      expect(questions.at(-1)?.request.secondsLimit).toBeCloseTo(seconds, 9);
    },
  );

  test('tells what its rungs miss, and no more proven than that', async () => {
    const { solve } = scripted({
      priced: solved([50, 3, 0], { bound: 20 }),
      'use relaxed': solved([0, 1, 0], { bound: 1 }),
      'use whole': solved([70, 2, 0], { bound: 1.9 }),
      'reserve relaxed': solved([0, 0, 0]),
      again: solved([60, 1.5, 2], { objective: 60, bound: 55 }),
    });

    const { rungs } = await inRungs(solve);

    expect(rungs).toEqual([rung('use', 1.5, 1.5), rung('reserve', 2, 0)]);
  });

  test('that is not found leaves what served the rungs best, proven as far as the priced one was', async () => {
    const { solve } = scripted({
      priced: solved([50, 3, 0], { bound: 20, nodes: 8 }),
      'use relaxed': solved([0, 1, 0], { bound: 1, seconds: 2 }),
      'use whole': solved([70, 2, 0], { bound: 1.5, seconds: 3 }),
      'reserve relaxed': solved([0, 0, 0], { seconds: 4 }),
      again: unsolved('time limit without plan'),
    });

    const { answer, rungs } = await inRungs(solve);

    expect(answer).toEqual(
      solved([70, 2, 0], { objective: 90, bound: 20, nodes: 8, seconds: 10, stoppedBy: 'time limit' }),
    );
    expect(rungs).toEqual([rung('use', 2, 1.5), rung('reserve', 0)]);
  });
});

describe('a gap that wishes hide', () => {
  // Three of use missed cost 30 of 80: money is 50, and the gap asked for a tenth of it.
  const bound = async (proven: number, use = 3) => {
    const money = 50;
    const { kinds, solve } = scripted({
      priced: solved([money, use, 0], { bound: proven }),
      'use relaxed': solved([0, use, 0], { bound: use }),
      again: solved([money, use, 0], { objective: money, bound: money }),
    });
    await inRungs(solve, { gap: 0.1 });
    return kinds().includes('again');
  };

  test('is measured against the money alone', async () => {
    expect(await bound(75)).toBe(false);
    expect(await bound(74.9)).toBe(true);
    // A tenth of all would be eight.
    expect(await bound(73)).toBe(true);
  });

  test('is nothing where no wish is missed: then the solver’s own gap holds', async () => {
    expect(await bound(0, 0)).toBe(false);
  });
});

describe('a model that goes on from a plan', () => {
  const provenBefore = { gap: 0.2, rungs: [rung('use', 3, 1)] };
  const start = [50, 3, 0];

  test('is searched no nearer to the best than that plan was proven', async () => {
    const { questions, solve } = scripted({ priced: solved([50, 0, 0]) });

    await inRungs(solve, { gap: 0.01, start, provenBefore });

    expect(questions[0]?.request.gap).toBe(0.2);
  });

  test('is not searched for money alone where it is as near to the best, or where the time was up', async () => {
    const missing = { 'use relaxed': solved([0, 3, 0], { bound: 3 }) };
    const kindsOf = async (
      bound: number,
      stoppedBy: SolvedAnswer['stoppedBy'],
      change: Partial<RungsRequest>,
    ) => {
      const { kinds, solve } = scripted({ ...missing, priced: solved([50, 3, 0], { bound, stoppedBy }) });
      await inRungs(solve, change);
      return kinds();
    };

    expect(await kindsOf(64, 'gap', { start, provenBefore })).toEqual(['priced', 'use relaxed']);
    expect(await kindsOf(63, 'gap', { start, provenBefore })).toContain('again');
    expect(await kindsOf(0, 'time limit', { start })).toEqual(['priced', 'use relaxed']);
    expect(await kindsOf(0, 'time limit', {})).toContain('again');
  });

  test('looks no closer at a rung of which no more is open than of that plan, and proves what the relaxation does', async () => {
    const asked = async (bound: number) => {
      const { kinds, solve } = scripted({
        priced: solved([50, 3, 0], { bound: 80 }),
        'use relaxed': solved([0, bound, 0], { bound }),
        'use whole': solved([0, 3, 0], { bound: 3 }),
      });
      const { rungs } = await inRungs(solve, { start, provenBefore });
      return { kinds: kinds(), use: rungs.find(({ name }) => name === 'use') };
    };

    // Two units were open.
    expect(await asked(1)).toEqual({ kinds: ['priced', 'use relaxed'], use: rung('use', 3, 1) });
    expect((await asked(0.9)).kinds).toContain('use whole');
  });

  test('has its rungs relaxed however little time one has', async () => {
    const { questions, solve } = scripted({
      priced: solved([50, 3, 0], { bound: 80 }),
      'use relaxed': solved([0, 3, 0], { bound: 3 }),
    });

    await inRungs(solve, { rungSeconds: 0.1 });

    expect(questions.find(({ kind }) => kind === 'use relaxed')?.request.secondsLimit).toBe(5);
  });
});
