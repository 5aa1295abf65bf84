import type { CalendarDate } from '../../../shared/week.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticeBatch, NoticePicture } from '../notice-picture.ts';

/**
 * A load that cannot be on its planned day: its batch was to be begun and nothing is written down, was begun too late, or
 * a wait was left too long. It stands until it is written down, moved, or the day is over.
 */
export const loadHeldBack = (picture: NoticePicture): Notice[] =>
  (picture.batches ?? []).flatMap((batch): Notice[] => {
    const reason = reasonOf(batch);
    if (reason === null) return [];
    return [
      {
        kind: 'load held back',
        subject: `batch:${batch.batchKey}`,
        reason,
        dueOn: batch.plannedOn,
      },
    ];
  });

function reasonOf(batch: NoticeBatch): string | null {
  const { name, plannedOn, loadOn, state, days } = batch;
  const missed = days.find((day) => day.state === 'missed');
  const planned = plannedOn === null ? 'its day' : dayMark(plannedOn);
  switch (state) {
    case 'not begun in time':
      return `${name} should have been started${missed === undefined ? ' by now' : ` on ${dayMark(missed.on)}`}, and nothing is written down, so it can’t be canned on ${planned}. If you did start it in time, write down when.`;
    case 'moved':
      return loadOn === null
        ? null
        : `${name}: going by what is written down, it can’t be canned on ${planned}. The nearest day is ${dayMark(loadOn)}${lastWords(batch)}.`;
    case 'spoilt':
      return `${name}: ${missed === undefined ? 'a wait was longer than its source allows' : `“${missed.what}” was to be done on ${dayMark(missed.on)} and is not written down`}. If it was done in time, write down when; otherwise don’t can this batch, throw it away.`;
    default:
      return null;
  }
}

const dayOf = (time: string): CalendarDate => time.slice(0, 10) as CalendarDate;
const lastWords = ({ fillUntil }: NoticeBatch): string =>
  fillUntil === null ? '' : `, the last ${dayMark(dayOf(fillUntil))}`;
