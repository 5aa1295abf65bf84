import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { MaybeColumn } from '../model/variables.ts';
import { wantedAtEndOf } from './wanted-at-end.ts';

/** Something bought in packs and drawn down week by week. */
interface PackStore {
  /** Columns whose packs come on hand in each week. */
  readonly bought: readonly MaybeColumn[];
  readonly unitsPerPack: number;
  /** What stands at each week's end in the relaxed answer. */
  readonly stock: readonly number[];
  /** What has to stand there, as far as the relaxed answer manages it. */
  readonly floor: readonly number[];
  /** Eaten, so that it may come late; what canning needs may not. */
  readonly mayWait: boolean;
}

/**
 * `late`: a pack only when it is needed; `steady`: as the relaxed answer buys, sales included, rounded down where it may;
 * `bare`: as late as use allows, whatever a reserve asks; `behind`: what is eaten waits until the relaxed answer has paid for
 * a whole pack, so that no week spends more than it.
 */
export type PackRounding = 'late' | 'steady' | 'bare' | 'behind';

export const packRoundings = ['steady', 'late', 'bare', 'behind'] as const satisfies readonly PackRounding[];

/**
 * Whole packs that follow a relaxed answer of the pack stage: never fewer by any week than keep the stock it needs.
 * Returns bounds that fix every pack column, for a solve that fills in the rest.
 */
export function roundedPacks(
  built: BuiltModel,
  values: ArrayLike<number>,
  rounding: PackRounding,
): ReadonlyMap<number, readonly [lower: number, upper: number]> {
  const bounds = new Map<number, readonly [number, number]>();
  for (const store of packStores(built, values, rounding)) {
    const counts = wholePacks(store, (column) => entry(values, column, 'values'), rounding);
    store.bought.forEach((column, week) => {
      if (column !== null) bounds.set(column, [entry(counts, week, 'counts'), entry(counts, week, 'counts')]);
    });
  }
  return bounds;
}

function wholePacks(
  { bought, unitsPerPack, stock, floor, mayWait }: PackStore,
  packsOf: (column: number) => number,
  rounding: PackRounding,
): number[] {
  let relaxedUnits = 0;
  let neededUnits = 0;
  const targets = bought.map((column, week) => {
    relaxedUnits += column === null ? 0 : packsOf(column) * unitsPerPack;
    const spare = entry(stock, week, 'stock') - entry(floor, week, 'floor');
    neededUnits = Math.max(neededUnits, relaxedUnits - spare);
    const needed = Math.ceil(neededUnits / unitsPerPack - 1e-6);
    const paidFor = Math.floor(relaxedUnits / unitsPerPack + 1e-6);
    if (rounding === 'behind' && mayWait) return paidFor;
    return rounding === 'steady' ? Math.max(needed, paidFor) : needed;
  });
  // What a week in which nothing can be bought needs is bought before it.
  for (let week = targets.length - 1; week > 0; week -= 1)
    if (bought[week] === null)
      targets[week - 1] = Math.max(entry(targets, week - 1, 'targets'), entry(targets, week, 'targets'));
  let sofar = 0;
  return targets.map((target) => {
    const count = Math.max(0, target - sofar);
    sofar += count;
    return count;
  });
}

function packStores(built: BuiltModel, values: ArrayLike<number>, rounding: PackRounding): PackStore[] {
  const { sets, columns } = built;
  const { year, weekIndexes } = sets;
  const at = (column: MaybeColumn) => (column === null ? 0 : entry(values, column, 'values'));
  const ofItems = columns.purchases.flatMap((packs, itemAt): PackStore[] => {
    const stock = entry(columns.stock, itemAt, 'stock').map(at);
    const floor = stock.map((units, week) => {
      const { reserve, handedOver } = wantedAtEndOf(built, itemAt, week);
      return Math.min(units, (rounding === 'bare' ? 0 : reserve) + handedOver);
    });
    const main = mainPack(packs, at);
    return packs.map((bought, packAt) => ({
      bought,
      unitsPerPack: entry(entry(sets.items, itemAt, 'items').packs, packAt, 'packs').units,
      stock: packAt === main ? stock : floor,
      floor,
      mayWait: true,
    }));
  });
  const ofStore = (
    bought: readonly MaybeColumn[],
    left: readonly MaybeColumn[],
    unitsPerPack: number,
  ): PackStore => ({
    bought: onHandFrom(bought),
    unitsPerPack,
    stock: left.map(at),
    floor: weekIndexes.map(() => 0),
    mayWait: false,
  });
  return [
    ...ofItems,
    ...columns.supplyBought.flatMap((bought, supply): PackStore[] => {
      const { freshDays, packQuantity } = entry(year.supplies, supply, 'supplies');
      return freshDays === undefined
        ? [ofStore(bought, entry(columns.supplyLeft, supply, 'supplyLeft'), packQuantity)]
        : ofFresh(bought, packQuantity);
    }),
    ...columns.jarsBought.map((bought, jars) =>
      ofStore(bought, entry(columns.jarsEmpty, jars, 'jarsEmpty'), entry(year.jars, jars, 'jars').pack),
    ),
    ...columns.lidsBought.map((bought, lids) =>
      ofStore(bought, entry(columns.lidsLeft, lids, 'lidsLeft'), entry(year.lids, lids, 'lids').box),
    ),
  ];
}

/** What is bought for canning is on hand the week after; what is bought in the first week serves that week too. */
const onHandFrom = (bought: readonly MaybeColumn[]): MaybeColumn[] =>
  bought.map((_, week) => (week === 1 ? null : entry(bought, Math.max(0, week - 1), 'bought')));

/** What spoils is rounded up week by week: none of a pack is left for another week. */
const ofFresh = (bought: readonly MaybeColumn[], unitsPerPack: number): PackStore[] =>
  bought.map((column) => ({ bought: [column], unitsPerPack, stock: [0], floor: [0], mayWait: false }));

/** Position of the pack size the relaxed answer buys most of: its rounding absorbs the spare stock. */
function mainPack(
  purchases: readonly (readonly MaybeColumn[])[],
  at: (column: MaybeColumn) => number,
): number {
  const totals = purchases.map((weeks) => weeks.reduce<number>((sum, column) => sum + at(column), 0));
  return totals.indexOf(Math.max(...totals));
}
