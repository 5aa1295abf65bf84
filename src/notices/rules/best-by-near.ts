import { compare } from '../../../shared/compare.ts';
import { groupedBy } from '../../../shared/grouped-by.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { nearsItsDate } from '../../shelf/eat-first.ts';
import { finishingPace, isToEat } from '../eating-pace.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticeLot, NoticePicture } from '../notice-picture.ts';
import { amountWords, listWords } from '../notice-words.ts';
import { isKeptTooLong } from './kept-too-long.ts';

/** What the one notice of all foods past their date is about, and that of all foods near it. */
export const pastBestId = 'past-best';
export const nearBestId = 'near-best';

/**
 * One notice for each food with lots that have units left, from `leadDays` before the first best-quality date of them on, for as
 * long as units are left; three or more foods past their date are one notice together, three or more near it another. The date is about taste, colour and
 * texture; the notice says eat soon, and nothing else. What is kept too long and what is set aside is not to be eaten at all and has a notice of its own.
 */
export const bestByNear = (picture: NoticePicture, leadDays: number): Notice[] => {
  const { asOf } = picture;
  const near = picture.lots
    .filter((lot) => isToEat(lot) && !isKeptTooLong(lot, asOf) && nearsItsDate(lot, asOf, leadDays))
    .toSorted(
      (one, other) =>
        compare(one.bestQualityUntil, other.bestQualityUntil) || compare(one.lotId, other.lotId),
    );
  const foods = [...groupedBy(near, ({ itemName, unit }) => `${itemName} ${unit.one}`).values()];
  const past = foods.filter(([first]) => first !== undefined && first.bestQualityUntil < asOf);
  const coming = foods.filter((food) => !past.includes(food));
  return [
    ...(past.length < fewestTogether ? past.flatMap((food) => eatSoon(food, asOf)) : [pastTheirBest(past)]),
    ...(coming.length < fewestTogether
      ? coming.flatMap((food) => eatSoon(food, asOf))
      : [nearTheirBest(coming, asOf)]),
  ];
};

/** So many foods are said in one line: each asks for the same. Judged, no source. */
const fewestTogether = 3;

const namesOf = (foods: readonly (readonly NoticeLot[])[]): string[] =>
  foods.flatMap(([first]) => (first === undefined ? [] : [first.itemName]));

/** `Eat soon: 11 jars of Crushed tomatoes, the first by Aug 20, 2026 (5 jars a week), and 1 jar of Pear halves by Aug 23, 2026.` */
const nearTheirBest = (foods: readonly (readonly NoticeLot[])[], asOf: CalendarDate): Notice => ({
  kind: 'best by near',
  subject: `lots:${nearBestId}`,
  reason: `Eat soon: ${foods.map((food) => nearWords(food, asOf)).join('; ')}.`,
  dueOn: foods[0]?.[0]?.bestQualityUntil ?? null,
  about: namesOf(foods),
});

function nearWords(lots: readonly NoticeLot[], asOf: CalendarDate): string {
  const [first] = lots;
  if (first === undefined) return '';
  const isOneDate = lots.every(({ bestQualityUntil }) => bestQualityUntil === first.bestQualityUntil);
  const by = `${isOneDate ? 'by' : 'the first by'} ${dayMark(first.bestQualityUntil)}`;
  const pace = lots.every(({ readyFrom }) => readyFrom <= asOf) ? ` (${finishingPace(lots, asOf)})` : '';
  return `${foodWords(lots)}${isOneDate ? '' : ','} ${by}${pace}`;
}

const pastTheirBest = (foods: readonly (readonly NoticeLot[])[]): Notice => ({
  kind: 'best by near',
  subject: `lots:${pastBestId}`,
  reason: `Eat soon: ${listWords(foods.map(foodWords))}. They are past their best, and their flavor and color are fading: eat these first.`,
  dueOn: null,
  about: namesOf(foods),
});

const total = (lots: readonly NoticeLot[]): number => lots.reduce((sum, { left }) => sum + left, 0);

const foodWords = (lots: readonly NoticeLot[]): string => {
  const [first] = lots;
  return first === undefined ? '' : `${amountWords(total(lots), first.unit)} of ${first.itemName}`;
};

const eatSoon = (lots: readonly NoticeLot[], asOf: CalendarDate): Notice[] => {
  const [first] = lots;
  if (first === undefined) return [];
  return [
    {
      kind: 'best by near',
      subject: `lot:${first.lotId}`,
      reason: lots.length === 1 ? `${what(first)} ${until(first, asOf)}` : severalWords(lots, asOf),
      dueOn: first.bestQualityUntil,
    },
  ];
};

const what = (lot: NoticeLot): string =>
  `Eat soon: ${amountWords(lot.left, lot.unit)} of ${lot.itemName} ${lot.came} on ${dayMark(lot.madeOn)}${
    lot.place === null ? '' : ` (${lot.place})`
  }.`;

/** One jar, or pounds of something, is `it`. */
const itOrThem = ({ left, unit }: NoticeLot): string => (left <= 1 || unit.one === unit.many ? 'it' : 'them');

function until(lot: NoticeLot, asOf: CalendarDate): string {
  const date = dayMark(lot.bestQualityUntil);
  if (lot.readyFrom > asOf) return `Ready from ${dayMark(lot.readyFrom)}, best until ${date}.`;
  return asOf > lot.bestQualityUntil
    ? `Best until ${date}. Flavor and color fade after that, so eat ${itOrThem(lot)} first.`
    : `Best until ${date}. Eat ${finishingPace([lot], asOf)} to finish ${itOrThem(lot)} by then.`;
}

/** `Eat soon: 6 jars of Tomato sauce, at their best until May 31, 2026 (2 jars) and Jun 11, 2026 (4 jars).` */
function severalWords(lots: readonly NoticeLot[], asOf: CalendarDate): string {
  const dates = [...groupedBy(lots, ({ bestQualityUntil }) => bestQualityUntil)].map(
    ([date, ofDate]) => `${dayMark(date)} (${amountWords(total(ofDate), ofDate[0]?.unit ?? noUnit)})`,
  );
  const begins = `Eat soon: ${foodWords(lots)}, at their best until ${listWords(dates)}`;
  const isPast = lots.some(({ bestQualityUntil }) => bestQualityUntil < asOf);
  if (isPast) return `${begins}. Flavor and color fade after that, so eat the oldest first.`;
  const ready = lots.filter(({ readyFrom }) => readyFrom <= asOf);
  return ready.length < lots.length
    ? `${begins}.`
    : `${begins}. Eat ${finishingPace(lots, asOf)} to finish them by then.`;
}

const noUnit = { one: 'unit', many: 'units' };
