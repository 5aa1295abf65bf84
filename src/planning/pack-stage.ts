import { type BuiltModel, buildModel } from './build-model.ts';
import type { CanningDecision } from './draft.ts';
import type { ColumnBoundsByIndex } from './held-batches.ts';
import type { PlanningYear } from './planning-year.ts';
import { roundedPacks } from './round-packs.ts';
import type { PlanningRules } from './rules.ts';
import { type RungsRequest, solveInRungs } from './solve-in-rungs.ts';
import type { Solve, SolveAnswer, SolvedAnswer } from './solving.ts';
import type { MaybeColumn } from './variables.ts';
import { missedOn, type ServedRung, wishRungs } from './wish-rungs.ts';

/** Seconds and gap of the pack stage: it rounds what is already decided. */
const packSeconds = 2;
const packGap = 0.003;

/** Overdrafts nearer than this are alike. */
const centTolerance = 1;
const quartTolerance = 0.01;

export interface PackStageAnswer {
  readonly built: BuiltModel;
  readonly answer: SolveAnswer;
  readonly rungs: readonly ServedRung[];
}

/**
 * Whole packs around a decided canning plan: the relaxation, rounded in three ways so that there is an answer at once, and
 * a short solve started from the best. Money and freezer are overdrawn no more than the most careful rounding has to. The
 * clock bounds it; its own gap is reported beside the plan.
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
  const rounded: SolvedAnswer[] = [];
  for (const rounding of ['steady', 'late', 'behind'] as const) {
    const bounds = roundedPacks(built, relaxed.values, rounding);
    const answer = await solve(built.model, { ...common, relaxed: true, bounds });
    if (answer.status === 'solved') rounded.push(answer);
  }
  const best = withinMeans(built, rounded);
  const improved = await solveInRungs(built, solve, {
    ...called,
    gap: packGap,
    settled,
    secondsLimit: packSeconds,
    rungSeconds: packSeconds,
    ...(best === undefined ? {} : { start: best.values, bounds: noMoreOverdrawn(built, best.values) }),
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

/** Of those that overdraw the money least, and among them the freezer least, the cheapest. */
function withinMeans({ columns }: BuiltModel, rounded: readonly SolvedAnswer[]): SolvedAnswer | undefined {
  const sumOf = (list: readonly MaybeColumn[], { values }: SolvedAnswer) =>
    list.reduce<number>((sum, column) => sum + (column === null ? 0 : (values[column] ?? 0)), 0);
  const least = (answers: readonly SolvedAnswer[], list: readonly MaybeColumn[], tolerance: number) => {
    const over = Math.min(...answers.map((answer) => sumOf(list, answer)));
    return answers.filter((answer) => sumOf(list, answer) <= over + tolerance);
  };
  const ofMoney = least(rounded, columns.fundOver, centTolerance);
  return least(ofMoney, columns.freezerOver, quartTolerance).sort(
    (one, other) => one.objective - other.objective,
  )[0];
}

function noMoreOverdrawn({ columns }: BuiltModel, values: ArrayLike<number>): ColumnBoundsByIndex {
  return new Map(
    [...columns.fundOver, ...columns.freezerOver].flatMap((column) =>
      column === null ? [] : [[column, [0, Math.max(0, values[column] ?? 0)]] as const],
    ),
  );
}
