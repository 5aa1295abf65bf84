import type { WeekKey } from '../../../shared/week.ts';
import { firstDayOf, formatDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** `week of Dec 20, 2026` */
export const weekWithYear = (week: WeekKey, reading: Reading): string =>
  `week of ${formatDate(firstDayOf(week, reading), reading)}`;
