import { Worker } from 'node:worker_threads';
import type { Model } from '../../src/planning/model.ts';
import type { Solve, SolveAnswer, SolveProgress, SolveRequest } from '../../src/planning/solving.ts';
import { type PackedModel, packModel } from './packed-model.ts';
import type { SolveOrder, SolverReport, SolverSettings } from './solver-messages.ts';
import { typescriptLoader } from './typescript-loader.ts';

/** HiGHS in a thread of its own. One model at a time; `close` ends the thread. */
export interface HighsSolver {
  readonly solve: Solve;
  close(): Promise<void>;
}

/** A called-off solve that has not come back by then is ended with its thread. */
const graceAfterCancelMs = 1000;
const noLimit = 2_147_483_647;
const longestSolveSeconds = 3600;

interface Waiting {
  readonly order: SolveOrder;
  readonly settle: (answer: SolveAnswer) => void;
  readonly onProgress: ((progress: SolveProgress) => void) | undefined;
}

/** Memory of one solver in MB: of its own, and of the thread's heap around it. */
const solverMemory = { ownMb: 1024, heapMb: 384 } as const;

export interface SolverThread {
  /** Memory the solver itself may use, in MB; other than usual in tests. */
  readonly memoryMb?: number;
  /** File the thread runs; another one stands in for it where its failures are tested. */
  readonly script?: URL;
}

export function openHighsSolver({
  script = new URL('./highs-worker.ts', import.meta.url),
  memoryMb = solverMemory.ownMb,
}: SolverThread = {}): HighsSolver {
  const waiting = new Map<number, Waiting>();
  let worker: Worker | null = null;
  let lastId = 0;

  const settle = (id: number, answer: SolveAnswer): void => {
    const asker = waiting.get(id);
    waiting.delete(id);
    if (waiting.size === 0) worker?.unref();
    asker?.settle(answer);
  };
  const post = (order: SolveOrder): void => {
    const thread = running();
    thread.ref();
    thread.postMessage(order);
  };
  /** The thread is gone with the solve it worked on; what waited behind that is solved by the next thread. */
  const loseThread = (answer: SolveAnswer): void => {
    worker = null;
    const [lostId] = waiting.keys();
    if (lostId !== undefined) settle(lostId, answer);
    for (const { order } of waiting.values()) post(order);
  };
  const running = (): Worker => {
    if (worker !== null) return worker;
    const started = new Worker(script, {
      execArgv: ['--import', typescriptLoader()],
      resourceLimits: { maxOldGenerationSizeMb: solverMemory.heapMb },
      workerData: { memoryMb } satisfies SolverSettings,
    });
    started.on('message', (message: SolverReport) => {
      if (worker !== started) return;
      if (message.kind === 'progress') waiting.get(message.id)?.onProgress?.(message.progress);
      else if (message.answer.status === 'solver crashed') {
        // A solver that broke off, for want of memory perhaps, is in no state to solve the next.
        void started.terminate();
        loseThread(message.answer);
      } else settle(message.id, message.answer);
    });
    const lost = (detail: string) => {
      if (worker === started) loseThread({ status: 'solver crashed', detail });
    };
    started.on('error', (error) => lost(firstLine(error)));
    started.on('exit', (code) => lost(`solver thread ended with code ${code}`));
    started.unref();
    worker = started;
    return started;
  };

  return {
    solve: (model, request) =>
      new Promise((resolve) => {
        if (request.signal?.aborted) {
          resolve({ status: 'cancelled', detail: 'called off before it began' });
          return;
        }
        const id = ++lastId;
        const calledOff = new SharedArrayBuffer(4);
        const callOff = () => {
          Atomics.store(new Int32Array(calledOff), 0, 1);
          const [runningId] = waiting.keys();
          if (runningId !== id) {
            settle(id, { status: 'cancelled', detail: 'called off before it began' });
            return;
          }
          setTimeout(() => {
            if (!waiting.has(id)) return;
            void worker?.terminate();
            loseThread({ status: 'cancelled', detail: 'the solver thread was ended' });
          }, graceAfterCancelMs).unref();
        };
        request.signal?.addEventListener('abort', callOff, { once: true });
        const order = orderFor(id, model, request, calledOff);
        waiting.set(id, {
          order,
          onProgress: request.onProgress,
          settle: (answer) => {
            request.signal?.removeEventListener('abort', callOff);
            resolve(answer);
          },
        });
        post(order);
      }),
    async close() {
      const ending = worker;
      worker = null;
      for (const id of [...waiting.keys()])
        settle(id, { status: 'cancelled', detail: 'the solver was closed' });
      await ending?.terminate();
    },
  };
}

function orderFor(id: number, model: Model, request: SolveRequest, calledOff: SharedArrayBuffer): SolveOrder {
  return {
    id,
    model: withBounds(packModel(model), request.bounds),
    relaxed: request.relaxed ?? false,
    start: request.start === undefined ? null : Float64Array.from(request.start),
    gap: request.gap,
    absoluteGap: request.absoluteGap ?? 1e-6,
    nodeLimit: request.nodeLimit ?? noLimit,
    isSmall: request.isSmall ?? false,
    secondsLimit: request.secondsLimit ?? longestSolveSeconds,
    calledOff,
  };
}

function withBounds(packed: PackedModel, bounds: SolveRequest['bounds']): PackedModel {
  bounds?.forEach(([lower, upper], column) => {
    packed.columnLower[column] = lower;
    packed.columnUpper[column] = upper;
  });
  return packed;
}

function firstLine(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return text.split('\n')[0]?.slice(0, 300) ?? '';
}
