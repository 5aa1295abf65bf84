import { readHousehold } from './household-reading.ts';
import { readList } from './list-import.ts';
import type { ReadingAnswer, ReadingOrder } from './reading-process.ts';

// Files that people send are read and checked here: what is hard to read holds up nobody else.

if (process.send === undefined) throw new Error('file-reader: expected to be started by the program');
const report = (answer: ReadingAnswer) => process.send?.(answer);

// Whoever asked is gone.
process.on('disconnect', () => process.exit());
process.on('message', (order: ReadingOrder) => {
  const outcome =
    order.kind === 'household' ? readHousehold(order.bytes) : readList(order.content, order.question);
  report({ id: order.id, outcome });
});
report({ id: 0, outcome: null });
