import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticeBatch, NoticePicture } from '../notice-picture.ts';

/**
 * What was begun and has only its wait before it: from when to when its jars may be filled, from `leadDays` before the first
 * day until the batch is canned or thrown away.
 */
export const mayBeCanned = (picture: NoticePicture, leadDays: number): Notice[] =>
  (picture.batches ?? []).flatMap((batch): Notice[] => {
    const { fillFrom } = batch;
    if (!batch.isBegun || fillFrom === null || batch.loadOn === null) return [];
    if (batch.days.some(({ state, waits }) => state !== 'done' && waits)) return [];
    if (picture.asOf < addDays(dayOf(fillFrom), -leadDays)) return [];
    return [
      {
        kind: 'may be canned',
        subject: `batch:${batch.batchKey}`,
        reason: `${batch.name} may be canned ${whenWords(batch, dayOf(fillFrom), picture.asOf)}.${plannedWords(batch)}`,
        dueOn: batch.fillUntil === null ? batch.loadOn : dayOf(batch.fillUntil),
      },
    ];
  });

const dayOf = (time: string): CalendarDate => time.slice(0, 10) as CalendarDate;

const whenWords = ({ fillUntil }: NoticeBatch, from: CalendarDate, asOf: CalendarDate): string => {
  const since = from <= asOf ? 'now' : `from ${dayMark(from)}`;
  if (fillUntil === null) return since;
  const until = dayOf(fillUntil);
  if (until === from) return `on ${dayMark(from)} only`;
  return `${since}, until ${dayMark(until)}`;
};

const plannedWords = ({ plannedOn, loadOn }: NoticeBatch): string =>
  plannedOn !== null && plannedOn === loadOn ? ` The load is planned for ${dayMark(plannedOn)}.` : '';
