import { ShelfwardError } from '../../../shared/problems.ts';

const kilopascalsPerPsi = 6.894757293168361;

/** A whole pressure to show: rounded up, never down, in pounds per square inch or kilopascals. */
export const shownPressure = (psi: number, unit: 'psi' | 'kPa' = 'psi'): number => {
  if (!(psi >= 0))
    throw new ShelfwardError('pressure-negative', `shownPressure: expected 0 or more, got ${psi}`);
  const exact = unit === 'psi' ? psi : psi * kilopascalsPerPsi;
  return Math.ceil(exact - 1e-9);
};

const fractions: readonly (readonly [number, string])[] = [
  [1 / 8, '⅛'],
  [1 / 4, '¼'],
  [1 / 3, '⅓'],
  [3 / 8, '⅜'],
  [1 / 2, '½'],
  [5 / 8, '⅝'],
  [2 / 3, '⅔'],
  [3 / 4, '¾'],
  [7 / 8, '⅞'],
];

/** A kitchen amount in whole and common fractions, `2¼`; a plain decimal where no fraction is within a hundredth. */
export const kitchenAmount = (amount: number): string => {
  const whole = Math.floor(amount + 0.01);
  const rest = amount - whole;
  if (Math.abs(rest) <= 0.01) return String(whole);
  const near = fractions.find(([value]) => Math.abs(value - rest) <= 0.01);
  if (!near) return String(Math.round(amount * 100) / 100);
  return whole === 0 ? near[1] : `${whole}${near[1]}`;
};

/** `½ inch`, `2 inches`. */
export const inInches = (inches: number): string =>
  `${kitchenAmount(inches)} ${inches > 1 ? 'inches' : 'inch'}`;
