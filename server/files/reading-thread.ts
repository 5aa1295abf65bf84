import { Worker } from 'node:worker_threads';
import { type Outcome, refused } from '../../shared/problems.ts';
import { problem } from '../records/record.ts';
import { typescriptLoader } from '../solver/typescript-loader.ts';
import type { ReadHousehold } from './household-reading.ts';
import type { ListQuestion, ReadList } from './list-import.ts';

/** What the thread is asked, by the kind of file. */
export interface Asked {
  readonly household: { readonly bytes: Uint8Array };
  readonly list: { readonly content: string | Uint8Array; readonly question: ListQuestion | null };
}
export interface Answered {
  readonly household: Outcome<ReadHousehold>;
  readonly list: Outcome<ReadList>;
}
export type ReadingKind = keyof Asked;

export type ReadingOrder = {
  [Kind in ReadingKind]: { readonly id: number; readonly kind: Kind } & Asked[Kind];
}[ReadingKind];

/** Id 0 with nothing in it: the thread stands ready. */
export interface ReadingAnswer {
  readonly id: number;
  readonly outcome: Answered[ReadingKind] | null;
}

export interface ReadingLimits {
  /** Of one file, from the moment the thread begins with it. */
  readonly longestMs: number;
  /** Files that wait while one is read; one more is refused. */
  readonly mostWaiting: number;
  readonly memoryInMb: number;
  /** File the thread runs; another one stands in for it where its failures are tested. */
  readonly script?: URL;
}

const usualLimits: ReadingLimits = { longestMs: 15_000, mostWaiting: 3, memoryInMb: 160 };
/** A thread that had nothing to read for so long is ended, and gives its memory back. */
const idleMs = 20_000;
const longestStartMs = 60_000;

export interface ReadingThread {
  read<Kind extends ReadingKind>(kind: Kind, asked: Asked[Kind]): Promise<Answered[Kind]>;
  close(): Promise<void>;
}

export const readingBusy = 'reading-busy';

const notRead = (code: string, message: string): Outcome<never> => refused(problem(code, 'file', message));

interface Waiting {
  readonly order: ReadingOrder;
  readonly settle: (outcome: Answered[ReadingKind]) => void;
}

/** A thread of its own that reads sent files, one at a time, with an end to its time and memory. */
export function openReadingThread(limits: ReadingLimits = usualLimits): ReadingThread {
  const {
    longestMs,
    mostWaiting,
    memoryInMb,
    script = new URL('./reading-worker.ts', import.meta.url),
  } = limits;
  const waiting: Waiting[] = [];
  let now: Waiting | null = null;
  let worker: Worker | null = null;
  let isReady = false;
  let clock: NodeJS.Timeout | undefined;
  let lastId = 0;

  const end = (): void => {
    const ending = worker;
    worker = null;
    isReady = false;
    void ending?.terminate();
  };
  const answer = (outcome: Answered[ReadingKind]): void => {
    clearTimeout(clock);
    const answered = now;
    now = null;
    answered?.settle(outcome);
    next();
  };
  const next = (): void => {
    if (now !== null) return;
    now = waiting.shift() ?? null;
    if (now !== null) begin();
    else if (worker !== null) {
      worker.unref();
      clock = setTimeout(end, idleMs);
      clock.unref();
    }
  };
  const begin = (): void => {
    if (now === null) return;
    clearTimeout(clock);
    worker ??= started();
    worker.ref();
    clock = setTimeout(
      () => {
        end();
        answer(
          notRead(
            'reading-too-long',
            'Expected a file that can be read within a few seconds; this one takes longer than a saved household does. Nothing was changed. Choose another file.',
          ),
        );
      },
      isReady ? longestMs : longestStartMs,
    );
    if (isReady) worker.postMessage(now.order);
  };
  const started = (): Worker => {
    const thread = new Worker(script, {
      execArgv: ['--import', typescriptLoader()],
      resourceLimits: { maxOldGenerationSizeMb: memoryInMb, maxYoungGenerationSizeMb: 24, stackSizeMb: 4 },
    });
    thread.on('message', ({ id, outcome }: ReadingAnswer) => {
      if (thread !== worker) return;
      if (outcome === null) {
        isReady = true;
        begin();
      } else if (now?.order.id === id) answer(outcome);
    });
    const lost = (): void => {
      if (thread !== worker) return;
      end();
      answer(
        notRead(
          'reading-too-much',
          'Expected a file of the size of a saved household; this one takes more memory than there is for reading it. Nothing was changed. Choose another file.',
        ),
      );
    };
    thread.on('error', lost);
    thread.on('exit', lost);
    return thread;
  };

  return {
    read: <Kind extends ReadingKind>(kind: Kind, asked: Asked[Kind]) =>
      new Promise<Answered[Kind]>((resolve) => {
        // An order of this kind is answered in its kind.
        const settle = resolve as Waiting['settle'];
        if (waiting.length >= mostWaiting) {
          settle(
            notRead(
              readingBusy,
              'Other files are being read just now, one after another. Nothing was changed. Send yours again in a minute.',
            ),
          );
          return;
        }
        waiting.push({ order: { id: ++lastId, kind, ...asked } as ReadingOrder, settle });
        next();
      }),
    async close() {
      const ending = worker;
      waiting.length = 0;
      now = null;
      clearTimeout(clock);
      worker = null;
      await ending?.terminate();
    },
  };
}

let own: ReadingThread | null = null;

/** The one thread of this program. */
export const readingThread = (): ReadingThread => {
  own ??= openReadingThread();
  return own;
};
