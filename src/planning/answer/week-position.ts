import type { WeekKey } from '../../../shared/week.ts';
import { entry } from '../lookup.ts';

/** Place of a week among a year's weeks: -1 before it, its length after it. */
export function weekPosition(weeks: readonly WeekKey[], key: WeekKey): number {
  const at = weeks.indexOf(key);
  if (at >= 0) return at;
  return key < entry(weeks, 0, 'weeks') ? -1 : weeks.length;
}
