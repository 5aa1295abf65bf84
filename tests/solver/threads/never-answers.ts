import { parentPort } from 'node:worker_threads';

// Stands in for the solver's thread: it works for ever and does not look up.
parentPort?.on('message', () => {
  for (;;);
});
