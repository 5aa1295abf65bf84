import { availableParallelism } from 'node:os';
import type { Model } from '../../src/planning/model/model.ts';
import type { Solve, SolveAnswer, SolveProgress, SolveRequest } from '../../src/planning/solving/solving.ts';
import { moduleAt } from '../program.ts';
import { type PackedModel, packModel } from './packed-model.ts';
import type { SolveOrder } from './solver-messages.ts';
import { openSolverProcess, type SolverProcess, solverMemory } from './solver-process.ts';

// HiGHS in processes of its own, shared fairly: each household has at most one model solved at a time, and households with
// models waiting take turns. So a solve that takes long keeps nobody waiting but its own household while a process is free,
// and otherwise for no more than the one solve that is running.

export interface HighsSolver {
  /** For nobody's household in particular. */
  readonly solve: Solve;
  /** Solves in the turn of whoever asks. */
  solveFor(asker: string): Solve;
  close(): Promise<void>;
}

export interface SolverSettings {
  /** Memory one solver itself may use, in MB; other than usual in tests. */
  readonly memoryMb?: number;
  /** File the processes run; another one stands in for it where its failures are tested. */
  readonly script?: URL;
  /** How many models are solved at once, for different askers. */
  readonly processes?: number;
  /** A process that had nothing to solve for so long is ended, and gives its memory back. */
  readonly idleMs?: number;
  /** Told when the last process was ended for that. */
  readonly onIdle?: () => void;
}

const noLimit = 2_147_483_647;
const longestSolveSeconds = 3600;
const calledOff: SolveAnswer = { status: 'cancelled', detail: 'called off before it began' };

interface Job {
  readonly asker: string;
  readonly order: SolveOrder;
  readonly onProgress: ((progress: SolveProgress) => void) | undefined;
  readonly settle: (answer: SolveAnswer) => void;
}

/** Questions of one visit come closer together than that; starting a process takes a second or two. */
const usualIdleMs = 60_000;

/** Two where the machine has more than one core: pages are answered by another process, which goes first. */
const usualProcesses = (): number => Math.min(2, availableParallelism());

export function openHighsSolver({
  script = moduleAt('server/solver/highs-process'),
  memoryMb = solverMemory.ownMb,
  processes = usualProcesses(),
  idleMs = usualIdleMs,
  onIdle,
}: SolverSettings = {}): HighsSolver {
  /** Processes with nothing to solve, each with what ends it in a while; the one that was busy last is taken first. */
  const idle = new Map<SolverProcess, NodeJS.Timeout>();
  const running = new Map<Job, SolverProcess>();
  /** By asker, in the order of their turns. */
  const waiting = new Map<string, Job[]>();
  let lastId = 0;

  const isBusy = (asker: string): boolean => [...running.keys()].some((job) => job.asker === asker);

  const giveTurns = (): void => {
    while (running.size < processes) {
      const [asker, [job, ...rest]] = [...waiting].find(([one]) => !isBusy(one)) ?? ['', []];
      if (job === undefined) return;
      // Whoever had a turn stands at the end again.
      waiting.delete(asker);
      if (rest.length > 0) waiting.set(asker, rest);
      void solveNow(job);
    }
  };

  const warmProcess = (): SolverProcess | null => {
    const [process, ending] = [...idle].at(-1) ?? [null, undefined];
    clearTimeout(ending);
    if (process !== null) idle.delete(process);
    return process;
  };

  const endWhenIdle = (process: SolverProcess): void => {
    const ending = setTimeout(() => {
      idle.delete(process);
      void process.end();
      if (idle.size === 0 && running.size === 0) onIdle?.();
    }, idleMs);
    ending.unref();
    idle.set(process, ending);
  };

  const solveNow = async (job: Job): Promise<void> => {
    const process = warmProcess() ?? openSolverProcess(script, memoryMb);
    running.set(job, process);
    const answer = await process.work(job.order, job.onProgress);
    running.delete(job);
    // A solver that broke off, for want of memory perhaps, is in no state to solve the next.
    if (answer.status === 'solver crashed' || answer.status === 'cancelled') process.end();
    else endWhenIdle(process);
    job.settle(answer);
    giveTurns();
  };

  const callOff = (job: Job): void => {
    const process = running.get(job);
    if (process !== undefined) {
      process.end();
      return;
    }
    const rest = (waiting.get(job.asker) ?? []).filter((one) => one !== job);
    if (rest.length > 0) waiting.set(job.asker, rest);
    else waiting.delete(job.asker);
    job.settle(calledOff);
  };

  const solveFor =
    (asker: string): Solve =>
    (model, request) =>
      new Promise((resolve) => {
        const { signal, onProgress } = request;
        if (signal?.aborted) {
          resolve(calledOff);
          return;
        }
        lastId += 1;
        const left = () => callOff(job);
        const job: Job = {
          asker,
          order: orderFor(lastId, model, request),
          onProgress,
          settle: (answer) => {
            signal?.removeEventListener('abort', left);
            resolve(answer);
          },
        };
        signal?.addEventListener('abort', left, { once: true });
        waiting.set(asker, [...(waiting.get(asker) ?? []), job]);
        giveTurns();
      });

  return {
    solve: solveFor(''),
    solveFor,
    async close() {
      const left = [...waiting.values()].flat();
      waiting.clear();
      for (const job of left) job.settle({ status: 'cancelled', detail: 'the solver was closed' });
      for (const ending of idle.values()) clearTimeout(ending);
      const ended = [...running.values(), ...idle.keys()];
      idle.clear();
      await Promise.all(ended.map((process) => process.end()));
    },
  };
}

function orderFor(id: number, model: Model, request: SolveRequest): SolveOrder {
  return {
    id,
    model: withBounds(packModel(model), request.bounds),
    relaxed: request.relaxed ?? false,
    start: request.start === undefined ? null : Float64Array.from(request.start),
    basis: request.basis ?? null,
    gap: request.gap,
    absoluteGap: request.absoluteGap ?? 1e-6,
    nodeLimit: request.nodeLimit ?? noLimit,
    isSmall: request.isSmall ?? false,
    secondsLimit: request.secondsLimit ?? longestSolveSeconds,
  };
}

function withBounds(packed: PackedModel, bounds: SolveRequest['bounds']): PackedModel {
  bounds?.forEach(([lower, upper], column) => {
    packed.columnLower[column] = lower;
    packed.columnUpper[column] = upper;
  });
  return packed;
}
