import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openReadingProcess, type ReadingProcess } from '../../../server/files/reading-process.ts';
import { refusalOf } from '../../builders/outcomes.ts';

// Readers that fail on purpose stand in for the one that reads.
let folder: string;
const scriptOf = (text: string): URL => {
  const file = join(folder, 'reader.mjs');
  writeFileSync(file, text);
  return pathToFileURL(file);
};
const ready = `process.on('disconnect', () => process.exit()); process.send({ id: 0, outcome: null });`;

let reader: ReadingProcess;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'shelfward-reader-'));
});
afterEach(async () => {
  await reader.close();
  rmSync(folder, { recursive: true, force: true });
});
const ask = () => reader.read('household', { bytes: Buffer.from('{}') });

describe('the process that reads files', () => {
  it('is ended when a file takes too long, and reads the next one', async () => {
    reader = openReadingProcess({
      longestMs: 200,
      mostWaiting: 3,
      memoryInMb: 64,
      script: scriptOf(`process.on('message', () => { for (;;) {} });${ready}`),
    });

    const [one, other] = await Promise.all([ask(), ask()]);

    expect(refusalOf(one).message).toMatch(
      /takes longer to read than a saved household does\. Nothing was changed/,
    );
    expect(refusalOf(other).message).toMatch(/takes longer/);
  });

  it('is ended alone when a file takes too much memory', async () => {
    reader = openReadingProcess({
      longestMs: 60_000,
      mostWaiting: 3,
      memoryInMb: 16,
      script: scriptOf(
        `process.on('message', () => { const kept = []; for (;;) kept.push(new Array(10_000).fill(kept.length)); });${ready}`,
      ),
    });

    expect(refusalOf(await ask()).message).toMatch(/takes more memory than there is for reading it/);
  });

  it('reads one at a time, lets three wait, and tells the fifth to come again', async () => {
    reader = openReadingProcess({
      longestMs: 60_000,
      mostWaiting: 3,
      memoryInMb: 64,
      script: scriptOf(
        `let busy = false; process.on('message', ({ id }) => {
          const alone = !busy; busy = true;
          setTimeout(() => { busy = false; process.send({ id, outcome: { ok: true, value: alone } }); }, 20);
        });${ready}`,
      ),
    });

    const answers = await Promise.all([ask(), ask(), ask(), ask(), ask()]);

    expect(answers.slice(0, 4)).toEqual(Array.from({ length: 4 }, () => ({ ok: true, value: true })));
    expect(refusalOf(answers[4] ?? answers[0]).message).toMatch(/^Other files are being read just now/);
  });
});
