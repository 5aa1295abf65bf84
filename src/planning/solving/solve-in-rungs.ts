import { entry, orNone } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { type Model, objectiveOf } from '../model/model.ts';
import type { Plan } from '../plan.ts';
import { shortSeconds, solvePriced, unitsGivenWay } from './priced-solve.ts';
import { isHeavierThanReserve, type RungName, rungNames, rungTolerance, type ServedRung } from './rungs.ts';
import type { Solve, SolveAnswer, SolvedAnswer, SolveRequest } from './solving.ts';
import {
  costOfWishes,
  missedOn,
  modelOfRung,
  type WishRung,
  wishRungs,
  withRungKept,
  withWishPrices,
} from './wish-rungs.ts';

export interface RungsRequest extends Omit<SolveRequest, 'secondsLimit'> {
  /** Safety net of everything asked here together, solver seconds. */
  readonly secondsLimit: number;
  /** Solver seconds for a closer look at one rung; a tenth of all unless said. */
  readonly rungSeconds?: number;
  /** What may be missed on a rung without a closer look, where an earlier stage has settled it; nought unless said. */
  readonly settled?: readonly ServedRung[];
  /** What was proven of the plan the search begins from: nothing nearer to the best is looked for, where that one is still as near. */
  readonly provenBefore?: Pick<Plan, 'gap' | 'rungs'>;
}

export interface RungsAnswer {
  readonly answer: SolveAnswer;
  /** Heaviest first; empty where there is no answer. */
  readonly rungs: readonly ServedRung[];
}

/** Shares of the seconds: what the first solve may take, and what one rung may. */
const firstShare = 0.75;
const rungShare = 0.1;
/** Solver seconds that one rung usually has; whoever gives it more waits longer for each. */
const usualRungSeconds = 4.8;
/** Of a closer look at one of the rungs from use on that gives way by much, by the model's columns: hardly anything is found after them. */
const lighterRungSeconds = (columns: number, rungSeconds: number): number =>
  Math.min(rungSeconds, (0.2 + columns / 10_000) * Math.max(1, rungSeconds / usualRungSeconds));
const lighterRungs: readonly RungName[] = rungNames.slice(rungNames.indexOf('use'));
/** Its relaxation takes a tenth of a second: a safety net, since nothing is proven without. */
const leastRelaxedSeconds = 5;
/** Nodes of one rung's search: it ends by count before it ends by the clock. */
const rungNodes = 2000;

/**
 * Solves a model in the order of wishes. Its prices keep that order for one unit against a few; what they cannot promise
 * is that many lighter units never outweigh a heavier one. So after the priced solve every rung that misses something is
 * asked, heaviest first, how little could be missed while the heavier rungs stay as they are; where that is less, the
 * model is solved again with every rung held. Nothing lighter is then bought with anything heavier, at any size.
 */
export async function solveInRungs(
  built: BuiltModel,
  solve: Solve,
  {
    secondsLimit,
    rungSeconds = secondsLimit * rungShare,
    settled = [],
    provenBefore = { gap: 0, rungs: [] },
    ...request
  }: RungsRequest,
): Promise<RungsAnswer> {
  const { signal, bounds } = request;
  const wishes = wishRungs(built);
  const { answer: priced, isCutShort } = await solvePriced(built, wishes, solve, {
    ...request,
    gap: Math.max(request.gap, provenBefore.gap),
    secondsLimit: secondsLimit * firstShare,
  });
  if (priced.status !== 'solved') return { answer: priced, rungs: [] };
  let seconds = priced.seconds;
  let values = priced.values;
  let held: Model = built.model;
  let isBetter = false;
  const rungs: ServedRung[] = [];
  for (const rung of wishes) {
    const missed = missedOn(rung, values);
    const mayMiss = orNone(settled.find(({ name }) => name === rung.name)?.missed);
    if (!isBetter && missed <= mayMiss + rungTolerance) {
      rungs.push({ name: rung.name, missed, atLeast: Math.min(missed, atLeastBefore(settled, rung)) });
      held = withRungKept(held, rung, missed);
      continue;
    }
    const asked = await leastMissed(
      held,
      rung,
      { missed, open: openBefore(provenBefore, rung) },
      values,
      solve,
      {
        ...(signal === undefined ? {} : { signal }),
        ...(bounds === undefined ? {} : { bounds }),
        secondsLimit: rungSeconds,
      },
    );
    seconds += asked.seconds;
    if (asked.cancelled) return { answer: { status: 'cancelled', detail: rung.name }, rungs: [] };
    if (asked.values !== null) {
      values = asked.values;
      isBetter = true;
    }
    rungs.push({ name: rung.name, missed: asked.missed, atLeast: asked.atLeast });
    held = withRungKept(held, rung, asked.missed);
  }
  const isProven =
    (request.start !== undefined && priced.stoppedBy === 'time limit') ||
    isProvenWithin(priced, provenBefore.gap) ||
    isProvenInMoney(priced, costOfWishes(wishes, priced.values), request.gap);
  if (!isBetter && isProven) return { answer: { ...priced, seconds }, rungs };

  const again = await solve(withWishPrices(held, wishes, 0), {
    ...request,
    start: values,
    secondsLimit: Math.max(
      1,
      Math.min(
        secondsLimit - seconds,
        isCutShort || rungs.some(isOpen)
          ? shortSeconds(built.model.columns.length, secondsLimit * firstShare)
          : Number.POSITIVE_INFINITY,
      ),
    ),
  });
  if (again.status === 'cancelled') return { answer: again, rungs: [] };
  if (again.status === 'solved') {
    const leastForWishes = wishes.reduce(
      (sum, { cents }, at) => sum + cents * entry(rungs, at, 'rungs').atLeast,
      0,
    );
    const objective = again.objective + costOfWishes(wishes, again.values);
    const bound = Math.min(objective, Math.max(priced.bound, again.bound + leastForWishes));
    const answer = { ...again, objective, bound, seconds: seconds + again.seconds };
    return { answer, rungs: measured(wishes, again.values, rungs) };
  }
  // What served the rungs best is a plan too, only its cost is not proven beyond what the priced solve knew.
  const kept: SolvedAnswer = {
    ...priced,
    stoppedBy: 'time limit',
    values,
    objective: objectiveOf(built.model, values),
    seconds,
  };
  return { answer: kept, rungs: measured(wishes, kept.values, rungs) };
}

/** Whether a wish heavier than reserve gives way by more than a few units, and nobody has proven that it has to. */
const isOpen = ({ name, missed, atLeast }: ServedRung): boolean =>
  isHeavierThanReserve(name) && missed > atLeast + unitsGivenWay;

interface LeastMissed {
  readonly missed: number;
  readonly atLeast: number;
  /** Values that miss less than those at hand; null where nothing less was found. */
  readonly values: Float64Array | null;
  readonly seconds: number;
  readonly cancelled: boolean;
}

/**
 * The least that can be missed on a rung: the relaxation first, which mostly proves that nothing less is to be had, or no more than
 * may stay `open`.
 */
async function leastMissed(
  held: Model,
  rung: WishRung,
  { missed, open }: { readonly missed: number; readonly open: number },
  values: Float64Array,
  solve: Solve,
  request: Pick<SolveRequest, 'secondsLimit' | 'signal' | 'bounds'>,
): Promise<LeastMissed> {
  const model = modelOfRung(held, rung);
  const nothingLess = { missed, values: null, cancelled: false };
  const relaxed = await solve(model, {
    ...request,
    gap: 0,
    relaxed: true,
    secondsLimit: Math.max(leastRelaxedSeconds, orNone(request.secondsLimit)),
  });
  if (relaxed.status === 'cancelled') return { ...nothingLess, atLeast: 0, seconds: 0, cancelled: true };
  const bound = relaxed.status === 'solved' ? Math.max(0, relaxed.bound) : 0;
  const relaxedSeconds = relaxed.status === 'solved' ? relaxed.seconds : 0;
  if (missed <= bound + open + rungTolerance)
    return { ...nothingLess, atLeast: Math.min(bound, missed), seconds: relaxedSeconds };
  // What gives way by more than a few units is hardly found to give way by less.
  const givesWay = lighterRungs.includes(rung.name) && missed > bound + unitsGivenWay;
  const rungSeconds = orNone(request.secondsLimit);
  const whole = await solve(model, {
    ...request,
    secondsLimit: givesWay ? lighterRungSeconds(model.columns.length, rungSeconds) : rungSeconds,
    gap: 0,
    absoluteGap: rungTolerance / 2,
    nodeLimit: rungNodes,
    start: values,
  });
  if (whole.status === 'cancelled')
    return { ...nothingLess, atLeast: bound, seconds: relaxedSeconds, cancelled: true };
  if (whole.status !== 'solved') return { ...nothingLess, atLeast: bound, seconds: relaxedSeconds };
  const least = missedOn(rung, whole.values);
  const isLess = least < missed - rungTolerance;
  return {
    missed: isLess ? least : missed,
    atLeast: Math.min(Math.max(bound, whole.bound), isLess ? least : missed),
    values: isLess ? whole.values : null,
    seconds: relaxedSeconds + whole.seconds,
    cancelled: false,
  };
}

/** What a plan before missed on a rung and nobody had proven that it has to. */
const openBefore = ({ rungs }: Pick<Plan, 'rungs'>, { name }: WishRung): number =>
  rungs
    .filter((rung) => rung.name === name)
    .reduce((most, { missed, atLeast }) => Math.max(most, missed - atLeast), 0);

const isProvenWithin = ({ objective, bound }: SolvedAnswer, gap: number): boolean =>
  objective - bound <= gap * Math.abs(objective);

const atLeastBefore = (settled: readonly ServedRung[], { name }: WishRung) =>
  orNone(settled.find((rung) => rung.name === name)?.atLeast);

/** The rungs, one for each wish in its order, as given values serve them; what was proven about them stays. */
function measured(
  wishes: readonly WishRung[],
  values: ArrayLike<number>,
  rungs: readonly ServedRung[],
): ServedRung[] {
  return rungs.map(({ name, atLeast }, at) => {
    const missed = missedOn(entry(wishes, at, 'wishes'), values);
    return { name, missed, atLeast: Math.min(atLeast, missed) };
  });
}

/**
 * Whether the gap holds for what the wishes leave: their prices are far above any money, so a small share of the whole can
 * be more than all that is spent.
 */
function isProvenInMoney({ objective, bound }: SolvedAnswer, wishes: number, gap: number): boolean {
  return wishes <= 0 || objective - bound <= gap * (objective - wishes) + 1e-6 * Math.abs(objective);
}
