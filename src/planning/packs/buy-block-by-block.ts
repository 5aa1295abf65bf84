import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import type { Solve, SolvedAnswer, UnsolvedAnswer } from '../solving/solving.ts';

export interface BlocksRequest {
  /** Bounds that replace the model's own: what a week may overdraw, and the packs of what canning needs. */
  readonly bounds: ColumnBoundsByIndex;
  /** Safety net of all blocks together, solver seconds. */
  readonly secondsLimit: number;
  readonly signal?: AbortSignal;
}

/** Weeks whose packs are made whole together. */
const blockWeeks = 4;
/** One block's search ends at this gap, or after so many nodes. */
const gapOfBlock = 0.005;
const nodesOfBlock = 60;
const secondsOfBlock = 4;

/**
 * Whole packs for money that is short: what is eaten is bought four weeks at a time, with the weeks before as bought and the
 * weeks to come in any amount, so that each block knows what the rest of the year still has to pay. What canning needs is best
 * bought beforehand: it cannot be missed, so no block may spend its money. Relax and fix: Y. Pochet, L. A. Wolsey, Production
 * Planning by Mixed Integer Programming, 2006, from memory.
 */
export async function buyBlockByBlock(
  built: BuiltModel,
  solve: Solve,
  { bounds, secondsLimit, signal }: BlocksRequest,
): Promise<SolvedAnswer | UnsolvedAnswer> {
  const { model, sets } = built;
  const called = signal === undefined ? {} : { signal };
  const weekOf = weekEatenFrom(built);
  const bought = new Map(bounds);
  let seconds = 0;
  for (let from = 0; from < sets.weekCount; from += blockWeeks) {
    const end = from + blockWeeks;
    const columns = model.columns.map((column, at) => {
      const week = weekOf.get(at);
      return week === undefined || week < end ? column : { ...column, integer: false };
    });
    const answer = await solve(
      { ...model, columns },
      {
        gap: gapOfBlock,
        nodeLimit: nodesOfBlock,
        isSmall: true,
        secondsLimit: Math.min(secondsOfBlock, Math.max(0.1, secondsLimit - seconds)),
        bounds: bought,
        ...called,
      },
    );
    if (answer.status !== 'solved') return answer;
    seconds += answer.seconds;
    for (const [column, week] of weekOf)
      if (week >= from && week < end) {
        const packs = Math.round(entry(answer.values, column, 'values'));
        bought.set(column, [packs, packs]);
      }
  }
  const whole = await solve(model, {
    gap: 0,
    relaxed: true,
    secondsLimit: secondsOfBlock,
    bounds: bought,
    ...called,
  });
  return whole.status === 'solved' ? { ...whole, seconds: seconds + whole.seconds } : whole;
}

/** The week of every column that counts packs of something eaten. */
function weekEatenFrom({ columns }: BuiltModel): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  for (const weeks of columns.purchases.flat())
    weeks.forEach((column, week) => {
      if (column !== null) found.set(column, week);
    });
  return found;
}
