import type { CalendarDate } from '../../../shared/week.ts';
import { nearsItsDate } from '../../shelf/eat-first.ts';
import { isToEat, paceWords } from '../eating-pace.ts';
import type { Notice } from '../notice.ts';
import type { NoticeLot, NoticePicture } from '../notice-picture.ts';
import { amountWords, dateWords } from '../notice-words.ts';

/**
 * One notice for each lot with units left, from `leadDays` before its best-quality date on, for as long as units are left.
 * The date is about taste, colour and texture; the notice says eat soon, and nothing else. Lots set aside are not to be
 * eaten at all and have a notice of their own.
 */
export const bestByNear = (picture: NoticePicture, leadDays: number): Notice[] =>
  picture.lots
    .filter((lot) => isToEat(lot) && nearsItsDate(lot, picture.asOf, leadDays))
    .map((lot) => ({
      kind: 'best by near',
      subject: `lot:${lot.lotId}`,
      reason: `${what(lot)} ${until(lot, picture.asOf)}`,
      dueOn: lot.bestQualityUntil,
      action: { label: 'Take one', key: 'eat from lot', of: lot.lotId },
    }));

const what = (lot: NoticeLot): string =>
  `Eat soon: ${amountWords(lot.left, lot.unit)} of ${lot.itemName} ${lot.came} on ${dateWords(lot.madeOn)}${
    lot.place === null ? '' : ` (${lot.place})`
  }.`;

function until(lot: NoticeLot, asOf: CalendarDate): string {
  const date = dateWords(lot.bestQualityUntil);
  if (lot.readyFrom > asOf) return `Ready from ${dateWords(lot.readyFrom)}, at its best until ${date}.`;
  return asOf > lot.bestQualityUntil
    ? `At its best until ${date}; taste and color fade from there, so eat these first.`
    : `At its best until ${date}: ${paceWords(lot, asOf)} finishes it by then.`;
}
