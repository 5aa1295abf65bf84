import type { CalendarDate } from '../../../shared/week.ts';
import { isToEat } from '../eating-pace.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticeLot, NoticePicture } from '../notice-picture.ts';
import { amountWords, listWords } from '../notice-words.ts';

/** What the one notice of all that is older than the household keeps anything is about. */
export const pastLimitId = 'past-limit';

/**
 * What is to be thrown away: one notice for each lot past its days in the refrigerator, and one of all lots older than the household's own
 * limit. Lots set aside have a notice of their own.
 */
export const keptTooLong = ({ asOf, lots }: NoticePicture): Notice[] => {
  const standing = lots.filter(isToEat);
  return [
    ...standing.filter((lot) => isPastItsDays(lot, asOf)).map(pastItsDays),
    ...pastLimit(standing.filter((lot) => isPastLimit(lot, asOf))),
  ];
};

/** Whether a lot is to be thrown away, and not eaten first. */
export const isKeptTooLong = (lot: NoticeLot, asOf: CalendarDate): boolean =>
  isPastItsDays(lot, asOf) || isPastLimit(lot, asOf);

const isPastItsDays = ({ neverPastDays, bestQualityUntil }: NoticeLot, asOf: CalendarDate): boolean =>
  neverPastDays === true && bestQualityUntil < asOf;

const isPastLimit = ({ keptUntil }: NoticeLot, asOf: CalendarDate): boolean =>
  keptUntil != null && keptUntil < asOf;

const lotWords = ({ left, unit, itemName, came, madeOn }: NoticeLot): string =>
  `${amountWords(left, unit)} of ${itemName} ${came} on ${dayMark(madeOn)}`;

const pastItsDays = (lot: NoticeLot): Notice => ({
  kind: 'kept too long',
  subject: `lot:${lot.lotId}`,
  reason: `Throw away: ${lotWords(lot)}. In the refrigerator it keeps until ${dayMark(lot.bestQualityUntil)}.`,
  dueOn: lot.bestQualityUntil,
});

/** `Throw away: 8 jars of Green beans put up on Aug 1, 2023. They are older than the longest you keep what you put up, …` */
const pastLimit = (lots: readonly NoticeLot[]): Notice[] => {
  const [first] = lots;
  if (first === undefined) return [];
  const isOne = lots.length === 1 && first.left <= 1;
  return [
    {
      kind: 'kept too long',
      subject: `lots:${pastLimitId}`,
      reason: `Throw away: ${listWords(lots.map(lotWords))}. ${isOne ? 'It is' : 'They are'} older than the longest you keep what you put up, as Settings, Storage has it. Write down what you threw away and plan again; if you keep such food longer, change it there.`,
      dueOn: null,
      about: [...new Set(lots.map(({ itemName }) => itemName))],
    },
  ];
};
