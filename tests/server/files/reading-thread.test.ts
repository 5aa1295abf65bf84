import { afterEach, describe, expect, it } from 'vitest';
import { openReadingThread, type ReadingThread } from '../../../server/files/reading-thread.ts';
import { refusalOf } from '../../builders/outcomes.ts';

// Threads that fail on purpose stand in for the one that reads.
const scriptOf = (text: string): URL =>
  new URL(
    `data:text/javascript,${encodeURIComponent(`import { parentPort } from 'node:worker_threads';\n${text}`)}`,
  );
const ready = `parentPort.postMessage({ id: 0, outcome: null });`;

let thread: ReadingThread;
afterEach(() => thread.close());
const ask = () => thread.read('household', { bytes: Buffer.from('{}') });

describe('the thread that reads files', () => {
  it('is ended when a file takes too long, and reads the next one', async () => {
    thread = openReadingThread({
      longestMs: 200,
      mostWaiting: 3,
      memoryInMb: 64,
      script: scriptOf(`parentPort.on('message', () => { for (;;) {} });${ready}`),
    });

    const [one, other] = await Promise.all([ask(), ask()]);

    expect(refusalOf(one).message).toMatch(/takes longer than a saved household does\. Nothing was changed/);
    expect(refusalOf(other).message).toMatch(/takes longer/);
  });

  it('is ended alone when a file takes too much memory', async () => {
    thread = openReadingThread({
      longestMs: 60_000,
      mostWaiting: 3,
      memoryInMb: 16,
      script: scriptOf(
        `parentPort.on('message', () => { const kept = []; for (;;) kept.push(new Array(10_000).fill(kept.length)); });${ready}`,
      ),
    });

    expect(refusalOf(await ask()).message).toMatch(/takes more memory than there is for reading it/);
  });

  it('reads one at a time, lets three wait, and tells the fifth to come again', async () => {
    thread = openReadingThread({
      longestMs: 60_000,
      mostWaiting: 3,
      memoryInMb: 64,
      script: scriptOf(
        `let busy = false; parentPort.on('message', ({ id }) => {
          const alone = !busy; busy = true;
          setTimeout(() => { busy = false; parentPort.postMessage({ id, outcome: { ok: true, value: alone } }); }, 20);
        });${ready}`,
      ),
    });

    const answers = await Promise.all([ask(), ask(), ask(), ask(), ask()]);

    expect(answers.slice(0, 4)).toEqual(Array.from({ length: 4 }, () => ({ ok: true, value: true })));
    expect(refusalOf(answers[4] ?? answers[0]).message).toMatch(/^Other files are being read just now/);
  });
});
