import type { Model } from '../model/model.ts';

/** Solves a model; passed in, so that the core runs with HiGHS, with brute force, or with a fake that fails on purpose. */
export type Solve = (model: Model, request: SolveRequest) => Promise<SolveAnswer>;

export interface SolveRequest {
  /** Leave out the whole-number marks. */
  readonly relaxed?: boolean;
  /** Bounds that replace the model's own, by column index. */
  readonly bounds?: ReadonlyMap<number, readonly [lower: number, upper: number]>;
  /** A value for every column to start from. */
  readonly start?: ArrayLike<number>;
  /** Of a relaxed solve: where an answer to nearly the same model stood, to go on from. */
  readonly basis?: Basis;
  /** Stop when (objective - bound) / |objective| is at most this, 0 to 1. */
  readonly gap: number;
  /** Stop when objective - bound is at most this, in the objective's unit. */
  readonly absoluteGap?: number;
  readonly nodeLimit?: number;
  /** A small model: found sooner when the solver does not also search around each plan it finds. */
  readonly isSmall?: boolean;
  /** Safety net only; an answer stopped by it says so. */
  readonly secondsLimit?: number;
  readonly onProgress?: (progress: SolveProgress) => void;
  readonly signal?: AbortSignal;
}

/** Which columns and rows a linear model's answer leaves at a bound, and at which: the solver's own marks. */
export interface Basis {
  readonly columns: Int32Array;
  readonly rows: Int32Array;
}

export interface SolveProgress {
  /** Best plan so far, the objective's unit; null before the first. */
  readonly incumbent: number | null;
  readonly bound: number;
  /** (incumbent - bound) / |incumbent|; null before the first plan. */
  readonly gap: number | null;
  readonly seconds: number;
  /** A value for every column of the best plan so far; left out where it is the one told of before. */
  readonly values?: Float64Array;
}

export type SolveAnswer = SolvedAnswer | UnsolvedAnswer;

export interface SolvedAnswer {
  readonly status: 'solved';
  /** What made it stop: proven within the gap asked for, or one of the limits. */
  readonly stoppedBy: 'gap' | 'time limit' | 'node limit';
  readonly values: Float64Array;
  readonly objective: number;
  /** Proven lower bound on the objective. */
  readonly bound: number;
  /** Of a relaxed solve only: where it ended, for one like it to go on from. */
  readonly basis: Basis | null;
  readonly nodes: number;
  readonly seconds: number;
}

export interface UnsolvedAnswer {
  readonly status: SolveFailure;
  /** For the log: what the solver said. */
  readonly detail: string;
}

export type SolveFailure =
  | 'infeasible'
  | 'unbounded'
  | 'time limit without plan'
  | 'solver crashed'
  | 'cancelled';

/** Asks a relaxed solve to go on from where another ended. */
export const goingOnFrom = ({ basis }: Pick<SolvedAnswer, 'basis'>): Pick<SolveRequest, 'basis'> =>
  basis === null ? {} : { basis };
