import { asCents } from '../../../shared/money.ts';
import type { Item } from '../../../src/household/item.ts';
import type { GaveWay, GaveWayRung } from '../../../src/planning/plan.ts';
import { gaveWayUnits, type YearWalk } from '../../../src/planning/year/year-walk.ts';
import { formatMoney, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { amountOf } from '../shelf-units.ts';

export const rungWords: Readonly<Record<GaveWayRung, string>> = {
  'cash and hours': 'More money or hours than there are',
  'garden crop': 'Left of the own crop',
  'family minimum': 'Below the family minimum',
  group: 'Short in a group',
  use: 'Short of what you eat',
  reserve: 'Short of the reserve',
  variety: 'Less variety than wished',
  freshness: 'Eaten past best quality',
};

/** `4 pints`: what a plan leaves missing of an item on one rung; `until more comes` where the year as a whole has enough. */
export function gaveWayWords(
  item: Item,
  walk: YearWalk | null,
  gaveWay: Pick<GaveWay, 'rung' | 'amount'>,
  reading: Reading,
): string {
  const units = walk === null ? gaveWay.amount : gaveWayUnits(walk, gaveWay);
  return units > 0 ? amountOf(item, units, reading) : 'until more comes';
}

/** `4 batches`, `$12.50`: what gave way of anything but an item. */
export const amountWords = ({ amount, unit }: GaveWay, reading: Reading): string =>
  unit === 'cents'
    ? formatMoney(asCents(amount), reading)
    : formatQuantity(Math.round(amount * 10) / 10, singular[unit] ?? unit, reading);

const singular: Readonly<Record<string, string>> = { batches: 'batch', kinds: 'kind', units: 'unit' };
