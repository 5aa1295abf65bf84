import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { type Outcome, refused } from '../../shared/problems.ts';
import { putBehindThePages } from '../child-processes/behind-the-pages.ts';
import { harmlessEnvironment } from '../child-processes/harmless-environment.ts';
import { loaderFor } from '../child-processes/typescript-loader.ts';
import { moduleAt } from '../program.ts';
import { problem } from '../records/record.ts';
import type { ReadHousehold } from './household-reading.ts';
import type { ListQuestion, ReadList } from './list-import.ts';

/** What the reader is asked, by the kind of file. */
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

/** Id 0 with nothing in it: the reader stands ready. */
export interface ReadingAnswer {
  readonly id: number;
  readonly outcome: Answered[ReadingKind] | null;
}

export interface ReadingLimits {
  /** Of one file, from the moment the reader begins with it. */
  readonly longestMs: number;
  /** Files that wait while one is read; one more is refused. */
  readonly mostWaiting: number;
  readonly memoryInMb: number;
  /** File the process runs; another one stands in for it where its failures are tested. */
  readonly script?: URL;
}

const usualLimits: ReadingLimits = { longestMs: 60_000, mostWaiting: 3, memoryInMb: 160 };
/** A reader that had nothing to read for so long is ended, and gives its memory back. */
const idleMs = 20_000;
const longestStartMs = 120_000;

export interface ReadingProcess {
  read<Kind extends ReadingKind>(kind: Kind, asked: Asked[Kind]): Promise<Answered[Kind]>;
  close(): Promise<void>;
}

export const readingBusy = 'reading-busy';

const notRead = (code: string, message: string): Outcome<never> => refused(problem(code, 'file', message));

interface Waiting {
  readonly order: ReadingOrder;
  readonly settle: (outcome: Answered[ReadingKind]) => void;
}

/**
 * A process of its own that reads sent files, one at a time, with an end to its time and memory. What a file does to it is
 * nothing to the one that serves.
 */
export function openReadingProcess(limits: ReadingLimits = usualLimits): ReadingProcess {
  const { longestMs, mostWaiting, memoryInMb, script = moduleAt('server/files/file-reader') } = limits;
  const waiting: Waiting[] = [];
  let now: Waiting | null = null;
  let reader: ChildProcess | null = null;
  let isReady = false;
  let clock: NodeJS.Timeout | undefined;
  let lastId = 0;

  const end = (): void => {
    const ending = reader;
    reader = null;
    isReady = false;
    ending?.kill('SIGKILL');
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
    else if (reader !== null) {
      waitFor(reader, false);
      clock = setTimeout(end, idleMs);
      clock.unref();
    }
  };
  const begin = (): void => {
    if (now === null) return;
    clearTimeout(clock);
    reader ??= started();
    waitFor(reader, true);
    clock = setTimeout(
      () => {
        end();
        answer(
          notRead(
            'reading-too-long',
            'This file takes longer to read than a saved household does. Nothing was changed. Choose another file.',
          ),
        );
      },
      isReady ? longestMs : longestStartMs,
    );
    if (isReady) reader.send(now.order);
  };
  const started = (): ChildProcess => {
    const child = fork(fileURLToPath(script), [], {
      execArgv: [`--max-old-space-size=${memoryInMb}`, '--max-semi-space-size=8', ...loaderFor(script)],
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
      // Nothing that is secret in the environment is a reader's business.
      env: harmlessEnvironment(),
    });
    putBehindThePages(child.pid);
    child.on('message', ({ id, outcome }: ReadingAnswer) => {
      if (child !== reader) return;
      if (outcome === null) {
        isReady = true;
        begin();
      } else if (now?.order.id === id) answer(outcome);
    });
    const lost = (): void => {
      if (child !== reader) return;
      end();
      answer(
        notRead(
          'reading-too-much',
          'This file takes more memory than there is for reading it. Nothing was changed. Choose another file.',
        ),
      );
    };
    child.on('error', lost);
    child.on('exit', lost);
    return child;
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
      const ending = reader;
      waiting.length = 0;
      now = null;
      clearTimeout(clock);
      reader = null;
      isReady = false;
      if (ending === null || ending.exitCode !== null || ending.signalCode !== null) return;
      const gone = new Promise((resolve) => ending.once('exit', resolve));
      waitFor(ending, true);
      ending.kill('SIGKILL');
      await gone;
    },
  };
}

/** Whether this process waits for the other before it ends itself. */
function waitFor(child: ChildProcess, waits: boolean): void {
  const how = waits ? 'ref' : 'unref';
  child[how]();
  child.channel?.[how]();
}

let own: ReadingProcess | null = null;

/** The one reader of this program. */
export const readingProcess = (): ReadingProcess => {
  own ??= openReadingProcess();
  return own;
};
