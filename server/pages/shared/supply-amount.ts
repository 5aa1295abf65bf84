import { wordFor } from '../../../shared/counting.ts';
import { litresPerQuart } from '../../../shared/measures.ts';
import { kitchenAmount } from '../../../src/preserving/lookup/display-units.ts';
import { formatNumber, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

const ouncesPerPound = 16;
const gramsPerPound = 453.59237;
const cupsPerQuart = 4;
const millilitresPerQuart = litresPerQuart * 1000;
/** Below a quarter of a pound a kitchen weighs in ounces. */
const smallPounds = 0.25;

/**
 * How much of a supply a batch takes, as a kitchen would measure it: `3½ lb`, `0.3 oz`, `2¼ cups`, `1 package`; for metric readers
 * `227 g`, `1.18 L`. It is cooked by, so nothing is rounded away: less vinegar or salt than the recipe's is another recipe.
 */
export const supplyAmount = (quantity: number, unit: string, reading: Reading): string => {
  if (unit === 'lb' && reading.units === 'metric')
    return smallOrLarge(quantity * gramsPerPound, ['g', 'kg'], reading);
  if (unit === 'qt' && reading.units === 'metric')
    return smallOrLarge(quantity * millilitresPerQuart, ['mL', 'L'], reading);
  if (unit === 'lb' && quantity < smallPounds)
    return `${formatNumber(quantity * ouncesPerPound, reading)} oz`;
  if (unit === 'qt' && quantity < 1) return spoonedWords(quantity * cupsPerQuart, 'cup');
  if (unit === 'lb' || unit === 'qt') return `${kitchenAmount(quantity)} ${unit}`;
  if (spooned.has(unit)) return spoonedWords(quantity, unit);
  return quantity < 0.1
    ? `${formatNumber(quantity, reading, 2)} ${unit}`
    : formatQuantity(Math.round(quantity * 100) / 100, unit, reading);
};

/** Below a thousand in whole grams or milliliters, from there on in hundredths of kilograms or liters. */
const smallOrLarge = (amount: number, [small, large]: readonly [string, string], reading: Reading): string =>
  amount < 999.5
    ? `${formatNumber(amount, reading, 0)} ${small}`
    : `${formatNumber(amount / 1000, reading, 2)} ${large}`;

const spooned = new Set(['cup', 'tbsp', 'tsp']);
const tablespoonsPerCup = 16;

/** In common fractions; a cup holds 16 tablespoons, which say what no fraction of a cup does: `9 tbsp`. */
function spoonedWords(amount: number, unit: string): string {
  const tablespoons = amount * tablespoonsPerCup;
  const isWhole = Math.abs(tablespoons - Math.round(tablespoons)) < 0.05;
  if (unit === 'cup' && isWhole && /\./.test(kitchenAmount(amount))) return `${Math.round(tablespoons)} tbsp`;
  return `${kitchenAmount(amount)} ${unit === 'cup' ? wordFor(amount > 1 ? 2 : 1, unit) : unit}`;
}
