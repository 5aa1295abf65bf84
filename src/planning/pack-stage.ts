import { type BuiltModel, buildModel } from './build-model.ts';
import type { CanningDecision } from './draft.ts';
import type { ColumnBoundsByIndex } from './held-batches.ts';
import { improveByStore } from './improve-by-store.ts';
import type { PlanningYear } from './planning-year.ts';
import { objectiveByTerm } from './read-back.ts';
import { roundedPacks } from './round-packs.ts';
import type { PlanningRules } from './rules.ts';
import { type RungsRequest, solveInRungs } from './solve-in-rungs.ts';
import type { Solve, SolveAnswer, SolvedAnswer } from './solving.ts';
import type { MaybeColumn } from './variables.ts';
import { missedOn, rungTolerance, type ServedRung, wishRungs, withWishPrices } from './wish-rungs.ts';

/** Gap of the pack stage where a wish gives way to whole packs and is looked at again. */
const packGap = 0.003;
/** Safety nets, solver seconds: of one relaxation, of buying store by store, of wishes looked at again. */
const relaxedSeconds = 10;
const storesSeconds = 15;
const wishesSeconds = 2;
/** In a large household the stores that cost most over the relaxation are bought anew, and the others as they are rounded. */
const mostStores = 48;
/** Prices of wishes against those of packs: a fiftieth of a unit missed weighs more than any pack. */
const wishesAgainstPacks = 1000;

/** Overdrafts nearer than this are alike. */
const centTolerance = 1;
const quartTolerance = 0.01;

export interface PackStageAnswer {
  readonly built: BuiltModel;
  readonly answer: SolveAnswer;
  readonly rungs: readonly ServedRung[];
}

/** What stands while the packs are looked for. */
interface PackSearch {
  readonly built: BuiltModel;
  /** The same with wishes far above packs, and its relaxation. */
  readonly wishesFirst: BuiltModel;
  readonly relaxed: SolvedAnswer;
  readonly solve: Solve;
  readonly settled: readonly ServedRung[];
  readonly called: Pick<RungsRequest, 'signal'>;
}

/**
 * Whole packs around a decided canning plan: the relaxation, rounded in three ways so that there is an answer at once, and
 * the best of them bought better store by store. Money and freezer are overdrawn no more than the most careful rounding has
 * to, and no wish gives way to a pack. The bound is the relaxation's, for plans that serve the wishes as well as this one.
 */
export async function solvePackStage(
  year: PlanningYear,
  canning: CanningDecision,
  rules: PlanningRules,
  solve: Solve,
  { settled, ...called }: Pick<RungsRequest, 'signal'> & { readonly settled: readonly ServedRung[] },
): Promise<PackStageAnswer> {
  const built = buildModel(year, { wholePacks: true, joinedWeeks: false, canning, earlier: null }, rules);
  const wishesFirst = { ...built, model: withWishPrices(built.model, wishRungs(built), wishesAgainstPacks) };
  const request = { gap: packGap, secondsLimit: relaxedSeconds, relaxed: true, ...called };
  const relaxed = await solve(wishesFirst.model, request);
  if (relaxed.status !== 'solved') return { built, answer: relaxed, rungs: [] };
  const rounded: SolvedAnswer[] = [];
  for (const rounding of ['steady', 'late', 'behind'] as const) {
    const bounds = roundedPacks(built, relaxed.values, rounding);
    const answer = await solve(wishesFirst.model, { ...request, bounds });
    if (answer.status === 'solved') rounded.push(answer);
  }
  const best = withinMeans(built, rounded);
  const search: PackSearch = { built, wishesFirst, relaxed, solve, settled, called };
  if (best === undefined) return allPacksAtOnce(search, {});
  const bounds = noMoreOverdrawn(built, best.values);
  const bought = await boughtByStore(search, best, bounds);
  if (bought.rungs.every(({ name, missed }) => missed <= missedBefore(settled, name) + rungTolerance))
    return bought;
  if (bought.answer.status !== 'solved') return bought;
  const served = await allPacksAtOnce(search, { start: bought.answer.values, bounds });
  if (served.answer.status === 'cancelled') return served;
  return served.answer.status === 'solved' ? boughtByStore(search, served.answer, bounds) : bought;
}

/** Packs bought better store by store, from some that do. */
async function boughtByStore(
  { built, wishesFirst, relaxed, solve, settled, called }: PackSearch,
  start: SolvedAnswer,
  bounds: ColumnBoundsByIndex,
): Promise<PackStageAnswer> {
  const limits = { bounds, mostStores, secondsLimit: storesSeconds };
  const bought = await improveByStore(wishesFirst, relaxed, start, solve, { ...called, ...limits });
  if (bought === null) return { built, answer: { status: 'cancelled', detail: 'store by store' }, rungs: [] };
  const { values, seconds } = bought;
  const wishes = wishRungs(built).reduce((sum, rung) => sum + rung.cents * missedOn(rung, values), 0);
  const objective = objectiveByTerm(built, values).total ?? 0;
  const bound = Math.min(objective, relaxed.bound - (wishesAgainstPacks - 1) * wishes);
  return {
    built,
    answer: { ...bought, objective, bound, seconds, stoppedBy: 'node limit', rowPrices: null },
    rungs: wishRungs(built).map((rung) => {
      const missed = missedOn(rung, values);
      return { name: rung.name, missed, atLeast: Math.min(missed, atLeastBefore(settled, rung.name)) };
    }),
  };
}

/** All packs at once, in the order of wishes. */
async function allPacksAtOnce(
  { built, solve, settled, called }: PackSearch,
  request: Pick<RungsRequest, 'start' | 'bounds'>,
): Promise<PackStageAnswer> {
  const limits = { gap: packGap, secondsLimit: wishesSeconds, rungSeconds: wishesSeconds };
  return { built, ...(await solveInRungs(built, solve, { ...request, ...limits, settled, ...called })) };
}

const missedBefore = (settled: readonly ServedRung[], name: ServedRung['name']) =>
  settled.find((rung) => rung.name === name)?.missed ?? 0;

const atLeastBefore = (settled: readonly ServedRung[], name: ServedRung['name']) =>
  settled.find((rung) => rung.name === name)?.atLeast ?? 0;

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
