import { addDays } from '../../../shared/week.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticeBatch, NoticePicture } from '../notice-picture.ts';

/**
 * The next thing to do by hand before a canner load: the soak to begin, the brine to drain. From `leadDays` before its day
 * until it is written down or the day is over. One notice a batch and stage, the next one only.
 */
export const stageDue = (picture: NoticePicture, leadDays: number): Notice[] =>
  (picture.batches ?? []).flatMap((batch): Notice[] => {
    const next = batch.days.find(({ state }) => state !== 'done');
    if (next === undefined || batch.loadOn === null) return [];
    if (picture.asOf < addDays(next.on, -leadDays) || picture.asOf > next.on) return [];
    return [
      {
        kind: 'stage due',
        subject: `batch:${batch.batchKey}:${next.position}`,
        reason: `${batch.name}, on ${dayMark(next.on)}: ${next.what}. ${forLoad(batch)}`,
        dueOn: next.on,
      },
    ];
  });

const forLoad = ({ loadOn }: NoticeBatch): string =>
  loadOn === null ? '' : `You can it on ${dayMark(loadOn)}.`;
