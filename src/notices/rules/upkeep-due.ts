import { counted } from '../../../shared/counting.ts';
import { addDays } from '../../../shared/week.ts';
import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture } from '../notice-picture.ts';

/**
 * Upkeep that is due within `leadDays` or past it, of what was done before. The check of a dial gauge has its own notice; what was
 * never written down is shown on the page alone.
 */
export const upkeepDue = ({ upkeep = [], asOf }: NoticePicture, leadDays: number): Notice[] =>
  upkeep.flatMap(({ key, kind, device, name, everyMonths, last, dueOn }): Notice[] => {
    if (kind === 'gauge' || last === null || dueOn === null || asOf < addDays(dueOn, -leadDays)) return [];
    const reason =
      kind === 'water'
        ? `You filled the water you keep for an emergency on ${dayMark(last)}; a public guide replaces it every ${counted(everyMonths ?? 0, 'month')}.`
        : name === null
          ? `${device} was last looked over on ${dayMark(last)}; once a year, before the season, is what a guide asks for.`
          : `${device}: ${name}. You last did it on ${dayMark(last)}, and do it every ${counted(everyMonths ?? 0, 'month')}.`;
    return [
      {
        kind: 'upkeep due',
        subject: `upkeep:${key}`,
        reason,
        dueOn,
      },
    ];
  });
