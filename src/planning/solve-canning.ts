import type { BuiltModel } from './build-model.ts';
import type { Solve, SolveAnswer, SolveProgress } from './solving.ts';

export interface CanningOptions {
  /** Stop when the proven gap is at most this, 0 to 1. */
  readonly gap: number;
  readonly secondsLimit: number;
  readonly onProgress?: (progress: SolveProgress) => void;
  readonly signal?: AbortSignal;
}

/**
 * Solves the canning stage. One solve is enough: with the year's whole batches said outright (`yearTotals`, `yearNeed`)
 * the relaxation lies within half a per cent of the best plan, so solving a smaller model first only costs time.
 */
export function solveCanning(
  { model }: BuiltModel,
  solve: Solve,
  options: CanningOptions,
): Promise<SolveAnswer> {
  return solve(model, options);
}
