import { addDays } from '../../../shared/week.ts';
import { dialCheckDays } from '../../preserving/canner.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture } from '../notice-picture.ts';
import { dateWords } from '../notice-words.ts';

/**
 * A dial gauge whose check ends within `leadDays`, has ended, or was never made. Yearly check: USDA Complete Guide 1,
 * p1-20, as `cannerTroubles` has it. A weighted gauge needs none.
 */
export const gaugeCheck = (picture: NoticePicture, leadDays: number): Notice[] =>
  picture.canners.flatMap(({ cannerId, name, gauge, gaugeCheckedOn }) => {
    if (gauge !== 'dial') return [];
    const dueOn = gaugeCheckedOn === null ? null : addDays(gaugeCheckedOn, dialCheckDays);
    if (dueOn !== null && picture.asOf < addDays(dueOn, -leadDays)) return [];
    const reason =
      gaugeCheckedOn === null || dueOn === null
        ? `The dial gauge of ${name} has no recorded check. Until it is checked no pressure schedule is given for it.`
        : `The dial gauge of ${name} was last checked on ${dateWords(gaugeCheckedOn)}. ` +
          `Have it checked by ${dateWords(dueOn)}; after that no pressure schedule is given for it.`;
    return [
      {
        kind: 'gauge check',
        subject: `canner:${cannerId}`,
        reason,
        dueOn,
        action: { label: 'Record a check', key: 'record gauge check', of: cannerId },
      },
    ];
  });
