import { parentPort } from 'node:worker_threads';
import { readHousehold } from './household-reading.ts';
import { readList } from './list-import.ts';
import type { ReadingAnswer, ReadingOrder } from './reading-thread.ts';

// Files that people send are read and checked here: what is hard to read holds up nobody else.

const port = parentPort;
if (port === null) throw new Error('reading-worker: expected to run in a worker thread');
const report = (answer: ReadingAnswer) => port.postMessage(answer);

port.on('message', (order: ReadingOrder) => {
  const outcome =
    order.kind === 'household' ? readHousehold(order.bytes) : readList(order.content, order.question);
  report({ id: order.id, outcome });
});
report({ id: 0, outcome: null });
