import type { BuiltModel } from './build-model.ts';
import type { Solve, SolveAnswer, SolveProgress } from './solving.ts';

export interface ChainOptions {
  /** Stop when the proven gap is at most this, 0 to 1. */
  readonly gap: number;
  readonly secondsLimit: number;
  readonly onProgress?: (progress: SolveProgress) => void;
  readonly signal?: AbortSignal;
}

/** Seconds and nodes given to the sub-model: it only has to find a good plan, not to prove one. */
const neighbourSeconds = 1;
const neighbourNodes = 400;

/**
 * Solves the canning stage in three steps: the relaxation; a small model in which every whole number is held to the two
 * neighbours of its relaxed value (totals over the year stay free), which gives a first plan at once; then the full
 * model started from that plan, which improves it and proves how good it is.
 */
export async function solveInChain(
  built: BuiltModel,
  solve: Solve,
  options: ChainOptions,
): Promise<SolveAnswer> {
  const { model } = built;
  const common = {
    ...(options.signal === undefined ? {} : { signal: options.signal }),
    ...(options.onProgress === undefined ? {} : { onProgress: options.onProgress }),
  };
  const relaxed = await solve(model, {
    ...common,
    relaxed: true,
    gap: options.gap,
    secondsLimit: options.secondsLimit,
  });
  if (relaxed.status !== 'solved') return relaxed;
  const first = await solve(model, {
    ...common,
    bounds: neighbourBounds(built, relaxed.values),
    gap: options.gap,
    nodeLimit: neighbourNodes,
    secondsLimit: Math.min(neighbourSeconds, options.secondsLimit),
  });
  if (first.status === 'cancelled' || first.status === 'solver crashed') return first;
  const full = await solve(model, {
    ...common,
    gap: options.gap,
    secondsLimit: options.secondsLimit,
    ...(first.status === 'solved' ? { start: first.values } : {}),
  });
  const earlierSeconds = relaxed.seconds + (first.status === 'solved' ? first.seconds : 0);
  return full.status === 'solved' ? { ...full, seconds: full.seconds + earlierSeconds } : full;
}

function neighbourBounds(
  { model, columns }: BuiltModel,
  relaxed: ArrayLike<number>,
): ReadonlyMap<number, readonly [number, number]> {
  const totals = new Set(columns.totals);
  const tolerance = 1e-6;
  return new Map(
    model.columns.flatMap(({ integer, lower, upper }, at) => {
      if (!integer || totals.has(at)) return [];
      const value = relaxed[at] ?? 0;
      const below = Math.max(lower, Math.floor(value + tolerance));
      const above = Math.min(upper, Math.ceil(value - tolerance));
      return [[at, [Math.min(below, above), Math.max(below, above)] as const] as const];
    }),
  );
}
