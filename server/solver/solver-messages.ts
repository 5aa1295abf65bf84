import type { SolveAnswer, SolveProgress } from '../../src/planning/solving.ts';
import type { PackedModel } from './packed-model.ts';

/** What goes to the solver's thread: one model and how to solve it. */
export interface SolveOrder {
  readonly id: number;
  readonly model: PackedModel;
  readonly relaxed: boolean;
  readonly start: Float64Array | null;
  readonly gap: number;
  readonly absoluteGap: number;
  readonly nodeLimit: number;
  readonly isSmall: boolean;
  readonly secondsLimit: number;
  /** The first entry turns from 0 to 1 when the solve is called off. */
  readonly calledOff: SharedArrayBuffer;
}

export type SolverReport =
  | { readonly kind: 'progress'; readonly id: number; readonly progress: SolveProgress }
  | { readonly kind: 'answer'; readonly id: number; readonly answer: SolveAnswer };

/** What a solver's thread is told when it begins. */
export interface SolverSettings {
  /** Memory the solver itself may use, in MB. */
  readonly memoryMb: number;
}
