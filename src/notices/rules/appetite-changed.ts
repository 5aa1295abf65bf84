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
      },
    ];
  });

const newHabit = ({ suspectedHabit, unit }: NoticeItem): string | null =>
  suspectedHabit === null
    ? null
    : `you ate about ${paceWords(suspectedHabit.perWeek, unit)} over the last ${counted(suspectedHabit.weeks, 'week')} that counted, against about ${paceWords(suspectedHabit.perWeekBefore, unit)} before. If that is a new habit, say so, and what you ate before no longer counts.`;

const fullWeek = (
  { suspectedOccasion, unit, usePerWeek }: NoticeItem,
  startsOn: NoticePicture['weekStartsOn'],
): string | null =>
  suspectedOccasion
    ? `you took ${amountWords(suspectedOccasion.taken, unit)} in ${weekOfWords(suspectedOccasion.week, startsOn)}, and about ${paceWords(usePerWeek, unit)} is usual. Was it an occasion? Until you say, we assume it was.`
    : null;

const season = ({ suspectedSeason }: NoticeItem): string | null =>
  suspectedSeason
    ? `you ate most of it ${monthsWords(suspectedSeason.months)}. Is it like that every year? If you say so, the plan counts on it from now on.`
    : null;
