import { poundsPerKilogram } from '../../../shared/measures.ts';
import type { PrintedRange } from '../../../shared/schemas/reference/cells.ts';
import type { ProduceYieldRow } from '../../../shared/schemas/reference/produce-yield.ts';

/** Pounds for so many quarts by the average per quart; `undefined` where none is printed. Two pints are a quart. */
export const poundsForQuarts = (row: ProduceYieldRow, quarts: number): PrintedRange | undefined =>
  row.lbPerQuart ? { low: row.lbPerQuart.low * quarts, high: row.lbPerQuart.high * quarts } : undefined;

/** Pounds for whole canner loads as printed, which may differ from the average per quart. */
export const poundsForLoads = (
  row: ProduceYieldRow,
  load: '7-quarts' | '9-pints',
  loads: number,
): PrintedRange | undefined => {
  const pounds = load === '7-quarts' ? row.lbPerSevenQuartLoad : row.lbPerNinePintLoad;
  return pounds ? { low: pounds.low * loads, high: pounds.high * loads } : undefined;
};

/** Quarts from so many bushels, crates or lugs, low and high; `undefined` where no yield is printed. */
export const quartsFromContainers = (row: ProduceYieldRow, containers: number): PrintedRange | undefined => {
  const { quantity, yieldLowQuarts, yieldHighQuarts } = row;
  if (quantity === null || yieldLowQuarts === null || yieldHighQuarts === null) return undefined;
  const times = containers / quantity;
  return { low: yieldLowQuarts * times, high: yieldHighQuarts * times };
};

export interface ProduceAmount {
  readonly pounds: number;
  readonly kilograms: number;
  /** In the container the guide names for this food (bushel, crate, lug, bag), where it names one. */
  readonly containers: { readonly count: number; readonly unit: string } | null;
}

/** Pounds said in kilograms and in the container of that food, none of it rounded. */
export const amountOf = (pounds: number, row?: ProduceYieldRow): ProduceAmount => ({
  pounds,
  kilograms: pounds / poundsPerKilogram,
  containers:
    row?.unit && row.unitWeightLb && row.unit !== 'lb'
      ? { count: pounds / row.unitWeightLb, unit: row.unit }
      : null,
});
