import { type JarKind, sizeOf } from '../../shared/jar.ts';
import type { Item } from '../../src/household/item.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import { formatJars, formatNumber, formatQuantity, inReadersUnit } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';

/** Below this nothing of a unit is there. */
const crumb = 0.05;

/** Jars, bags and bins are whole, and some of one is one; what is weighed has tenths. */
export const wholeOf = ({ unit }: Pick<Item, 'unit'>, units: number): number =>
  unit === 'lb' || units < crumb ? Math.max(0, Math.round(units * 10) / 10) : Math.max(1, Math.round(units));

/** `14 pints`, `3 bags`, `21 lb`: an amount of an item, in its own jars unless another kind is named; jars are whole. */
export const amountOf = (
  item: Pick<Item, 'unit' | 'usualJar'>,
  units: number,
  reading: Reading,
  jarKind: JarKind | null = item.usualJar,
): string => rateOf(item, wholeOf(item, units), reading, jarKind);

/** `1.5 pints`, to be said of a span of time: a rate may have parts of a jar. */
export const rateOf = (
  item: Pick<Item, 'unit' | 'usualJar'>,
  units: number,
  reading: Reading,
  jarKind: JarKind | null = item.usualJar,
): string =>
  jarKind === null ? formatQuantity(units, item.unit, reading) : formatJars(units, jarKind, reading);

/** The figure of an amount of an item alone, where its unit stands elsewhere: `14`; of what is weighed, in the reader's weight. */
export const figureOf = (
  { unit }: Pick<Item, 'unit'>,
  units: number,
  reading: Reading,
  decimals = 1,
): string => formatNumber(inReadersUnit(units, unit, reading), reading, decimals);

/** The figure and what follows it, to be set in two sizes: `14` and `pints`. */
export function figureAndUnit(amount: string): { readonly figure: string; readonly unit: string } {
  const space = amount.indexOf(' ');
  return space < 0
    ? { figure: amount, unit: '' }
    : { figure: amount.slice(0, space), unit: amount.slice(space + 1) };
}

/** What several of an item are called: `pints`, `bags`, `lb`. */
export const unitsOf = (item: Pick<Item, 'unit' | 'usualJar'>, reading: Reading): string =>
  figureAndUnit(amountOf(item, 2, reading)).unit;

/** Where one stands in front of the shelf: whole jars of any size are `jars`. */
export const pieceWords = (item: Pick<Item, 'unit'>, reading: Reading): string =>
  figureAndUnit(formatQuantity(2, item.unit, reading)).unit || 'pieces';

/** `8 pints and 2 quarts`, when the lots are of more than one size; null otherwise. */
export function mixedJars(lots: readonly LotOnShelf[], reading: Reading): string | null {
  const leftBySize = new Map<string, { units: number; kind: JarKind }>();
  for (const lot of lots) {
    if (lot.jarKind === null || lot.setAside !== null) continue;
    const size = sizeOf(lot.jarKind);
    const before = leftBySize.get(size)?.units ?? 0;
    leftBySize.set(size, { units: before + lot.unitsLeft, kind: lot.jarKind });
  }
  if (leftBySize.size < 2) return null;
  return [...leftBySize.values()].map(({ units, kind }) => formatJars(units, kind, reading)).join(' and ');
}
