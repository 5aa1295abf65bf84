import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { objectiveOf } from '../model/model.ts';
import type { MaybeColumn } from '../model/variables.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import { partOfModel, rowsByColumn, withPart } from '../solving/part-of-model.ts';
import type { Solve, SolvedAnswer } from '../solving/solving.ts';

/** Something bought in packs: the columns that decide how much of it is bought when, and what then stands there. */
interface Store {
  readonly columns: readonly number[];
}

export interface ImprovingRequest {
  /** Stores looked at, those first that cost most over the relaxed answer; all that may gain anything, when left out. */
  readonly mostStores?: number;
  /** Safety net of all stores together, solver seconds. */
  readonly secondsLimit: number;
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
  { mostStores = Number.POSITIVE_INFINITY, secondsLimit, bounds, signal }: ImprovingRequest,
): Promise<SolvedAnswer | null> {
  const { model, columns } = built;
  const rowsOf = rowsByColumn(model);
  const shared = present([
    ...columns.fund,
    ...columns.fundOver,
    ...columns.freezerOver,
    ...columns.groupShortage,
    ...columns.kinds.flat(),
    ...columns.kindsMissing,
    ...columns.shareOver.flat(),
  ]);
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
      bounds: ofPart(bounds, part.columns),
      ...(signal === undefined ? {} : { signal }),
    });
    if (answer.status === 'cancelled') return null;
    if (answer.status !== 'solved') continue;
    seconds += answer.seconds;
    if (answer.objective < objective) {
      values = withPart(values, part, answer.values);
      objective = answer.objective;
    }
    if (seconds >= secondsLimit) break;
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
  return stores(built)
    .map((store) => ({ store, cents: over(store) }))
    .filter(({ cents }) => cents > worthLooking)
    .sort((one, other) => other.cents - one.cents)
    .map(({ store }) => store);
}

function stores({ columns }: Pick<BuiltModel, 'columns'>): Store[] {
  const store = (bought: readonly MaybeColumn[], left: readonly MaybeColumn[]): Store[] =>
    present(bought).length === 0 ? [] : [{ columns: present([...bought, ...left]) }];
  return [
    ...columns.purchases.flatMap((packs, at) =>
      store(packs.flat(), [
        ...(columns.stock[at] ?? []),
        ...(columns.older[at] ?? []),
        ...(columns.shortage[at] ?? []),
        columns.reserveShortage[at] ?? null,
        columns.reserveAtEndShortage[at] ?? null,
        columns.yearEndShortage[at] ?? null,
        columns.familyShortage[at] ?? null,
        ...entry(columns.firstJarsMissing, at, 'firstJarsMissing'),
      ]),
    ),
    ...columns.supplyBought.flatMap((weeks, at) => store(weeks, columns.supplyLeft[at] ?? [])),
    ...columns.jarsBought.flatMap((weeks, at) => store(weeks, columns.jarsEmpty[at] ?? [])),
    ...columns.lidsBought.flatMap((weeks, at) => store(weeks, columns.lidsLeft[at] ?? [])),
  ];
}

const present = (columns: readonly MaybeColumn[]): number[] =>
  columns.flatMap((column) => (column === null ? [] : [column]));

function ofPart(bounds: ColumnBoundsByIndex, columns: readonly number[]): ColumnBoundsByIndex {
  return new Map(
    columns.flatMap((column, at) => {
      const own = bounds.get(column);
      return own === undefined ? [] : [[at, own] as const];
    }),
  );
}
