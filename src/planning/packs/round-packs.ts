import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { heldWithinYear } from '../model/emergency-shelf.ts';
import type { MaybeColumn } from '../model/variables.ts';
import { reserveHeld } from '../planning-year.ts';

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
  for (let week = targets.length - 1; week > 0; week -= 1)
    if (bought[week] === null)
      targets[week - 1] = Math.max(entry(targets, week - 1, 'targets'), entry(targets, week, 'targets'));
  let sofar = 0;
  return targets.map((target, week) => {
    const count = bought[week] === null ? 0 : Math.max(0, target - sofar);
    sofar += count;
    return count;
  });
}

function packStores(
  { sets, parameters, columns }: BuiltModel,
  values: ArrayLike<number>,
  rounding: PackRounding,
): PackStore[] {
  const { year, weekIndexes, weekCount } = sets;
  const at = (column: MaybeColumn | undefined) => (column == null ? 0 : entry(values, column, 'values'));
  const onHandLater = (bought: readonly MaybeColumn[]): MaybeColumn[] =>
    weekIndexes.map((week) =>
      week === 0 ? (bought[0] ?? null) : week === 1 ? null : (bought[week - 1] ?? null),
    );
  const ofItems = sets.items.flatMap((item, itemAt): PackStore[] => {
    const stock = weekIndexes.map((week) => at(columns.stock[itemAt]?.[week]));
    const isReserved = heldWithinYear(item) > 0 && rounding !== 'bare';
    const reserveWeeks = new Set(isReserved ? parameters.reserveWeeks[itemAt] : []);
    const floor = weekIndexes.map((week) =>
      Math.min(
        entry(stock, week, 'stock'),
        week === weekCount - 1
          ? (reserveWeeks.has(week) ? reserveHeld(item) : 0) + item.yearEndUnits
          : reserveWeeks.has(week)
            ? heldWithinYear(item)
            : 0,
      ),
    );
    const main = mainPack(columns.purchases[itemAt] ?? [], at);
    return item.packs.map((pack, packAt) => ({
      bought: columns.purchases[itemAt]?.[packAt] ?? [],
      unitsPerPack: pack.units,
      stock: packAt === main ? stock : floor,
      floor,
      mayWait: true,
    }));
  });
  // What spoils is rounded up week by week: none of a pack is left for another week.
  const ofFresh = year.supplies.flatMap(({ freshDays, packQuantity }, storeAt): PackStore[] => {
    if (freshDays === undefined) return [];
    return (columns.supplyBought[storeAt] ?? []).map((column) => ({
      bought: [column],
      unitsPerPack: packQuantity,
      stock: [0],
      floor: [0],
      mayWait: false,
    }));
  });
  const ofStores = (
    bought: readonly (readonly MaybeColumn[])[],
    left: readonly (readonly MaybeColumn[])[],
    unitsPerPack: readonly number[],
    isFresh: (storeAt: number) => boolean = () => false,
  ) =>
    bought.map((weeks, storeAt) => ({
      bought: isFresh(storeAt) ? weekIndexes.map(() => null) : onHandLater(weeks),
      unitsPerPack: entry(unitsPerPack, storeAt, 'unitsPerPack'),
      stock: weekIndexes.map((week) => at(left[storeAt]?.[week])),
      floor: weekIndexes.map(() => 0),
      mayWait: false,
    }));
  return [
    ...ofItems,
    ...ofStores(
      columns.supplyBought,
      columns.supplyLeft,
      year.supplies.map(({ packQuantity }) => packQuantity),
      (storeAt) => entry(year.supplies, storeAt, 'supplies').freshDays !== undefined,
    ),
    ...ofFresh,
    ...ofStores(
      columns.jarsBought,
      columns.jarsEmpty,
      year.jars.map(({ pack }) => pack),
    ),
    ...ofStores(
      columns.lidsBought,
      columns.lidsLeft,
      year.lids.map(({ box }) => box),
    ),
  ];
}

/** Position of the pack size the relaxed answer buys most of: its rounding absorbs the spare stock. */
function mainPack(
  purchases: readonly (readonly MaybeColumn[])[],
  at: (column: MaybeColumn) => number,
): number {
  const totals = purchases.map((weeks) => weeks.reduce<number>((sum, column) => sum + at(column), 0));
  return totals.indexOf(Math.max(...totals));
}
