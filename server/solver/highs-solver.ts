import { Worker } from 'node:worker_threads';
import type { Model } from '../../src/planning/model.ts';
import type { Solve, SolveAnswer, SolveProgress, SolveRequest } from '../../src/planning/solving.ts';
import { type PackedModel, packModel } from './packed-model.ts';
import type { SolveOrder, SolverReport } from './solver-messages.ts';
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
  readonly settle: (answer: SolveAnswer) => void;
  readonly onProgress: ((progress: SolveProgress) => void) | undefined;
}

export interface SolverThread {
  /** File the thread runs; another one stands in for it where its failures are tested. */
  readonly script?: URL;
}

export function openHighsSolver({
  script = new URL('./highs-worker.ts', import.meta.url),
}: SolverThread = {}): HighsSolver {
  const waiting = new Map<number, Waiting>();
  let worker: Worker | null = null;
  let lastId = 0;

  const failAll = (answer: SolveAnswer) => {
    for (const { settle } of waiting.values()) settle(answer);
    waiting.clear();
  };
  const running = (): Worker => {
    if (worker !== null) return worker;
    const started = new Worker(script, { execArgv: ['--import', typescriptLoader()] });
    started.on('message', (message: SolverReport) => {
      const asker = waiting.get(message.id);
      if (message.kind === 'progress') asker?.onProgress?.(message.progress);
      else {
        waiting.delete(message.id);
        asker?.settle(message.answer);
      }
    });
    const lost = (detail: string) => {
      if (worker === started) {
        worker = null;
        failAll({ status: 'solver crashed', detail });
      }
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
        const thread = running();
        thread.ref();
        const callOff = () => {
          Atomics.store(new Int32Array(calledOff), 0, 1);
          const [runningId] = waiting.keys();
          if (runningId !== id) {
            const { settle } = waiting.get(id) ?? {};
            waiting.delete(id);
            settle?.({ status: 'cancelled', detail: 'called off before it began' });
            return;
          }
          setTimeout(() => {
            if (!waiting.has(id)) return;
            worker = null;
            void thread.terminate();
            waiting.get(id)?.settle({ status: 'cancelled', detail: 'the solver thread was ended' });
            waiting.delete(id);
            failAll({ status: 'solver crashed', detail: 'the solver thread was ended for another solve' });
          }, graceAfterCancelMs).unref();
        };
        request.signal?.addEventListener('abort', callOff, { once: true });
        waiting.set(id, {
          onProgress: request.onProgress,
          settle: (answer) => {
            request.signal?.removeEventListener('abort', callOff);
            thread.unref();
            resolve(answer);
          },
        });
        thread.postMessage(orderFor(id, model, request, calledOff));
      }),
    async close() {
      const ending = worker;
      worker = null;
      failAll({ status: 'cancelled', detail: 'the solver was closed' });
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
