import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { objectiveOf } from '../model/model.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import { boundsOfPart, partOfModel, rowsByColumn, withPart } from '../solving/part-of-model.ts';
import type { Solve, SolvedAnswer } from '../solving/solving.ts';
import { type Store, sharedColumns, storesForCanning, storesOfItems } from './stores.ts';

export interface ImprovingRequest {
  /** Stores looked at, those first that cost most over the relaxed answer; all that may gain anything, when left out. */
  readonly mostStores?: number;
  /** Safety net of all stores together, solver seconds. */
  readonly secondsLimit: number;
  /** An objective at which nothing better is looked for; the best that is found, when left out. */
  readonly enough?: number;
  /** Bounds that replace the model's own. */
  readonly bounds: ColumnBoundsByIndex;
  readonly signal?: AbortSignal;
}

/** A store that costs no more than this over the relaxed answer, with what it keeps and misses, is left as it is, cents. */
const worthLooking = 25;
/** One store's search ends at this gap, cents, or after so many nodes: most of its gain is found at the root. */
const centsOfStore = 25;
const nodesOfStore = 2;
/** Seconds of one store: a safety net for a busy machine, it mostly takes a tenth. */
const secondsOfStore = 8;

/**
 * Buys better, one store after the other: the packs of one item, supply, jar kind or lid are chosen anew while all others
 * stay, with money, freezer and groups as they then stand. What it starts from is never made worse. Cancelled, it answers null.
 */
export async function improveByStore(
  built: BuiltModel,
  relaxed: SolvedAnswer,
  start: SolvedAnswer,
  solve: Solve,
  {
    mostStores = Number.POSITIVE_INFINITY,
    enough = Number.NEGATIVE_INFINITY,
    secondsLimit,
    bounds,
    signal,
  }: ImprovingRequest,
): Promise<SolvedAnswer | null> {
  const { model } = built;
  const rowsOf = rowsByColumn(model);
  const shared = sharedColumns(built);
  let { values } = start;
  let objective = objectiveOf(model, values);
  let seconds = 0;
  for (const store of dearestFirst(built, relaxed.values, values).slice(0, mostStores)) {
    const part = partOfModel(model, values, [...store.columns, ...shared], rowsOf);
    const answer = await solve(part.model, {
      gap: 0,
      absoluteGap: centsOfStore,
      nodeLimit: nodesOfStore,
      isSmall: true,
      secondsLimit: Math.min(secondsOfStore, secondsLimit - seconds),
      start: part.columns.map((column) => entry(values, column, 'values')),
      bounds: boundsOfPart(bounds, part),
      ...(signal === undefined ? {} : { signal }),
    });
    if (answer.status === 'cancelled') return null;
    if (answer.status !== 'solved') continue;
    seconds += answer.seconds;
    if (answer.objective < objective) {
      values = withPart(values, part, answer.values);
      objective = answer.objective;
    }
    if (seconds >= secondsLimit || objective <= enough) break;
  }
  return { ...start, values, objective, seconds: start.seconds + seconds };
}

function dearestFirst(
  { model, ...built }: BuiltModel,
  relaxed: ArrayLike<number>,
  values: ArrayLike<number>,
): readonly Store[] {
  const over = ({ columns }: Store) =>
    columns.reduce(
      (sum, column) =>
        sum +
        entry(model.columns, column, 'columns').cost *
          (entry(values, column, 'values') - entry(relaxed, column, 'relaxed')),
      0,
    );
  return [...storesOfItems(built), ...storesForCanning(built)]
    .map((store) => ({ store, cents: over(store) }))
    .filter(({ cents }) => cents > worthLooking)
    .sort((one, other) => other.cents - one.cents)
    .map(({ store }) => store);
}
