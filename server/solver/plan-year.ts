import { makePlan, type PlanningAnswer, type PlanOptions } from '../../src/planning/make-plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import type { Solve } from '../../src/planning/solving/solving.ts';
import { sweepNow } from '../memory.ts';
import { type HighsSolver, openHighsSolver } from './highs-solver.ts';

/** One solver for the whole program, opened on first use and kept warm: starting it takes longer than a small solve. */
let shared: HighsSolver | null = null;
let processes: number | undefined;

const solver = (): HighsSolver => {
  shared ??= openHighsSolver({ onIdle: sweepNow, ...(processes === undefined ? {} : { processes }) });
  return shared;
};

/** So many models are solved at once, for different households; said before the first. */
export const solveSoManyAtOnce = (howMany: number): void => {
  processes = howMany;
};

/** Plans a household's year with HiGHS, in another process. Never throws for what the solver does: see the answer's outcome. */
export const planYear = (year: PlanningYear, options: PlanOptions = {}): Promise<PlanningAnswer> =>
  makePlan(year, solver().solve, options);

/** Solves one model there. */
export const solveInBackground: Solve = (model, request) => solver().solve(model, request);

/** The planner in the turn of one household: what it solves waits for others' no longer than is fair. */
export function plannerOf(household: string): {
  readonly planYear: typeof planYear;
  readonly solve: Solve;
} {
  const solve: Solve = (model, request) => solver().solveFor(household)(model, request);
  return { planYear: (year, options = {}) => makePlan(year, solve, options), solve };
}

/** Ends the solver's processes, so that a command can finish. */
export async function closePlanner(): Promise<void> {
  const closing = shared;
  shared = null;
  await closing?.close();
}
