import { compare } from '../../../shared/compare.ts';
import { dateWords } from '../../../shared/date-words.ts';
import { groupedBy } from '../../../shared/grouped-by.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { nearsItsDate } from '../../shelf/eat-first.ts';
import { finishingPace, isToEat } from '../eating-pace.ts';
import type { Notice } from '../notice.ts';
import type { NoticeLot, NoticePicture } from '../notice-picture.ts';
import { amountWords, listWords } from '../notice-words.ts';

/** What the one notice of all foods past their date is about. */
export const pastBestId = 'past-best';

/**
 * One notice for each food with lots that have units left, from `leadDays` before the first best-quality date of them on, for as
 * long as units are left; three or more foods past their date are one notice together. The date is about taste, colour and
 * texture; the notice says eat soon, and nothing else. Lots set aside are not to be eaten at all and have a notice of their own.
 */
export const bestByNear = (picture: NoticePicture, leadDays: number): Notice[] => {
  const { asOf } = picture;
  const near = picture.lots
    .filter((lot) => isToEat(lot) && nearsItsDate(lot, asOf, leadDays))
    .toSorted(
      (one, other) =>
        compare(one.bestQualityUntil, other.bestQualityUntil) || compare(one.lotId, other.lotId),
    );
  const foods = [...groupedBy(near, ({ itemName, unit }) => `${itemName} ${unit.one}`).values()];
  const past = foods.filter(([first]) => first !== undefined && first.bestQualityUntil < asOf);
  const together = past.length < fewestTogether ? [] : past;
  return [
    ...(together.length === 0 ? [] : [pastTheirBest(together)]),
    ...foods.filter((food) => !together.includes(food)).flatMap((food) => eatSoon(food, asOf)),
  ];
};

/** So many foods past their date are said in one line: each asks for the same. Judged, no source. */
const fewestTogether = 3;

const pastTheirBest = (foods: readonly (readonly NoticeLot[])[]): Notice => ({
  kind: 'best by near',
  subject: `lots:${pastBestId}`,
  reason: `Eat soon: ${listWords(foods.map(foodWords))}. They are past their best; flavor and color fade after that, so eat these first.`,
  dueOn: null,
  action: { label: 'See what to eat first', key: 'see what to eat first', of: '' },
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
      action: { label: 'Take one', key: 'eat from lot', of: first.lotId },
    },
  ];
};

const what = (lot: NoticeLot): string =>
  `Eat soon: ${amountWords(lot.left, lot.unit)} of ${lot.itemName} ${lot.came} on ${dateWords(lot.madeOn)}${
    lot.place === null ? '' : ` (${lot.place})`
  }.`;

function until(lot: NoticeLot, asOf: CalendarDate): string {
  const date = dateWords(lot.bestQualityUntil);
  if (lot.readyFrom > asOf) return `Ready from ${dateWords(lot.readyFrom)}, at its best until ${date}.`;
  return asOf > lot.bestQualityUntil
    ? `At its best until ${date}; flavor and color fade after that, so eat these first.`
    : `At its best until ${date}: ${finishingPace([lot], asOf)} finishes it by then.`;
}

/** `Eat soon: 6 jars of Tomato sauce, at their best until May 31, 2026 (2 jars) and Jun 11, 2026 (4 jars).` */
function severalWords(lots: readonly NoticeLot[], asOf: CalendarDate): string {
  const dates = [...groupedBy(lots, ({ bestQualityUntil }) => bestQualityUntil)].map(
    ([date, ofDate]) => `${dateWords(date)} (${amountWords(total(ofDate), ofDate[0]?.unit ?? noUnit)})`,
  );
  const begins = `Eat soon: ${foodWords(lots)}, at their best until ${listWords(dates)}`;
  const isPast = lots.some(({ bestQualityUntil }) => bestQualityUntil < asOf);
  if (isPast) return `${begins}; flavor and color fade after that, so eat the oldest first.`;
  const ready = lots.filter(({ readyFrom }) => readyFrom <= asOf);
  return ready.length < lots.length
    ? `${begins}.`
    : `${begins}: ${finishingPace(lots, asOf)} finishes them by then.`;
}

const noUnit = { one: 'unit', many: 'units' };
