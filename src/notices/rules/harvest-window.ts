import { counted } from '../../../shared/counting.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture, NoticeWindow } from '../notice-picture.ts';
import { atStart, listWords } from '../notice-words.ts';

/** A harvest the plan counts on begins within `leadDays`; the notice stands until the day it begins. */
export const harvestOpens = (picture: NoticePicture, leadDays: number): Notice[] =>
  picture.windows
    .filter((window) => isWanted(window) && isWithin(picture.asOf, window.beginsOn, leadDays))
    .map((window) =>
      harvestNotice(
        'harvest opens',
        window,
        window.beginsOn,
        `${harvestName(window)} start about ${dayMark(window.beginsOn)}${shift(window)}. ` +
          `You plan to make ${listWords(window.wantedFor)} from them.`,
      ),
    );

/** A harvest with something still to make from it ends within `leadDays`. */
export const harvestCloses = (picture: NoticePicture, leadDays: number): Notice[] =>
  picture.windows
    .filter(
      (window) =>
        isWanted(window) &&
        window.beginsOn <= picture.asOf &&
        isWithin(picture.asOf, lastDay(window), leadDays),
    )
    .map((window) =>
      harvestNotice(
        'harvest closes',
        window,
        lastDay(window),
        `${harvestName(window)} end about ${dayMark(lastDay(window))}${shift(window)}. ` +
          `Still to make: ${listWords(window.wantedFor)}.`,
      ),
    );

/** `Tomatoes from Long bed`; a source that is named for its crop needs no second naming: `Peaches at the market`. */
const harvestName = ({ cropName, sourceName }: NoticeWindow): string =>
  sourceName.toLowerCase().includes(cropName.toLowerCase())
    ? atStart(sourceName)
    : `${atStart(cropName)} from ${sourceName}`;

const isWanted = (window: NoticeWindow): boolean => window.wantedFor.length > 0;

const lastDay = (window: NoticeWindow): CalendarDate => addDays(window.endsOn, -1);

const isWithin = (asOf: CalendarDate, day: CalendarDate, leadDays: number): boolean =>
  asOf <= day && day <= addDays(asOf, leadDays);

/** ", 9 days earlier than usual this year". */
function shift({ shiftDays }: NoticeWindow): string {
  const days = Math.abs(shiftDays);
  if (days === 0) return '';
  return `, ${counted(days, 'day')} ${shiftDays < 0 ? 'earlier' : 'later'} than usual this year`;
}

const harvestNotice = (
  kind: 'harvest opens' | 'harvest closes',
  window: NoticeWindow,
  dueOn: CalendarDate,
  reason: string,
): Notice => ({
  kind,
  subject: `source:${window.sourceId}:${window.year}`,
  reason,
  dueOn,
});
