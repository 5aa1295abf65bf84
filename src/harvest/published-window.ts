import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';

/** Rows that speak for a crop where its own is missing, best first: a state may print cherries without saying which. */
const spokenForBy: Readonly<Record<string, readonly string[]>> = {
  blackberry: ['blackberry_south'],
  blueberry: ['blueberry_south'],
  cherry: ['cherry_sweet', 'cherry_tart'],
  cherry_tart: ['cherry'],
  cucumber: ['cucumber_pickling'],
  green_bean: ['green_bean_pole'],
  pepper_hot: ['pepper'],
  pepper_sweet: ['pepper'],
  raspberry: ['raspberry_all'],
};

/**
 * The published season of a crop in a region, or `undefined` where none is. Crops are written with hyphens by households
 * and with underscores in the table. Which row speaks for a crop without one of its own is our own judgement.
 */
export const publishedWindow = (
  windows: readonly HarvestWindowRow[],
  region: string,
  crop: string,
): HarvestWindowRow | undefined => {
  const key = crop.replaceAll('-', '_');
  const inRegion = windows.filter((row) => row.region === region);
  for (const candidate of [key, ...(spokenForBy[key] ?? [])]) {
    const row = inRegion.find(({ cropKey }) => cropKey === candidate);
    if (row) return row;
  }
  return undefined;
};
