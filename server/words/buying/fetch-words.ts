import { addDays, type CalendarDate, daysBetween } from '../../../shared/week.ts';
import type { Fetch } from '../../../src/planning/days/fetch-days.ts';
import type { PlannedPurchase } from '../../../src/planning/plan.ts';
import { formatDay } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { type PlannedNames, purchaseWords } from '../planned-words.ts';

/** What can wait this long needs no first day beside its last. Judged, no source. */
const shortDays = 6;

/** A day from which something is fetched is said only while it is to come; without a today, in what stands for longer, always. */
const isAhead = (notBefore: CalendarDate, today: CalendarDate | null): boolean =>
  today === null || notBefore > today;

/** `Aug 20 or Aug 21`; `Aug 19 to Aug 21`; one day alone; `by Aug 21` once the first has come. */
export const spanWords = ({ notBefore, by }: Fetch, today: CalendarDate | null, reading: Reading): string => {
  if (notBefore !== null && notBefore < by && !isAhead(notBefore, today))
    return `by ${formatDay(by, reading)}`;
  if (notBefore === null || notBefore >= by) return formatDay(by, reading);
  const between = notBefore === addDays(by, -1) ? 'or' : 'to';
  return `${formatDay(notBefore, reading)} ${between} ${formatDay(by, reading)}`;
};

/** `not before Aug 19`: said where what is fetched earlier would not keep; null for what can wait. */
const notBeforeWords = (
  { notBefore, by }: Fetch,
  today: CalendarDate | null,
  reading: Reading,
): string | null => {
  if (notBefore === null || !isAhead(notBefore, today) || daysBetween(notBefore, by) >= shortDays)
    return null;
  return notBefore >= by
    ? `only on ${formatDay(by, reading)}`
    : `not before ${formatDay(notBefore, reading)}`;
};

/** From which day a line is fetched, and which part of it on which later days: `not before Aug 19; of it 20 lb Aug 28 or Aug 29`. */
export const fetchWords = (
  [first, ...later]: readonly [Fetch, ...Fetch[]],
  quantityWords: (quantity: number) => string,
  today: CalendarDate | null,
  reading: Reading,
): string | null => {
  const parts = [
    notBeforeWords(first, today, reading),
    ...later.map((fetch) => `${quantityWords(fetch.quantity)} of it ${spanWords(fetch, today, reading)}`),
  ].filter((words) => words !== null);
  return parts.length === 0 ? null : parts.join('; ');
};

/** `Pick there, by Aug 14`: what is fetched by a later day than the rest of its list says so. */
export const whereAndLater = (
  where: string,
  { by, usual }: { readonly by: CalendarDate; readonly usual: CalendarDate },
  reading: Reading,
): string => {
  const day = formatDay(by, reading);
  return by <= usual || where.includes(day) ? where : `${where}, by ${day}`;
};

/** A part of a purchase. */
export const partOf = (purchase: PlannedPurchase, quantity: number): PlannedPurchase => ({
  ...purchase,
  quantity,
  packs: null,
});

/** Where a line is had, with the days on which it is fetched where it would not keep: `Pick there, not before Aug 19`. */
export const whereAndWhen = (
  purchase: PlannedPurchase,
  ways: readonly [Fetch, ...Fetch[]],
  names: PlannedNames,
  today: CalendarDate | null,
): string => {
  const { where } = purchaseWords(names, purchase);
  const quantity = (part: number) => purchaseWords(names, partOf(purchase, part)).amount;
  const days = fetchWords(ways, quantity, today, names.reading);
  return days === null ? where : `${where}, ${days}`;
};
