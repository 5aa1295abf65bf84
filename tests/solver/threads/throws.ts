import { parentPort } from 'node:worker_threads';

// Stands in for the solver's thread: it fails outside every guard.
parentPort?.on('message', () => {
  throw new Error('out of memory\nand a page of source text');
});
