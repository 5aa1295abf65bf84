import { counted, pluralOf } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import { itemById } from '../../queries/household/items.ts';
import { type Reader, refuse } from '../record.ts';

/** The item, or a message that names what was asked for. */
export async function knownItem(reader: Reader, itemId: string): Promise<Outcome<Item>> {
  const item = await itemById(reader.trx, reader.householdId, itemId);
  return item === null ? noItem(itemId) : found(item);
}

export const noItem = (itemId: string): Outcome<never> =>
  refuse(
    'item-unknown',
    'itemId',
    `There is no “${itemId.slice(0, 64)}” here. Choose an item from the shelf, or add it under ${pageNames.items} first.`,
  );

/** A day that has come already: what is recorded has happened. */
export function pastDay(reader: Reader, field: string, on: CalendarDate | null): Outcome<CalendarDate> {
  const day = on ?? reader.today;
  return day > reader.today
    ? refuse(
        'date-in-future',
        field,
        `${dateWords(day)} is still to come; today is ${dateWords(reader.today)}. Record it when it has happened.`,
      )
    : found(day);
}

const whole = new Set<Item['unit']>(['jar', 'bag', 'each']);

/** Jars, bags and pieces come whole; pounds may be weighed, and a bin be half empty. */
export const wholeUnits = (item: Item, units: number): Outcome<number> =>
  whole.has(item.unit) && !Number.isInteger(units)
    ? refuse(
        'units-not-whole',
        'units',
        `${item.name} is counted in whole ${pluralOf(oneOf(item))}, and ${units} is not. Write a whole number.`,
      )
    : found(units);

const oneOf = ({ unit }: Item): string => (unit === 'each' ? 'piece' : unit);

/** “1 jar”, “3 jars”, “2.5 lb”. */
export const unitsOf = (item: Item, units: number): string =>
  counted(Math.round(units * 100) / 100, oneOf(item));
