import { parentPort } from 'node:worker_threads';
import { readHousehold } from './household-reading.ts';
import type { ReadingAnswer, ReadingOrder } from './reading-thread.ts';

// Files that people send are read and checked here: what is hard to read holds up nobody else.

const port = parentPort;
if (port === null) throw new Error('reading-worker: expected to run in a worker thread');
const report = (answer: ReadingAnswer) => port.postMessage(answer);

port.on('message', ({ id, bytes }: ReadingOrder) => {
  report({ id, outcome: readHousehold(bytes) });
});
report({ id: 0, outcome: null });
