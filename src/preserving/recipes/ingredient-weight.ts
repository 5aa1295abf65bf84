import type { PrintedRange } from '../../../shared/schemas/reference/cells.ts';
import type { MeasureRow } from '../../../shared/schemas/reference/measure.ts';
import type { IngredientRow } from '../../../shared/schemas/reference/recipe.ts';

const gramsPerPound = 453.59237;
const ouncesPerPound = 16;
/** US liquid measures in cups: NIST Handbook 44, Appendix C. */
export const cupsPer: Readonly<Record<string, number>> = {
  cup: 1,
  pint: 2,
  qt: 4,
  tbsp: 1 / 16,
  tsp: 1 / 48,
};

export interface IngredientWeight {
  readonly pounds: PrintedRange;
  readonly weighed: 'as-picked' | 'prepared';
}

/**
 * Pounds of an ingredient for one batch: printed pounds or ounces as they are; a weight printed beside a volume, as
 * printed; a volume through the weight of a cup of the prepared food (USDA National Nutrient Database, release 26).
 * `undefined` where no weight is published.
 */
export const poundsOf = (
  quantity: PrintedRange,
  unit: string,
  known: Pick<IngredientRow, 'printedLb' | 'cupMeasure'>,
  measures: readonly MeasureRow[],
): IngredientWeight | undefined => {
  if (unit === 'lb') return { pounds: quantity, weighed: 'as-picked' };
  if (unit === 'oz') return { pounds: scaled(quantity, 1 / ouncesPerPound), weighed: 'as-picked' };
  if (known.printedLb !== null) {
    return { pounds: { low: known.printedLb, high: known.printedLb }, weighed: 'as-picked' };
  }
  const cups = cupsPer[unit];
  const cup = measures.find((row) => row.fromUnit === known.cupMeasure && row.toUnit === 'g');
  if (cups === undefined || !cup) return undefined;
  return { pounds: scaled(quantity, (cups * cup.toQuantity) / gramsPerPound), weighed: 'prepared' };
};

const scaled = (range: PrintedRange, factor: number): PrintedRange => ({
  low: range.low * factor,
  high: range.high * factor,
});
