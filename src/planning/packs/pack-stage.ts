import { entry, orNone } from '../lookup.ts';
import { type BuiltModel, buildModel } from '../model/build-model.ts';
import { comingWeekCount, isOfComingWeeks } from '../model/coming-weeks.ts';
import { objectiveOf } from '../model/model.ts';
import type { CanningDecision } from '../model/planning-stage.ts';
import type { PlanningRules } from '../model/rules.ts';
import type { MaybeColumn } from '../model/variables.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import { rungTolerance, type ServedRung } from '../solving/rungs.ts';
import type { RungsRequest } from '../solving/solve-in-rungs.ts';
import { goingOnFrom, type Solve, type SolveAnswer, type SolvedAnswer } from '../solving/solving.ts';
import { costOfWishes, missedOn, wishRungs, withWishPrices } from '../solving/wish-rungs.ts';
import { buyBlockByBlock } from './buy-block-by-block.ts';
import { improveByStore } from './improve-by-store.ts';
import { keptPacks, type PacksBefore } from './kept-packs.ts';
import { centTolerance, overdrawn, overdrawnSoon } from './overdraft.ts';
import { packsForMissed } from './pay-for-missed.ts';
import { packRoundings, roundedPacks } from './round-packs.ts';
import { present } from './stores.ts';

/** Safety nets, solver seconds: of one relaxation, of buying store by store (with money that is short too), of buying block by block. */
const relaxedSeconds = 10;
const storesSeconds = 15;
const shortStoresSeconds = 1.5;
/** Of packs that are kept, bought better. */
const keptSeconds = 1.5;
const blocksSeconds = 30;
/** Weeks searched of a plan that goes on from another: later ones are bought anew before they come. */
const goingOnWeeks = 12;
/** Of such a plan's stores, where money is short: the rest is bought better another day. */
const goingOnStoresSeconds = 1.5;
/** Weeks in which those are bought anew: what is bought later is bought anew before it comes. */
const goingOnStoresWeeks = 20;
/** Of one block of such a plan. */
const goingOnBlockSeconds = 1;
/** In a large household the stores that cost most over the relaxation are bought anew, and the others as they are rounded. */
const mostStores = 48;
/** Looks for packs that idle money pays for: what one leaves may pay for another. */
const mostTimesPaidFor = 4;
/** So much of a unit missed of the lightest wish weighs as much as the dearest pack. */
const shareWorthAPack = 1 / 50;

/** Overdrafts of a freezer nearer than this are alike. */
const quartTolerance = 0.01;

export interface PackStageAnswer {
  readonly built: BuiltModel;
  readonly answer: SolveAnswer;
  readonly rungs: readonly ServedRung[];
}

export interface PackStageRequest extends Pick<RungsRequest, 'signal'> {
  /** What may be missed on each rung, since any amount would miss it too. */
  readonly settled: readonly ServedRung[];
  /** A plan whose packs are kept where they still do. */
  readonly before?: PacksBefore;
}

/** What stands while the packs are looked for. */
interface PackSearch {
  readonly built: BuiltModel;
  /** The same with wishes far above packs, and its relaxation. */
  readonly wishesFirst: BuiltModel;
  /** How far above: see `wishesAgainstPacks`. */
  readonly times: number;
  readonly relaxed: SolvedAnswer;
  readonly solve: Solve;
  readonly settled: readonly ServedRung[];
  readonly called: Pick<RungsRequest, 'signal'>;
}

/**
 * Whole packs around a decided canning plan: the relaxation, rounded in four ways so that there is an answer at once, and the
 * best of them bought better store by store. Where money is too short for that, so that a wish gives way, packs are bought block by block before. No week is overdrawn more than the most careful of these has to,
 * and no wish gives way to a pack's price. The bound is the relaxation's, for plans that serve the wishes as well as this one
 * or overdraw no more.
 */
export async function solvePackStage(
  year: PlanningYear,
  canning: CanningDecision,
  rules: PlanningRules,
  solve: Solve,
  { settled, before, ...called }: PackStageRequest,
): Promise<PackStageAnswer> {
  const built = buildModel(year, { wholePacks: true, joinedWeeks: false, canning, earlier: null }, rules);
  const times = wishesAgainstPacks(built);
  const wishesFirst = { ...built, model: withWishPrices(built.model, wishRungs(built), times) };
  const request = { gap: 0, secondsLimit: relaxedSeconds, relaxed: true, ...called };
  const withinFund = await solve(wishesFirst.model, { ...request, bounds: nothingOverdrawn(built) });
  const relaxed = withinFund.status === 'infeasible' ? await solve(wishesFirst.model, request) : withinFund;
  if (relaxed.status !== 'solved') return { built, answer: relaxed, rungs: [] };
  const search: PackSearch = { built, wishesFirst, times, relaxed, solve, settled, called };
  const kept = before === undefined ? null : await keptWhereTheyDo(search, before);
  if (kept !== null) return kept;
  const rounded: SolvedAnswer[] = [];
  for (const rounding of packRoundings) {
    const bounds = roundedPacks(built, relaxed.values, rounding);
    const answer = await solve(wishesFirst.model, { ...request, bounds, ...goingOnFrom(relaxed) });
    if (answer.status === 'cancelled') return { built, answer, rungs: [] };
    if (answer.status === 'solved') rounded.push(answer);
  }
  const [best] = withinMeans(wishesFirst, rounded);
  if (best === undefined)
    return { built, answer: { status: 'infeasible', detail: 'no rounding of the packs' }, rungs: [] };
  if (servesAll(built, best, settled)) return boughtByStore(search, best);
  const inBlocks = await boughtInBlocks(search, best, before !== undefined);
  if (inBlocks.status === 'cancelled') return { built, answer: inBlocks, rungs: [] };
  const [better = best] = withinMeans(wishesFirst, inBlocks.status === 'solved' ? [inBlocks, best] : [best]);
  return boughtByStore(
    search,
    better,
    before === undefined
      ? { secondsLimit: shortStoresSeconds }
      : { secondsLimit: goingOnStoresSeconds, searchedWeeks: goingOnStoresWeeks },
  );
}

/**
 * The packs of an earlier plan, where they serve every wish as well as any amount would or as that plan did; bought better store by
 * store until they are as near to the best as they were then, or serve that well. Null where they do not: all have to be looked for.
 */
async function keptWhereTheyDo(search: PackSearch, earlier: PacksBefore): Promise<PackStageAnswer | null> {
  const { built, wishesFirst, relaxed, solve, settled, called } = search;
  const bounds = keptPacks(built, earlier);
  if (bounds === null) return null;
  const request = { gap: 0, secondsLimit: relaxedSeconds, relaxed: true, ...called };
  const kept = await solve(wishesFirst.model, { ...request, bounds });
  if (kept.status === 'cancelled') return { built, answer: kept, rungs: [] };
  if (kept.status !== 'solved') return null;
  const { gap } = earlier.packRounding;
  const isServed = servesAll(built, kept, settled);
  if (!isServed && servesAll(built, kept, settled, earlier.rungs))
    return proven(search, await withMissedPaidFor(search, kept), gap);
  const enough = relaxed.bound + gap * objectiveOf(built.model, kept.values);
  if (isServed && objectiveOf(wishesFirst.model, kept.values) <= enough) return proven(search, kept, gap);
  const bought = await boughtByStore(search, kept, { enough, gap, secondsLimit: keptSeconds });
  const { answer } = bought;
  return answer.status !== 'solved' || servesAll(built, answer, settled, earlier.rungs) ? bought : null;
}

/**
 * Packs bought block by block. What the coming weeks overdraw cannot be mended by planning again, so there nothing is, wherever what
 * canning needs can be paid for at all: what is eaten waits for a whole pack.
 */
async function boughtInBlocks(
  { built, wishesFirst, solve, called }: PackSearch,
  best: SolvedAnswer,
  goesOn: boolean,
): Promise<SolveAnswer> {
  const bounds = noMoreOverdrawn(built, best.values);
  const tries =
    overdrawnSoon(built, best.values) <= centTolerance
      ? [bounds]
      : [new Map([...bounds, ...nothingOverdrawn(built, comingWeekCount)]), bounds];
  let answer: SolveAnswer = { status: 'infeasible', detail: 'packs by block' };
  for (const tried of tries) {
    answer = await buyBlockByBlock(wishesFirst, best, solve, {
      ...called,
      bounds: tried,
      secondsLimit: blocksSeconds,
      ...(goesOn ? { searchedWeeks: goingOnWeeks, blockSeconds: goingOnBlockSeconds } : {}),
    });
    if (answer.status !== 'infeasible') break;
  }
  return answer;
}

/** Packs bought better store by store, from some that do; no better than enough. */
async function boughtByStore(
  search: PackSearch,
  start: SolvedAnswer,
  {
    enough,
    gap = 0,
    secondsLimit = storesSeconds,
    searchedWeeks = Number.POSITIVE_INFINITY,
  }: {
    readonly enough?: number;
    readonly gap?: number;
    readonly secondsLimit?: number;
    readonly searchedWeeks?: number;
  } = {},
): Promise<PackStageAnswer> {
  const { built, wishesFirst, relaxed, solve, called } = search;
  const bought = await improveByStore(wishesFirst, relaxed, start, solve, {
    ...called,
    bounds: new Map([
      ...noMoreOverdrawn(built, start.values),
      ...noMoreMissedSoon(built, start.values),
      ...packsAsBought(built, start.values, searchedWeeks),
    ]),
    mostStores,
    secondsLimit,
    ...(enough === undefined ? {} : { enough }),
  });
  if (bought === null) return { built, answer: { status: 'cancelled', detail: 'store by store' }, rungs: [] };
  return proven(search, await withMissedPaidFor(search, bought), gap);
}

/** Packs with those more that the fund pays for and that serve what is missed, as long as the year is better with them. */
async function withMissedPaidFor(
  { built, wishesFirst, relaxed, solve, called }: PackSearch,
  bought: SolvedAnswer,
): Promise<SolvedAnswer> {
  let best = bought;
  for (let times = 0; times < mostTimesPaidFor; times += 1) {
    const more = packsForMissed(built, best.values);
    if (more.length === 0) break;
    const values = Float64Array.from(best.values);
    for (const { column } of more) values[column] = entry(values, column, 'values') + 1;
    const answer = await solve(wishesFirst.model, {
      gap: 0,
      relaxed: true,
      secondsLimit: relaxedSeconds,
      ...called,
      ...goingOnFrom(relaxed),
      bounds: new Map([...noMoreOverdrawn(built, best.values), ...packsAsBought(built, values, 0)]),
    });
    if (answer.status !== 'solved' || answer.objective >= objectiveOf(wishesFirst.model, best.values)) break;
    best = { ...answer, seconds: best.seconds + answer.seconds };
  }
  return best;
}

/** Packs with how near to the best they are, as far as has to be known for a gap. */
async function proven(
  { built, times, relaxed, solve, settled, called }: PackSearch,
  bought: SolvedAnswer,
  gap: number,
): Promise<PackStageAnswer> {
  const { values } = bought;
  const wishes = wishRungs(built);
  const rungs = wishes.map((rung) => {
    const missed = missedOn(rung, values);
    return {
      name: rung.name,
      missed,
      atLeast: Math.min(missed, orNone(before(settled, rung.name)?.atLeast)),
    };
  });
  const objective = objectiveOf(built.model, values);
  const asWellServed = Math.min(objective, relaxed.bound - (times - 1) * costOfWishes(wishes, values));
  const answer = { ...bought, objective, stoppedBy: 'node limit', basis: null } as const;
  // No bound at usual prices is above what the relaxation costs at them.
  const isEnough =
    objective - asWellServed <= gap * Math.abs(objective) ||
    asWellServed >= objectiveOf(built.model, relaxed.values) - centTolerance;
  if (isEnough) return { built, answer: { ...answer, bound: asWellServed }, rungs };
  const priced = await solve(built.model, {
    gap: 0,
    secondsLimit: relaxedSeconds,
    relaxed: true,
    ...called,
    bounds: noMoreOverdrawn(built, values),
  });
  const bound = Math.min(objective, Math.max(asWellServed, priced.status === 'solved' ? priced.bound : 0));
  return { built, answer: { ...answer, bound }, rungs };
}

/**
 * Times the prices of wishes, so that no part of a unit is left unserved for want of a whole pack (`shareWorthAPack`), and no more: a
 * solver counts a millionth of a unit for nothing, which at a price far above that is worth a pack.
 */
function wishesAgainstPacks({ sets, prices }: Pick<BuiltModel, 'sets' | 'prices'>): number {
  const { items, year } = sets;
  const dearestPack = Math.max(
    0,
    ...items.flatMap(({ packs }) => packs.flatMap(({ priceByWeek }) => priceByWeek)),
    ...year.supplies.map(({ packPrice }) => packPrice),
    ...year.jars.map(({ packPrice }) => packPrice),
    ...year.lids.map(({ boxPrice }) => boxPrice),
  );
  return Math.max(1, dearestPack / (shareWorthAPack * prices.variety));
}

const before = (settled: readonly ServedRung[], name: ServedRung['name']) =>
  settled.find((rung) => rung.name === name);

/** Whether nothing is overdrawn in the coming weeks, nor anything missed that purchases in any amount would serve, or that an earlier plan served. */
const servesAll = (
  built: BuiltModel,
  { values }: Pick<SolvedAnswer, 'values'>,
  settled: readonly ServedRung[],
  earlier: readonly ServedRung[] = [],
) =>
  overdrawnSoon(built, values) <= centTolerance &&
  wishRungs(built).every((rung) => {
    const mayMiss = [settled, earlier].map((rungs) => orNone(before(rungs, rung.name)?.missed));
    return missedOn(rung, values) <= Math.max(...mayMiss) + rungTolerance;
  });

/** Those that overdraw the money least, and among them the freezer least, the cheapest first. */
function withinMeans({ columns, model }: BuiltModel, rounded: readonly SolvedAnswer[]): SolvedAnswer[] {
  const least = (answers: readonly SolvedAnswer[], list: readonly MaybeColumn[], tolerance: number) => {
    const over = Math.min(...answers.map((answer) => overdrawn(list, answer.values)));
    return answers.filter((answer) => overdrawn(list, answer.values) <= over + tolerance);
  };
  const ofMoney = least(rounded, columns.fundOver, centTolerance);
  return least(ofMoney, columns.freezerOver, quartTolerance).sort(
    (one, other) => objectiveOf(model, one.values) - objectiveOf(model, other.values),
  );
}

/** In the first weeks, or all. */
const nothingOverdrawn = ({ columns }: BuiltModel, weeks?: number): ColumnBoundsByIndex =>
  new Map(present(columns.fundOver.slice(0, weeks)).map((column) => [column, [0, 0]]));

/** Packs of all weeks from one on, as they are bought. */
const packsAsBought = (
  { columns }: BuiltModel,
  values: ArrayLike<number>,
  fromWeek: number,
): ColumnBoundsByIndex =>
  new Map(
    [
      ...columns.purchases.flat(),
      ...columns.supplyBought,
      ...columns.jarsBought,
      ...columns.lidsBought,
    ].flatMap((weeks) =>
      present(weeks.slice(Math.min(fromWeek, weeks.length))).map((column) => {
        const packs = Math.round(entry(values, column, 'values'));
        return [column, [packs, packs]] as const;
      }),
    ),
  );

const noMoreOverdrawn = ({ columns }: BuiltModel, values: ArrayLike<number>): ColumnBoundsByIndex =>
  new Map(
    present([...columns.fundOver, ...columns.freezerOver]).map((column) => [
      column,
      [0, Math.max(0, entry(values, column, 'values'))],
    ]),
  );

/** What is missed in the coming weeks comes before any jar: no store gives way there to what is wanted later. */
const noMoreMissedSoon = ({ columns, sets }: BuiltModel, values: ArrayLike<number>): ColumnBoundsByIndex =>
  new Map(
    present([
      ...sets.items.flatMap((_, item) =>
        entry(columns.shortage, item, 'shortage').filter((_, week) => isOfComingWeeks(sets, item, week)),
      ),
      ...columns.comingReserveShortage,
    ]).map((column) => [column, [0, Math.max(0, entry(values, column, 'values'))]]),
  );
