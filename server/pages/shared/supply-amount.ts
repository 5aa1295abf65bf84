import { wordFor } from '../../../shared/counting.ts';
import { kitchenAmount } from '../../../src/preserving/lookup/display-units.ts';
import { formatNumber, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

const ouncesPerPound = 16;
const gramsPerPound = 453.59237;
/** Below a quarter of a pound a kitchen weighs in ounces or grams. */
const smallPounds = 0.25;

/** How much of a supply a batch takes, as a kitchen would measure it: `3.5 lb`, `0.3 oz`, `2¼ cups`, `1 package`. */
export const supplyAmount = (quantity: number, unit: string, reading: Reading): string => {
  if (unit === 'lb' && quantity < smallPounds)
    return reading.units === 'metric'
      ? `${formatNumber(quantity * gramsPerPound, reading, 0)} g`
      : `${formatNumber(quantity * ouncesPerPound, reading)} oz`;
  if (spooned.has(unit)) return spoonedWords(quantity, unit);
  return quantity < 0.1
    ? `${formatNumber(quantity, reading, 2)} ${unit}`
    : formatQuantity(Math.round(quantity * 100) / 100, unit, reading);
};

const spooned = new Set(['cup', 'tbsp', 'tsp']);
const tablespoonsPerCup = 16;

/** In common fractions; a cup holds 16 tablespoons, which say what no fraction of a cup does: `9 tbsp`. */
function spoonedWords(amount: number, unit: string): string {
  const tablespoons = amount * tablespoonsPerCup;
  const isWhole = Math.abs(tablespoons - Math.round(tablespoons)) < 0.05;
  if (unit === 'cup' && isWhole && /\./.test(kitchenAmount(amount))) return `${Math.round(tablespoons)} tbsp`;
  return `${kitchenAmount(amount)} ${unit === 'cup' ? wordFor(amount > 1 ? 2 : 1, unit) : unit}`;
}
