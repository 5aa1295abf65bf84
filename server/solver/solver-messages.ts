import type { Basis, SolveAnswer, SolveProgress } from '../../src/planning/solving/solving.ts';
import type { PackedModel } from './packed-model.ts';

/** What goes to a solver's process: one model and how to solve it. */
export interface SolveOrder {
  readonly id: number;
  readonly model: PackedModel;
  readonly relaxed: boolean;
  readonly start: Float64Array | null;
  readonly basis: Basis | null;
  readonly gap: number;
  readonly absoluteGap: number;
  readonly nodeLimit: number;
  readonly isSmall: boolean;
  readonly secondsLimit: number;
}

export type SolverReport =
  | { readonly kind: 'progress'; readonly id: number; readonly progress: SolveProgress }
  | { readonly kind: 'answer'; readonly id: number; readonly answer: SolveAnswer };
