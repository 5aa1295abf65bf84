import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { MaybeColumn } from '../model/variables.ts';

/** Something bought in packs: the columns that decide how much of it is bought when, and what then stands there. */
export interface Store {
  readonly columns: readonly number[];
}

type Columns = Pick<BuiltModel, 'columns'>;

/** What is bought to be eaten, item by item. */
export function storesOfItems({ columns }: Columns): Store[] {
  return columns.purchases.flatMap((packs, at) =>
    store(packs.flat(), [
      ...entry(columns.stock, at, 'stock'),
      ...entry(columns.older, at, 'older'),
      ...entry(columns.shortage, at, 'shortage'),
      entry(columns.reserveShortage, at, 'reserveShortage'),
      entry(columns.reserveAtEndShortage, at, 'reserveAtEndShortage'),
      entry(columns.comingReserveShortage, at, 'comingReserveShortage'),
      entry(columns.yearEndShortage, at, 'yearEndShortage'),
      entry(columns.familyShortage, at, 'familyShortage'),
      ...entry(columns.firstJarsMissing, at, 'firstJarsMissing'),
    ]),
  );
}

/** What is bought for canning: supplies, jars and lids, kind by kind. */
export function storesForCanning({ columns }: Columns): Store[] {
  return [
    ...columns.supplyBought.flatMap((weeks, at) => store(weeks, entry(columns.supplyLeft, at, 'supplyLeft'))),
    ...columns.jarsBought.flatMap((weeks, at) => store(weeks, entry(columns.jarsEmpty, at, 'jarsEmpty'))),
    ...columns.lidsBought.flatMap((weeks, at) => store(weeks, entry(columns.lidsLeft, at, 'lidsLeft'))),
  ];
}

/** What all stores share: money, freezer and what groups ask for. */
export function sharedColumns({ columns }: Columns): readonly number[] {
  return present([
    ...columns.fund,
    ...columns.fundOver,
    ...columns.freezerOver,
    ...columns.groupShortage,
    ...columns.kinds.flat(),
    ...columns.kindsMissing,
    ...columns.shareOver.flat(),
  ]);
}

function store(bought: readonly MaybeColumn[], left: readonly MaybeColumn[]): Store[] {
  return present(bought).length === 0 ? [] : [{ columns: present([...bought, ...left]) }];
}

/** The columns that the model has. */
export const present = (columns: readonly MaybeColumn[]): number[] =>
  columns.flatMap((column) => (column === null ? [] : [column]));
