import { counted } from '../../shared/counting.ts';
import { dateWords } from '../../shared/date-words.ts';
import type { PlaceId } from '../../shared/ids.ts';
import { type JarKind, jarKind } from '../../shared/jar.ts';
import { poundsPerKilogram } from '../../shared/measures.ts';
import { unfitSign } from '../../shared/schemas/one-line.ts';
import { weightSaid } from '../../shared/trade-measure.ts';
import { readTypedNumber } from '../../shared/typed-number.ts';
import { addDays, type CalendarDate, calendarDate } from '../../shared/week.ts';
import type { Item } from '../../src/household/item.ts';
import type { Place } from '../../src/household/kitchen.ts';
import { latestBestQuality } from '../../src/shelf/best-quality.ts';
import { pageNames } from '../../views/words/page-names.ts';

export const dateOrders = ['year first', 'month first', 'day first'] as const;
export type DateOrder = (typeof dateOrders)[number];

/** What the dates of a list are read by. */
interface DatesRead {
  readonly dates: DateOrder;
  readonly today: CalendarDate;
}

export type Wrong = (message: string) => null;

const shown = (text: string): string => (text === '' ? 'an empty cell' : `“${text.slice(0, 40)}”`);

export const longestName = 120;
export const noName = 'The name is missing. Write what it is, or take the row out.';
export const notOneLine = (text: string): string =>
  `A name is one line without hidden characters; ${shown(text.replaceAll(/[\p{C}\u2028\u2029]/gu, '�'))} has ${unfitSign(text)?.words ?? 'another sign'}. Take it out.`;
export const nameTooLong = (text: string): string =>
  `A name may have ${longestName} letters; this one has ${text.length}: ${shown(text)}. Shorten it.`;

/** The weight a column of units says; null where it says none. */
export const weightIn = (text: string): 'lb' | 'kg' | null => {
  const { unit } = weightSaid(`1 ${text}`, '');
  return unit === 'lb' || unit === 'kg' ? unit : null;
};

/** How many, in what the item is counted in; what is weighed is in the weight of the list, or in the one behind the figure. */
export function unitsIn(text: string, item: Item | null, weight: 'lb' | 'kg', wrong: Wrong): number | null {
  const said = item?.unit === 'lb' ? weightSaid(text, weight) : { amount: text, unit: '' };
  const inPounds = said.unit === 'kg' ? poundsPerKilogram : 1;
  const read = readTypedNumber(said.amount);
  if (read.kind === 'unclear' && Math.abs(read.smaller) <= 5000)
    return wrong(
      `${shown(text)} may be ${read.larger} or ${read.smaller}. Write ${read.larger}, or ${read.smaller}0 for the other.`,
    );
  const units =
    read.kind === 'number'
      ? inPounds === 1
        ? read.value
        : Math.round(read.value * inPounds * 1e4) / 1e4
      : null;
  if (units === null || units <= 0 || units > 5000)
    return wrong(`${shown(text)} is not a number above 0 and up to 5,000. Write one.`);
  if (item !== null && item.unit !== 'lb' && item.unit !== 'bin' && !Number.isInteger(units))
    return wrong(
      `${item.name} comes by the ${item.unit}, so ${shown(text)} cannot be right. Write a whole number.`,
    );
  return units;
}

/** How many there were at first: at least as many as are left; null for an empty cell. */
export function filledIn(
  text: string,
  item: Item | null,
  { left, weight }: { readonly left: number | null; readonly weight: 'lb' | 'kg' },
  wrong: Wrong,
): number | null {
  if (text === '') return null;
  const filled = unitsIn(text, item, weight, wrong);
  if (filled === null || left === null || filled >= left) return filled;
  return wrong(
    `${left} are left, so at least ${left} were put up, not ${shown(text)}. Change one of the two, or leave the cell empty.`,
  );
}

/** Reads `2026-08-17`, `8/17/2026` or `17.8.2026`, in the order that was chosen. */
export function dateFrom(text: string, order: DateOrder): CalendarDate | null {
  const parts = /^(\d{1,4})[-./](\d{1,2})[-./](\d{1,4})$/.exec(text.trim());
  if (!parts) return null;
  const [, one = '', two = '', three = ''] = parts;
  const [year, month, day] =
    order === 'year first'
      ? [one, two, three]
      : order === 'month first'
        ? [three, one, two]
        : [three, two, one];
  const whole = year.length === 2 ? `20${year}` : year;
  const read = calendarDate.safeParse(`${whole}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`);
  return read.success ? read.data : null;
}

const likeThis: Readonly<Record<DateOrder, string>> = {
  'year first': '2026-08-17',
  'month first': '8/17/2026',
  'day first': '17.8.2026',
};

export function dayIn(text: string, { dates, today }: DatesRead, wrong: Wrong): CalendarDate | null {
  const day = dateFrom(text, dates);
  if (day === null) return wrong(`${shown(text)} is not a day. Write one like ${likeThis[dates]}.`);
  if (day > today)
    return wrong(
      `${dateWords(day)} is still to come; today is ${dateWords(today)}. Write a day up to today.`,
    );
  return day;
}

export function bestIn(
  text: string,
  item: Item | null,
  on: CalendarDate | null,
  { dates }: Pick<DatesRead, 'dates'>,
  wrong: Wrong,
): CalendarDate | null {
  if (text === '') return null;
  const day = dateFrom(text, dates);
  if (day === null)
    return wrong(`${shown(text)} is not a day. Write one like ${likeThis[dates]}, or leave the cell empty.`);
  if (item === null || on === null) return day;
  const usual = addDays(on, item.bestQualityDays);
  const latest = latestBestQuality(item, on);
  if (day >= on && day <= latest) return day;
  return item.kind === 'staple'
    ? wrong(
        `${dateWords(day)} is outside ${dateWords(on)} to ${dateWords(latest)}. Write the date that is printed on it, or leave the cell empty to take ${dateWords(usual)}.`,
      )
    : wrong(
        `${dateWords(day)} is outside ${dateWords(on)} to ${dateWords(latest)}, the ${counted(item.bestQualityDays, 'day')} after it was made. Leave the cell empty to take ${dateWords(latest)}.`,
      );
}

/** `pint/wide` as it is, `pint` as the item's own mouth. */
export function jarIn(text: string, item: Item | null, wrong: Wrong): JarKind | null {
  if (text === '') return null;
  if (item !== null && item.unit !== 'jar')
    return wrong(
      `${item.name} is not kept in jars, so ${shown(text)} means nothing here. Leave the cell empty.`,
    );
  const plain = text.toLowerCase().replace(/s$/, '').replaceAll(' ', '-');
  const mouth = item?.usualJar?.split('/')[1] ?? 'regular';
  for (const guess of [text.toLowerCase(), `${plain}/${mouth}`]) {
    const read = jarKind.safeParse(guess);
    if (read.success) return read.data;
  }
  return wrong(`${shown(text)} is not a jar. Write one like pint, half-pint or quart/wide.`);
}

export function placeIn(text: string, places: ReadonlyMap<string, Place>, wrong: Wrong): PlaceId | null {
  if (text === '') return null;
  const place = places.get(text.toLowerCase());
  if (place) return place.id;
  const known = [...places.values()].map(({ name }) => name).join(', ');
  return wrong(
    known === ''
      ? `You have no places yet, so ${shown(text)} is not known. Add it under ${pageNames.kitchen}, Places, or choose “none” as the column of places; then look again.`
      : `${shown(text)} is not one of your places. Write one of ${known}, or add it under ${pageNames.kitchen}, Places.`,
  );
}
