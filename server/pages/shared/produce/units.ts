import { poundsPerKilogram } from '../../../../shared/measures.ts';
import { poundsFieldOf } from '../../../../shared/schemas/item.ts';
import { type ProduceUnit, produceUnits } from '../../../../shared/trade-measure.ts';
import type { MeasureWeight } from '../../../../src/preserving/foods/trade-measures.ts';
import type { Choice } from '../../../../views/parts/form.tsx';
import { formatQuantity } from '../../../../views/words/format.ts';
import type { Reading } from '../../../../views/words/reading.ts';
import { measureWords } from '../../../words/buying/produce-words.ts';
import { unitsTyped } from './own-units.ts';

/** Weights are shown, and typed, in pounds or in kilograms. */
export const weightUnit = ({ units }: Pick<Reading, 'units'>): 'lb' | 'kg' =>
  units === 'metric' ? 'kg' : 'lb';

/** Pounds as the household weighs. */
export const inWeight = (lb: number, { units }: Pick<Reading, 'units'>): number =>
  units === 'metric' ? lb / poundsPerKilogram : lb;
/** Pounds as they stand in a field to be changed, in the household's weight: grams are kept, so that nothing changes by itself. */
export const poundsTyped = (lb: number, reading: Pick<Reading, 'units'>): string =>
  reading.units === 'metric' ? unitsTyped(lb, 'lb', reading) : String(lb);

/** What stands in the fields of an amount of a crop: how much, and in what. */
export const poundsKept = (crop: string, amount: string, reading: Pick<Reading, 'units'>) =>
  [
    [poundsFieldOf(crop), amount],
    [`${poundsFieldOf(crop)}Unit`, weightUnit(reading)],
  ] as const;

/** What a pound costs or gives, for the weight the household reads. */
export const perWeight = (amountPerLb: number, { units }: Pick<Reading, 'units'>): number =>
  units === 'metric' ? amountPerLb * poundsPerKilogram : amountPerLb;

const words = (unit: ProduceUnit, several: boolean): string =>
  unit === 'lb' || unit === 'kg' ? unit : measureWords(unit, several ? 2 : 1);

/** What an amount of a crop that is not known yet is counted in. */
export const produceUnitChoices: readonly Choice[] = produceUnits.map((value) => ({
  value,
  words: words(value, true),
}));

/** What a price is said for: `a bushel`. */
export const pricedUnitChoices: readonly Choice[] = produceUnits.map((value) => ({
  value,
  words: `a ${words(value, false)}`,
}));

/** What an amount of one crop is counted in: the household's weight first, then each measure with what it weighs. */
export const unitChoicesOf = (measures: readonly MeasureWeight[], reading: Reading): readonly Choice[] => [
  ...weightsFirst(reading).map((value) => ({ value, words: value })),
  ...measures.map(({ measure, lb }) => ({
    value: measure,
    words: `${measureWords(measure, 2)} (${formatQuantity(lb, 'lb', reading)})`,
  })),
];

const weightsFirst = (reading: Reading): readonly string[] => {
  const own = weightUnit(reading);
  return [own, own === 'lb' ? 'kg' : 'lb'];
};
