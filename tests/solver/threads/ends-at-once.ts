import { parentPort } from 'node:worker_threads';

// Stands in for the solver's thread: it dies as soon as it is asked anything.
parentPort?.on('message', () => process.exit(3));
