import { fork } from 'node:child_process';
import type { Socket } from 'node:net';
import { fileURLToPath } from 'node:url';
import type { SolveAnswer, SolveProgress } from '../../src/planning/solving/solving.ts';
import { putBehindThePages } from '../child-processes/behind-the-pages.ts';
import { harmlessEnvironment } from '../child-processes/harmless-environment.ts';
import { loaderFor } from '../child-processes/typescript-loader.ts';
import type { SolveOrder, SolverReport } from './solver-messages.ts';

/** Memory of one solver in MB: of its own, and of the heap around it. */
export const solverMemory = { ownMb: 1024, heapMb: 384 } as const;

/** A process that solves one model at a time. What it does with memory, or how it ends, is nothing to the one that serves. */
export interface SolverProcess {
  /** Never throws; a process that ended before or ends on the way is an answer with that name. */
  work(order: SolveOrder, onProgress: ((progress: SolveProgress) => void) | undefined): Promise<SolveAnswer>;
  /** Ends it, and with it what it works on; settles when it is gone. */
  end(): Promise<void>;
}

export function openSolverProcess(script: URL, memoryMb: number): SolverProcess {
  const child = fork(fileURLToPath(script), [], {
    execArgv: [`--max-old-space-size=${solverMemory.heapMb}`, ...loaderFor(script)],
    serialization: 'advanced',
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    // Nothing that is secret in the environment is a solver's business.
    env: {
      ...harmlessEnvironment(),
      SOLVER_MEMORY_MB: String(memoryMb),
    },
  });
  let working: { readonly id: number; readonly settle: (answer: SolveAnswer) => void } | null = null;
  let hear: ((progress: SolveProgress) => void) | undefined;
  let complaint = '';
  let endedBy: SolveAnswer | null = null;

  const settle = (answer: SolveAnswer): void => {
    const asker = working;
    working = null;
    wait(false);
    asker?.settle(answer);
  };
  /** Whether this process waits for the other before it ends itself. */
  const wait = (waits: boolean): void => {
    const how = waits ? 'ref' : 'unref';
    child[how]();
    child.channel?.[how]();
    (child.stderr as Socket | null)?.[how]();
  };
  const over = (answer: SolveAnswer): void => {
    endedBy ??= answer;
    settle(endedBy);
  };
  const gone = new Promise<void>((resolve) => {
    child.once('error', (error) => {
      over({ status: 'solver crashed', detail: firstLine(error.message) });
      resolve();
    });
    // The end of what it said on its error stream comes with `close`.
    child.once('close', (code, signal) => {
      const said = /^\w*Error: (.*)$/m.exec(complaint)?.[1];
      const detail = said ?? `solver process ended ${signal === null ? `with code ${code}` : `by ${signal}`}`;
      over({ status: 'solver crashed', detail: firstLine(detail) });
      resolve();
    });
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    complaint = `${complaint}${text}`.slice(0, 20_000);
  });
  child.on('message', (report: SolverReport) => {
    if (report.id !== working?.id) return;
    if (report.kind === 'progress') hear?.(report.progress);
    else settle(report.answer);
  });
  putBehindThePages(child.pid);
  wait(false);

  return {
    work: (order, onProgress) =>
      new Promise((resolve) => {
        if (endedBy !== null) {
          resolve(endedBy);
          return;
        }
        working = { id: order.id, settle: resolve };
        hear = onProgress;
        wait(true);
        child.send(order, (error) => {
          if (error !== null) over({ status: 'solver crashed', detail: firstLine(error.message) });
        });
      }),
    end: () => {
      endedBy ??= { status: 'cancelled', detail: 'the solver process was ended' };
      settle(endedBy);
      // Whoever waits for its end would otherwise have nothing left to wait with.
      wait(true);
      child.kill('SIGKILL');
      return gone;
    },
  };
}

const firstLine = (text: string): string => text.split('\n')[0]?.slice(0, 300) ?? '';
