import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { dialCheckDays } from '../../preserving/canner.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticeCanner, NoticePicture } from '../notice-picture.ts';
import { listWords } from '../notice-words.ts';

/**
 * A dial gauge whose check ends within `leadDays`, has ended, or was never made. Yearly check: USDA Complete Guide 1,
 * p1-20, as `cannerTroubles` has it. A weighted gauge needs none. It is due the day before the first canning day that the
 * plan has without a check on record; where there is none, on the last day the old one counts.
 */
export const gaugeCheck = (picture: NoticePicture, leadDays: number): Notice[] =>
  picture.canners.flatMap((canner) => {
    const { cannerId, name, gauge, gaugeCheckedOn } = canner;
    if (gauge !== 'dial') return [];
    const dueOn = gaugeCheckedOn === null ? null : addDays(gaugeCheckedOn, dialCheckDays);
    if (dueOn !== null && picture.asOf < addDays(dueOn, -leadDays)) return [];
    const reason =
      gaugeCheckedOn === null || dueOn === null
        ? `No check of the dial gauge of ${name} is written down. Until it has been checked, we give no pressure for it.`
        : `The dial gauge of ${name} was last checked on ${dayMark(gaugeCheckedOn)}. ` +
          whenWords(canner, dueOn, picture.asOf);
    return [
      {
        kind: 'gauge check',
        subject: `canner:${cannerId}`,
        reason,
        dueOn: neededBy(canner, dueOn),
      },
    ];
  });

const neededBy = ({ checkNeededFor }: NoticeCanner, lastDay: CalendarDate | null): CalendarDate | null =>
  checkNeededFor ? addDays(checkNeededFor.on, -1) : lastDay;

const whenWords = ({ checkNeededFor }: NoticeCanner, lastDay: CalendarDate, asOf: CalendarDate): string => {
  if (checkNeededFor)
    return (
      `The plan counts on a new check before ${dayMark(checkNeededFor.on)}, for ${listWords(checkNeededFor.makes)}: ` +
      `until it is written down, that canning day shows no time.`
    );
  return lastDay < asOf
    ? `That counted until ${dayMark(lastDay)}. Until a new check is written down, we give no pressure for it.`
    : `Have it checked by ${dayMark(lastDay)}; after that, we give no pressure for it.`;
};
