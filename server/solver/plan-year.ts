import { makePlan, type PlanningAnswer, type PlanOptions } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import type { Solve } from '../../src/planning/solving.ts';
import { type HighsSolver, openHighsSolver } from './highs-solver.ts';

/** One thread for the whole process, opened on first use and kept warm: starting it takes longer than a small solve. */
let shared: HighsSolver | null = null;

/** Plans a household's year with HiGHS in its own thread. Never throws for what the solver does: see the answer's outcome. */
export function planYear(year: PlanningYear, options: PlanOptions = {}): Promise<PlanningAnswer> {
  shared ??= openHighsSolver();
  return makePlan(year, shared.solve, options);
}

/** Solves one model in that thread, after whatever it works on. */
export const solveInBackground: Solve = (model, request) => {
  shared ??= openHighsSolver();
  return shared.solve(model, request);
};

/** Ends the solver's thread, so that a command can finish. */
export async function closePlanner(): Promise<void> {
  const closing = shared;
  shared = null;
  await closing?.close();
}
