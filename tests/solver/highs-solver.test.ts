import { afterAll, describe, expect, it } from 'vitest';
import { openHighsSolver } from '../../server/solver/highs-solver.ts';
import { createModelWriter } from '../../src/planning/model.ts';

const solver = openHighsSolver();
afterAll(() => solver.close());

/** Two batches at most fit; each is worth 3, a jar bought is worth 1 and there are at most 4.5 units of room. */
function roomForBatches() {
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

describe('solver thread', () => {
  it('solves a mixed-integer model to its optimum and proves it', async () => {
    const answer = await solver.solve(roomForBatches(), { gap: 0 });

    expect(answer).toMatchObject({ status: 'solved', stoppedBy: 'gap', objective: -6.5, bound: -6.5 });
  });

  it('solves the relaxation and prices its rows', async () => {
    const answer = await solver.solve(roomForBatches(), { gap: 0, relaxed: true });

    expect(answer).toMatchObject({ status: 'solved', objective: -6.75 });
    expect(answer.status === 'solved' && answer.rowPrices?.[0]).toBeCloseTo(-1.5);
  });
});
