import type { Notice } from '../notice.ts';
import type { NoticePicture } from '../notice-picture.ts';
import { paceWords } from '../notice-words.ts';

/** Eaten at another pace than before for weeks, though nobody said that a habit changed: a question, with no day by which it matters. */
export const appetiteChanged = (picture: NoticePicture): Notice[] =>
  picture.items.flatMap(({ itemId, itemName, unit, suspectedHabit }) => {
    if (suspectedHabit === null) return [];
    const { perWeekBefore, perWeek, weeks } = suspectedHabit;
    return [
      {
        kind: 'appetite changed',
        subject: `item:${itemId}`,
        reason: `${itemName}: about ${paceWords(perWeek, unit)} over the last ${weeks} weeks that counted, against about ${paceWords(perWeekBefore, unit)} before. If that is a new habit, say so, and what was eaten before no longer counts.`,
        dueOn: null,
        action: { label: 'Say whether it changed', key: 'say new habit', of: itemId },
      },
    ];
  });
