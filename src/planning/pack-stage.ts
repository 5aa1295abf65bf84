import { type BuiltModel, buildModel } from './build-model.ts';
import type { CanningDecision } from './draft.ts';
import type { PlanningYear } from './planning-year.ts';
import { roundedPacks } from './round-packs.ts';
import type { PlanningRules } from './rules.ts';
import { type RungsRequest, solveInRungs } from './solve-in-rungs.ts';
import type { Solve, SolveAnswer } from './solving.ts';
import { missedOn, type ServedRung, wishRungs } from './wish-rungs.ts';

/** Seconds and gap of the pack stage: it rounds what is already decided. */
const packSeconds = 2;
const packGap = 0.003;

export interface PackStageAnswer {
  readonly built: BuiltModel;
  readonly answer: SolveAnswer;
  readonly rungs: readonly ServedRung[];
}

/**
 * Whole packs around a decided canning plan: the relaxation, rounded in two ways so that there is an answer at once, and
 * a short solve started from the better one. The clock bounds it; its own gap is reported beside the plan.
 */
export async function solvePackStage(
  year: PlanningYear,
  canning: CanningDecision,
  rules: PlanningRules,
  solve: Solve,
  { settled, ...called }: Pick<RungsRequest, 'signal'> & { readonly settled: readonly ServedRung[] },
): Promise<PackStageAnswer> {
  const built = buildModel(year, { wholePacks: true, joinedWeeks: false, canning, earlier: null }, rules);
  const common = { gap: packGap, secondsLimit: packSeconds * 5, ...called };
  const relaxed = await solve(built.model, { ...common, relaxed: true });
  if (relaxed.status !== 'solved') return { built, answer: relaxed, rungs: [] };
  const rounded: SolveAnswer[] = [];
  for (const rounding of ['steady', 'late'] as const)
    rounded.push(
      await solve(built.model, {
        ...common,
        relaxed: true,
        bounds: roundedPacks(built, relaxed.values, rounding),
      }),
    );
  const best = rounded
    .filter((answer) => answer.status === 'solved')
    .sort((one, other) => one.objective - other.objective)[0];
  const improved = await solveInRungs(built, solve, {
    ...called,
    gap: packGap,
    settled,
    secondsLimit: packSeconds,
    ...(best === undefined ? {} : { start: best.values }),
  });
  if (improved.answer.status === 'solved') {
    const bound = Math.max(improved.answer.bound, relaxed.bound);
    return { built, answer: { ...improved.answer, bound }, rungs: improved.rungs };
  }
  if (improved.answer.status === 'cancelled' || best === undefined) return { built, ...improved };
  return {
    built,
    answer: { ...best, stoppedBy: 'time limit', bound: relaxed.bound, rowPrices: null },
    rungs: wishRungs(built).map((rung) => ({
      name: rung.name,
      missed: missedOn(rung, best.values),
      atLeast: 0,
    })),
  };
}
