import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { openHighsSolver } from '../../server/solver/highs-solver.ts';
import { type LivedTask, liveTask } from './lived/protocol.ts';

// Lives the households it is sent, one after the other, for bench:lived.

const reference = loadReferenceTables();
const { solve } = openHighsSolver({ processes: 1 });

process.on('message', (task: LivedTask) => {
  liveTask(task, { reference, solve, onPath: (result) => process.send?.({ result }) }).then(
    () => process.send?.({ isDone: true }),
    (cause: unknown) =>
      process.send?.({ failed: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) }),
  );
});
process.on('disconnect', () => process.exit());
