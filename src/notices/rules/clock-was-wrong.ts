import { addDays } from '../../../shared/week.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture } from '../notice-picture.ts';

/** So many days it is told; what was written down in the wrong time is found by then. Judged, no source. */
const toldForDays = 14;

/** The machine's clock had been ahead and went back: said once, since takes written meanwhile carry a day that has not come. */
export const clockWasWrong = ({ asOf, clockJump }: NoticePicture): Notice[] =>
  clockJump == null || asOf > addDays(clockJump.wentBackOn, toldForDays)
    ? []
    : [
        {
          kind: 'clock was wrong',
          subject: `clock:${clockJump.jumpId}`,
          reason:
            `On ${dayMark(clockJump.wentBackOn)} the clock of this computer was set back; it had run ahead, up to ${dayMark(clockJump.aheadUntil)}. ` +
            'We corrected sign-ins, notices and plans; jars you took and batches you wrote down keep their day. Look at the last ones and undo any with a wrong date.',
          dueOn: null,
        },
      ];
