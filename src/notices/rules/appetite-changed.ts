import { counted } from '../../../shared/counting.ts';
import type { Notice } from '../notice.ts';
import type { NoticeItem, NoticePicture } from '../notice-picture.ts';
import { amountWords, monthsWords, paceWords, weekOfWords } from '../notice-words.ts';

/**
 * Eaten otherwise than before though nobody said why: at another pace for weeks, in one very full week, or mostly in some months. A question, with
 * no day by which it matters; of several about one item the first.
 */
export const appetiteChanged = (picture: NoticePicture): Notice[] =>
  picture.items.flatMap((item) => {
    const reason = newHabit(item) ?? fullWeek(item, picture.weekStartsOn) ?? season(item);
    if (reason === null) return [];
    return [
      {
        kind: 'appetite changed',
        subject: `item:${item.itemId}`,
        reason: `${item.itemName}: ${reason}`,
        dueOn: null,
        action: { label: 'Answer', key: 'say new habit', of: item.itemId },
      },
    ];
  });

const newHabit = ({ suspectedHabit, unit }: NoticeItem): string | null =>
  suspectedHabit === null
    ? null
    : `about ${paceWords(suspectedHabit.perWeek, unit)} over the last ${counted(suspectedHabit.weeks, 'week')} that counted, against about ${paceWords(suspectedHabit.perWeekBefore, unit)} before. If that is a new habit, say so, and what was eaten before no longer counts.`;

const fullWeek = (
  { suspectedOccasion, unit, usePerWeek }: NoticeItem,
  startsOn: NoticePicture['weekStartsOn'],
): string | null =>
  suspectedOccasion
    ? `${amountWords(suspectedOccasion.taken, unit)} were taken in ${weekOfWords(suspectedOccasion.week, startsOn)}, where about ${paceWords(usePerWeek, unit)} is usual. Was it an occasion? Until you say, it is taken for one.`
    : null;

const season = ({ suspectedSeason }: NoticeItem): string | null =>
  suspectedSeason
    ? `most of it was eaten ${monthsWords(suspectedSeason.months)}. Is it so every year? If you say so, it is planned that way from now on.`
    : null;
