import { formatNumber, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

const ouncesPerPound = 16;
const gramsPerPound = 453.59237;
/** Below a quarter of a pound a kitchen weighs in ounces or grams. */
const smallPounds = 0.25;

/** How much of a supply a batch takes, as a kitchen would measure it: `3.5 lb`, `0.3 oz`, `1 package`. */
export const supplyAmount = (quantity: number, unit: string, reading: Reading): string => {
  if (unit === 'lb' && quantity < smallPounds)
    return reading.units === 'metric'
      ? `${formatNumber(quantity * gramsPerPound, reading, 0)} g`
      : `${formatNumber(quantity * ouncesPerPound, reading)} oz`;
  return quantity < 0.1
    ? `${formatNumber(quantity, reading, 2)} ${unit}`
    : formatQuantity(Math.round(quantity * 100) / 100, unit, reading);
};
