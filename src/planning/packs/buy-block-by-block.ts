import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { objectiveOf } from '../model/model.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import {
  boundsOfPart,
  type PartOfModel,
  partOfModel,
  rowsByColumn,
  withPart,
} from '../solving/part-of-model.ts';
import type { Solve, SolvedAnswer, UnsolvedAnswer } from '../solving/solving.ts';
import { packRoundings, roundedPacks } from './round-packs.ts';
import { sharedColumns, storesOfItems } from './stores.ts';

export interface BlocksRequest {
  /** Bounds that replace the model's own: what a week may overdraw. */
  readonly bounds: ColumnBoundsByIndex;
  /** Safety net of all blocks together, solver seconds. */
  readonly secondsLimit: number;
  /** Weeks that are searched block by block; those beyond are only rounded, all at once. All are searched, when left out. */
  readonly searchedWeeks?: number;
  /** Safety net of one block's search, solver seconds; 8 unless said. */
  readonly blockSeconds?: number;
  readonly signal?: AbortSignal;
}

/** Weeks whose packs are fixed together; a search looks as many further ahead. */
const blockWeeks = 4;
/** A rounding that makes the year no dearer than this needs no search; one block's search ends at it, or after so many nodes. */
const gapOfBlock = 0.005;
/** A rounding that makes the year no dearer than this is as good as any. */
const gapOfRounding = 0.0005;
const nodesOfBlock = 100;
const secondsOfBlock = 8;

/**
 * Whole packs for money that is short: what is eaten is bought some weeks at a time, with the weeks before as bought and the
 * weeks to come in any amount, so that each block knows what the rest of the year still has to pay. A block is rounded, and
 * searched only where every rounding takes from the year. What canning needs stays as `start` buys it: it cannot be missed, so
 * no block may spend its money. Where only the next weeks are acted upon before all is planned again, `searchedWeeks` leaves those
 * beyond as they are rounded. Relax and fix: Y. Pochet, L. A. Wolsey, Production Planning by Mixed Integer Programming,
 * 2006, from memory.
 */
export async function buyBlockByBlock(
  built: BuiltModel,
  start: SolvedAnswer,
  solve: Solve,
  {
    bounds,
    secondsLimit,
    searchedWeeks = Number.POSITIVE_INFINITY,
    blockSeconds = secondsOfBlock,
    signal,
  }: BlocksRequest,
): Promise<SolvedAnswer | UnsolvedAnswer> {
  const { model, sets } = built;
  const open = [...storesOfItems(built).flatMap(({ columns }) => columns), ...sharedColumns(built)];
  const part = partOfModel(model, start.values, open, rowsByColumn(model));
  const weekOf = weekEatenIn(built, part);
  const bought = new Map(boundsOfPart(bounds, part));
  const request = { secondsLimit: secondsOfBlock, ...(signal === undefined ? {} : { signal }) };
  const inAnyAmount = async (fixed: ColumnBoundsByIndex) =>
    solve(part.model, { ...request, gap: 0, relaxed: true, bounds: new Map([...bought, ...fixed]) });
  let year = await inAnyAmount(new Map());
  if (year.status !== 'solved') return year;
  let seconds = year.seconds;
  let end = 0;
  for (let from = 0; from < sets.weekCount; from = end) {
    if (seconds >= secondsLimit) return { status: 'time limit without plan', detail: `weeks from ${from}` };
    const isSearched = from < searchedWeeks;
    end = isSearched ? from + blockWeeks : sets.weekCount;
    const isOfBlock = (at: number) => isWithin(weekOf.get(at), from, end);
    const values = withPart(start.values, part, year.values);
    const found: SolvedAnswer[] = [];
    for (const rounding of packRoundings) {
      const rounded = boundsOfPart(roundedPacks(built, values, rounding), part);
      const answer = await inAnyAmount(new Map([...rounded].filter(([at]) => isOfBlock(at))));
      if (answer.status === 'cancelled') return answer;
      if (answer.status !== 'solved') continue;
      found.push(answer);
      if (answer.objective <= year.objective * (1 + gapOfRounding)) break;
    }
    let best = cheapest(found);
    if (best === undefined || (isSearched && best.objective > year.objective * (1 + gapOfBlock))) {
      const columns = part.model.columns.map((column, at) =>
        isWithin(weekOf.get(at), end + blockWeeks, sets.weekCount) ? { ...column, integer: false } : column,
      );
      const answer = await solve(
        { ...part.model, columns },
        {
          ...request,
          secondsLimit: blockSeconds,
          gap: gapOfBlock,
          nodeLimit: nodesOfBlock,
          isSmall: true,
          bounds: bought,
        },
      );
      if (answer.status === 'cancelled') return answer;
      if (answer.status === 'solved') found.push(answer);
      best = cheapest(found);
      if (best === undefined) return answer;
    }
    seconds += found.reduce((sum, one) => sum + one.seconds, 0);
    for (const at of weekOf.keys())
      if (isOfBlock(at)) {
        const packs = Math.round(entry(best.values, at, 'values'));
        bought.set(at, [packs, packs]);
      }
    year = best;
  }
  const values = withPart(start.values, part, year.values);
  return { ...year, values, objective: objectiveOf(model, values), seconds };
}

const cheapest = (answers: readonly SolvedAnswer[]): SolvedAnswer | undefined =>
  [...answers].sort((one, other) => one.objective - other.objective)[0];

/** No week is within any. */
const isWithin = (week = Number.NaN, from: number, end: number) => week >= from && week < end;

/** The week of every column of a part that counts packs of something eaten. */
function weekEatenIn({ columns }: BuiltModel, part: PartOfModel): ReadonlyMap<number, number> {
  const placeOf = new Map(part.columns.map((column, at) => [column, at]));
  const found = new Map<number, number>();
  for (const weeks of columns.purchases.flat())
    weeks.forEach((column, week) => {
      const at = column === null ? undefined : placeOf.get(column);
      if (at !== undefined) found.set(at, week);
    });
  return found;
}
