import { compare } from '../../../shared/compare.ts';
import { groupedBy } from '../../../shared/grouped-by.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { nearsItsDate } from '../../shelf/eat-first.ts';
import { finishingPace, isToEat } from '../eating-pace.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticeLot, NoticePicture } from '../notice-picture.ts';
import { amountWords, listWords } from '../notice-words.ts';

/** What the one notice of all foods past their date is about, and that of all foods near it. */
export const pastBestId = 'past-best';
export const nearBestId = 'near-best';
/** And that of all that is older than the household keeps anything. */
export const keptTooLongId = 'kept-too-long';

/**
 * One notice for each food with lots that have units left, from `leadDays` before the first best-quality date of them on, for as
 * long as units are left; three or more foods past their date are one notice together, three or more near it another. The date is about taste, colour and
 * texture; the notice says eat soon, and nothing else, but for what stands in the refrigerator, which is thrown away past its days,
 * and what is older than the household's own limit: all of that is one notice. Lots set aside are not to be eaten at all and have a notice of their own.
 */
export const bestByNear = (picture: NoticePicture, leadDays: number): Notice[] => {
  const { asOf } = picture;
  const near = picture.lots
    .filter((lot) => isToEat(lot) && nearsItsDate(lot, asOf, leadDays))
    .toSorted(
      (one, other) =>
        compare(one.bestQualityUntil, other.bestQualityUntil) || compare(one.lotId, other.lotId),
    );
  const isOver = (lot: NoticeLot) => lot.neverPastDays === true && lot.bestQualityUntil < asOf;
  const over = near.filter(isOver);
  const tooLong = near.filter((lot) => isTooLong(lot, asOf));
  const foods = [
    ...groupedBy(
      near.filter((lot) => !isOver(lot) && !isTooLong(lot, asOf)),
      ({ itemName, unit }) => `${itemName} ${unit.one}`,
    ).values(),
  ];
  const past = foods.filter(([first]) => first !== undefined && first.bestQualityUntil < asOf);
  const coming = foods.filter((food) => !past.includes(food));
  return [
    ...over.map(throwAway),
    ...keptTooLong(tooLong),
    ...(past.length < fewestTogether ? past.flatMap((food) => eatSoon(food, asOf)) : [pastTheirBest(past)]),
    ...(coming.length < fewestTogether
      ? coming.flatMap((food) => eatSoon(food, asOf))
      : [nearTheirBest(coming, asOf)]),
  ];
};

/** Whether a notice about a date asks to throw something away: it is not eaten first, and no list of what is eaten first has it. */
export const asksToThrowAway = ({ kind, reason }: Pick<Notice, 'kind' | 'reason'>): boolean =>
  kind === 'best by near' && reason.startsWith(`${throwAwayWords}: `);

/** What such a notice begins with. */
export const throwAwayWords = 'Throw away';

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

const throwAway = (lot: NoticeLot): Notice => ({
  kind: 'best by near',
  subject: `lot:${lot.lotId}`,
  reason: `${throwAwayWords}: ${amountWords(lot.left, lot.unit)} of ${lot.itemName} ${lot.came} on ${dayMark(lot.madeOn)}. In the refrigerator it keeps until ${dayMark(lot.bestQualityUntil)}.`,
  dueOn: lot.bestQualityUntil,
});

const isTooLong = ({ keptUntil }: NoticeLot, asOf: CalendarDate): boolean =>
  keptUntil != null && keptUntil < asOf;

/** `Throw away: 8 jars of Green beans put up on Aug 1, 2023. They are older than the longest you keep what you put up, …` */
const keptTooLong = (lots: readonly NoticeLot[]): Notice[] => {
  const amounts = lots.map(
    (lot) => `${amountWords(lot.left, lot.unit)} of ${lot.itemName} ${lot.came} on ${dayMark(lot.madeOn)}`,
  );
  const one = lots.length === 1 && total(lots) <= 1;
  return lots.length === 0
    ? []
    : [
        {
          kind: 'best by near',
          subject: `lots:${keptTooLongId}`,
          reason: `${throwAwayWords}: ${listWords(amounts)}. ${one ? 'It is' : 'They are'} older than the longest you keep what you put up, as Settings, Storage has it. Write down what you threw away and plan again; if you keep such food longer, change it there.`,
          dueOn: null,
          about: [...new Set(lots.map(({ itemName }) => itemName))],
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
