import { counted } from '../../../shared/counting.ts';
import { formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** Liters in a US gallon, as it is defined. */
const litersPerGallon = 3.785411784;

export const waterUnit = ({ units }: Reading): string => (units === 'metric' ? 'liters' : 'gallons');

/** An amount of water as the household counts it: gallons, or liters. */
export const waterInUnits = (gallons: number, { units }: Reading): number =>
  Math.round((units === 'metric' ? gallons * litersPerGallon : gallons) * 100) / 100;

/** Gallons of what a household typed in its own unit. */
export const gallonsTyped = (typed: number, { units }: Reading): number =>
  units === 'metric' ? typed / litersPerGallon : typed;

/** `56 gallons`, `212 liters` */
export const waterWords = (gallons: number, reading: Reading): string =>
  counted(
    formatNumber(waterInUnits(gallons, reading), reading, reading.units === 'metric' ? 0 : 1),
    reading.units === 'metric' ? 'liter' : 'gallon',
  );
