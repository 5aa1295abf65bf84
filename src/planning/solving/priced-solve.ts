import type { BuiltModel } from '../model/build-model.ts';
import type { Model } from '../model/model.ts';
import { isHeavierThanReserve } from './rungs.ts';
import type { Solve, SolveAnswer, SolvedAnswer, SolveRequest } from './solving.ts';
import { missedOn, modelOfRung, type WishRung } from './wish-rungs.ts';

export interface PricedAnswer {
  readonly answer: SolveAnswer;
  /** Whether its search ended before its seconds were over, for wishes that cannot all be served. */
  readonly isCutShort: boolean;
}

/** Solver seconds that a priced solve usually has; whoever gives it more waits longer for all of it. */
const usualSeconds = 36;

/**
 * Solver seconds, by the model's columns and what a solve has in all, after which its search ends where wishes heavier than reserve give
 * way: what is proven of such a year later is seldom more. Measured on households of 14 to 280 things; the others are proven sooner.
 */
export const shortSeconds = (columns: number, secondsLimit: number): number =>
  (1 + columns / 1000) * Math.max(1, secondsLimit / usualSeconds);
/** Units of a wish, missed beside the least that has to be, above which a year cannot serve its wishes: about half a batch. Judged, no source. */
export const unitsGivenWay = 3;
/** Of a relaxation that tells whether they have to: a safety net. */
const relaxedSeconds = 5;

/**
 * The priced solve. A year that cannot serve its wishes is not searched for long: its gap is mostly what batches cost in whole, and is
 * told. Every other goes on until it is proven, or its seconds are over, and so does one that goes on from a plan.
 */
export async function solvePriced(
  { model }: BuiltModel,
  wishes: readonly WishRung[],
  solve: Solve,
  { secondsLimit, ...request }: Omit<SolveRequest, 'secondsLimit'> & { readonly secondsLimit: number },
): Promise<PricedAnswer> {
  const soonSeconds =
    request.start === undefined
      ? Math.min(shortSeconds(model.columns.length, secondsLimit), secondsLimit)
      : secondsLimit;
  const soon = await solve(model, { ...request, secondsLimit: soonSeconds });
  if (soonSeconds >= secondsLimit || isEnded(soon)) return { answer: soon, isCutShort: false };
  if (soon.status === 'solved' && (await isShort(model, wishes, soon, solve, request)))
    return { answer: soon, isCutShort: true };
  const later = await solve(model, {
    ...request,
    ...(soon.status === 'solved' ? { start: soon.values } : {}),
    secondsLimit: secondsLimit - soonSeconds,
  });
  const answer =
    later.status === 'solved' && soon.status === 'solved'
      ? { ...later, bound: Math.max(later.bound, soon.bound), seconds: later.seconds + soon.seconds }
      : later;
  return { answer, isCutShort: false };
}

const isEnded = (answer: SolveAnswer): boolean =>
  answer.status === 'solved'
    ? answer.stoppedBy !== 'time limit'
    : answer.status !== 'time limit without plan';

/** Whether a wish heavier than reserve gives way to others by more than a few units, and not because nothing could serve it. */
async function isShort(
  model: Model,
  wishes: readonly WishRung[],
  { values }: Pick<SolvedAnswer, 'values'>,
  solve: Solve,
  { signal, bounds }: Pick<SolveRequest, 'signal' | 'bounds'>,
): Promise<boolean> {
  for (const rung of wishes) {
    const missed = missedOn(rung, values);
    if (!isHeavierThanReserve(rung.name) || missed <= unitsGivenWay) continue;
    const relaxed = await solve(modelOfRung(model, rung), {
      gap: 0,
      relaxed: true,
      secondsLimit: relaxedSeconds,
      ...(signal === undefined ? {} : { signal }),
      ...(bounds === undefined ? {} : { bounds }),
    });
    if (relaxed.status === 'solved' && missed > relaxed.bound + unitsGivenWay) return true;
  }
  return false;
}
