import { afterAll, describe, expect, it } from 'vitest';
import { type HighsSolver, openHighsSolver } from '../../server/solver/highs-solver.ts';
import { buildModel } from '../../src/planning/model/build-model.ts';
import { createModelWriter, type Model, objectiveOf } from '../../src/planning/model/model.ts';
import { goingOnFrom, type SolveAnswer, type SolveProgress } from '../../src/planning/solving/solving.ts';
import { generatedHousehold } from '../planning/generated-household.ts';

const solver = openHighsSolver();
afterAll(() => solver.close());

/** Two batches at most fit; each is worth 3, a jar bought is worth 1 and there are at most 4.5 units of room. */
function roomForBatches(): Model {
  const writer = createModelWriter();
  const batches = writer.column('batches', { lower: 0, upper: 10, integer: true });
  const bought = writer.column('bought', { lower: 0 });
  writer.row(
    'room',
    0,
    [
      [batches, 2],
      [bought, 1],
    ],
    4.5,
  );
  writer.price('worth', batches, -3);
  writer.price('worth', bought, -1);
  return writer.finish().model;
}

function onlyRow(lower: number, upper: number, cents: number): Model {
  const writer = createModelWriter();
  const batches = writer.column('batches', { lower: 0, integer: true });
  writer.row('wanted', lower, [[batches, 2]], upper);
  writer.price('worth', batches, cents);
  return writer.finish().model;
}

const largeModel = () => buildModel(generatedHousehold({ seed: 5, preserves: 60, staples: 45 })).model;

describe('the solver', () => {
  it('solves a mixed-integer model to its optimum and proves it', async () => {
    const answer = await solver.solve(roomForBatches(), { gap: 0 });

    expect(answer).toMatchObject({ status: 'solved', stoppedBy: 'gap', objective: -6.5, bound: -6.5 });
  });

  it('solves the relaxation, and one like it from where it ended', async () => {
    const answer = await solver.solve(roomForBatches(), { gap: 0, relaxed: true });

    expect(answer).toMatchObject({ status: 'solved', objective: -6.75 });
    if (answer.status !== 'solved' || answer.basis === null) throw new Error('expected a basis');
    // One room is full and two columns share it: one of them is basic, the other stands at its bound.
    expect([answer.basis.columns.length, answer.basis.rows.length]).toEqual([2, 1]);
    const like = { gap: 0, relaxed: true, bounds: new Map([[1, [1, 1] as const]]) };
    const cold = await solver.solve(roomForBatches(), like);
    const goingOn = await solver.solve(roomForBatches(), { ...like, ...goingOnFrom(answer) });
    expect(goingOn).toMatchObject({ status: 'solved', objective: -6.25 });
    expect(cold).toMatchObject({ status: 'solved', objective: -6.25 });
  });

  it('answers a relaxation the same from any basis', async () => {
    const model = buildModel(generatedHousehold({ seed: 5, preserves: 6, staples: 5 })).model;
    const free = await solver.solve(model, { gap: 0, relaxed: true });
    if (free.status !== 'solved') throw new Error(free.status);
    for (const column of [3, 40, 200]) {
      const value = Math.ceil((free.values[column] ?? 0) + 1e-6);
      const like = { gap: 0, relaxed: true, bounds: new Map([[column, [value, value] as const]]) };
      const cold = await solver.solve(model, like);
      const goingOn = await solver.solve(model, { ...like, ...goingOnFrom(free) });
      expect(goingOn.status).toBe(cold.status);
      if (cold.status === 'solved' && goingOn.status === 'solved')
        expect(goingOn.objective / cold.objective).toBeCloseTo(1, 6);
    }
  });

  it('leaves a mixed-integer answer without a basis', async () => {
    const answer = await solver.solve(roomForBatches(), { gap: 0 });

    expect(answer.status === 'solved' && answer.basis).toBe(null);
    expect(answer.status === 'solved' && goingOnFrom(answer)).toEqual({});
  });

  it('holds columns to bounds that replace their own', async () => {
    const answer = await solver.solve(roomForBatches(), { gap: 0, bounds: new Map([[0, [1, 1]]]) });

    expect(answer).toMatchObject({ status: 'solved', objective: -5.5 });
  });

  it('says infeasible by name', async () => {
    expect(await solver.solve(onlyRow(3, 3, 1), { gap: 0 })).toMatchObject({ status: 'infeasible' });
  });

  it('says unbounded, or that it cannot tell, by name', async () => {
    const answer = await solver.solve(onlyRow(0, Number.POSITIVE_INFINITY, -1), { gap: 0 });

    expect(['unbounded', 'infeasible']).toContain(answer.status);
  });

  it('says by name that the time was over before there was a plan', async () => {
    const answer = await solver.solve(largeModel(), { gap: 0, secondsLimit: 0.01 });

    expect(answer.status).toBe('time limit without plan');
  });

  it('answers with a plan and a bound when nodes run out', async () => {
    const model = buildModel(generatedHousehold({ seed: 9, preserves: 8, staples: 3 })).model;

    const answer = await solver.solve(model, { gap: 0, nodeLimit: 1 });

    expect(answer.status).toBe('solved');
    if (answer.status === 'solved') expect(answer.bound).toBeLessThanOrEqual(answer.objective + 1e-6);
  });

  it('reports how far it is while it works, and stops when called off', async () => {
    const calledOff = new AbortController();
    const seen: SolveProgress[] = [];

    const answer = await solver.solve(largeModel(), {
      gap: 0,
      signal: calledOff.signal,
      onProgress: (progress) => {
        seen.push(progress);
        calledOff.abort();
      },
    });

    expect(answer.status).toBe('cancelled');
    expect(seen.length).toBeGreaterThan(0);
    expect(seen[0]?.bound).toBeGreaterThan(0);
  });

  it('tells what the best plan so far is, in the columns of the model, once for each that is better', async () => {
    const calledOff = new AbortController();
    const model = largeModel();
    const found: SolveProgress[] = [];

    await solver.solve(model, {
      gap: 0,
      signal: calledOff.signal,
      onProgress: (progress) => {
        if (progress.values === undefined) return;
        found.push(progress);
        calledOff.abort();
      },
    });

    const [{ values = [], incumbent = null } = {}] = found;
    expect(values).toHaveLength(model.columns.length);
    expect(objectiveOf(model, values) / Number(incumbent)).toBeCloseTo(1, 4);
  });

  it('lets one solve go on when another that waits behind it is called off', async () => {
    const calledOff = new AbortController();
    const first = solver.solve(roomForBatches(), { gap: 0 });
    const second = solver.solve(largeModel(), { gap: 0, signal: calledOff.signal });
    calledOff.abort();

    expect(await second).toMatchObject({ status: 'cancelled' });
    expect(await first).toMatchObject({ status: 'solved' });
  });

  it('does not begin what was called off before', async () => {
    expect(await solver.solve(roomForBatches(), { gap: 0, signal: AbortSignal.abort() })).toMatchObject({
      status: 'cancelled',
    });
  });

  it('gives the same answer for the same model', async () => {
    const model = buildModel(generatedHousehold({ seed: 9, preserves: 5, staples: 3 })).model;

    const one = await solver.solve(model, { gap: 0.02 });
    const other = await solver.solve(model, { gap: 0.02 });

    expect(one.status === 'solved' && [...one.values]).toEqual(
      other.status === 'solved' && [...other.values],
    );
  });
});

describe('a solver process that fails', () => {
  const process = (name: string) =>
    openHighsSolver({ script: new URL(`./processes/${name}.ts`, import.meta.url) });

  it('is a crash by name when it ends', async () => {
    const failing = process('ends-at-once');

    expect(await failing.solve(roomForBatches(), { gap: 0 })).toEqual({
      status: 'solver crashed',
      detail: 'solver process ended with code 3',
    });
    await failing.close();
  });

  it('is a crash by name when it throws, and only the first line is told', async () => {
    const failing = process('throws');

    expect(await failing.solve(roomForBatches(), { gap: 0 })).toEqual({
      status: 'solver crashed',
      detail: 'out of memory',
    });
    await failing.close();
  });

  it('is ended when it does not stop by itself', async () => {
    const stuck = process('never-answers');
    const calledOff = new AbortController();
    const answer = stuck.solve(roomForBatches(), { gap: 0, signal: calledOff.signal });
    setTimeout(() => calledOff.abort(), 100);

    expect(await answer).toEqual({ status: 'cancelled', detail: 'the solver process was ended' });
    await stuck.close();
  });

  it('that would need more memory than it may have is a crash by name; what waits behind it is solved', async () => {
    const small = openHighsSolver({ memoryMb: 24 });
    const tooMuch = small.solve(
      buildModel(generatedHousehold({ seed: 1, preserves: 160, staples: 120 })).model,
      { gap: 0 },
    );
    const behind = small.solve(roomForBatches(), { gap: 0 });

    expect(await tooMuch).toMatchObject({ status: 'solver crashed' });
    expect(await behind).toMatchObject({ status: 'solved', objective: -6.5 });
    await small.close();
  });
});

describe('households that share the solver', () => {
  const stalling = new URL('./processes/stalls-for-one.ts', import.meta.url);
  const short = () => onlyRow(3, 3, 1);
  const long = roomForBatches;

  it('one whose solve never ends keeps no other from being answered, again and again', async () => {
    const shared = openHighsSolver({ script: stalling, processes: 2 });
    const leaving = new AbortController();
    const stalled = [1, 2, 3].map(() => shared.solveFor('alder')(long(), { gap: 0, signal: leaving.signal }));

    for (const asker of ['birch', 'cedar', 'birch'])
      expect(await shared.solveFor(asker)(short(), { gap: 0 })).toMatchObject({ status: 'infeasible' });

    leaving.abort();
    for (const answer of await Promise.all(stalled)) expect(answer.status).toBe('cancelled');
    await shared.close();
  });

  it('take turns, however many one of them has waiting', async () => {
    const shared = openHighsSolver({ script: stalling, processes: 1 });
    const order: string[] = [];
    const ask = (asker: string) =>
      shared
        .solveFor(asker)(short(), { gap: 0 })
        .then(() => order.push(asker));
    await Promise.all([ask('alder'), ask('alder'), ask('alder'), ask('alder'), ask('birch'), ask('cedar')]);

    expect(order).toEqual(['alder', 'alder', 'birch', 'cedar', 'alder', 'alder']);
    await shared.close();
  });

  it('have what they wait for solved by the next process when one is lost', async () => {
    const failing = openHighsSolver({
      script: new URL('./processes/ends-at-once.ts', import.meta.url),
      processes: 1,
    });
    const answers = await Promise.all(
      ['alder', 'birch'].map((asker) => failing.solveFor(asker)(short(), { gap: 0 })),
    );

    expect(answers.map(({ status }) => status)).toEqual(['solver crashed', 'solver crashed']);
    await failing.close();
  });

  it('are told when the solver is closed, those whose turn has not come too', async () => {
    const shared = openHighsSolver({ script: stalling, processes: 1 });
    const asked = ['alder', 'birch'].map((asker) => shared.solveFor(asker)(long(), { gap: 0 }));
    await shared.close();

    expect((await Promise.all(asked)).map(({ status }) => status)).toEqual(['cancelled', 'cancelled']);
  });
});

describe('a solver process with nothing to solve', () => {
  const telling = new URL('./processes/stalls-for-one.ts', import.meta.url);
  const pidOf = (answer: SolveAnswer): number =>
    Number(answer.status === 'infeasible' && /\d+/.exec(answer.detail)?.[0]);
  const isThere = (pid: number): boolean => {
    try {
      return process.kill(pid, 0);
    } catch {
      return false;
    }
  };
  const ask = (solver: HighsSolver) => solver.solve(onlyRow(3, 3, 1), { gap: 0 }).then(pidOf);

  it('is kept for the next question for a while', async () => {
    const kept = openHighsSolver({ script: telling, idleMs: 3_600_000 });
    const first = await ask(kept);

    expect(await ask(kept)).toBe(first);
    await kept.close();
    expect(isThere(first)).toBe(false);
  });

  it('is ended then, with its memory, and told of once nothing is left; the next question starts another', async () => {
    let idle = () => {};
    const isIdle = new Promise<void>((resolve) => {
      idle = resolve;
    });
    const ended = openHighsSolver({ script: telling, idleMs: 1, onIdle: () => idle() });
    const first = await ask(ended);
    // The timer keeps nobody waiting, so whoever waits for it waits with one of his own.
    const waiting = setInterval(() => {}, 1000);
    await isIdle;
    clearInterval(waiting);

    const next = await ask(ended);
    expect(next).not.toBe(first);
    await ended.close();
    expect([first, next].filter(isThere)).toEqual([]);
  });
});
