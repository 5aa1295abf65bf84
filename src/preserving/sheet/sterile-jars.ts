import type { Schedule } from '../lookup/schedule.ts';

const leastMinutesUnsterilized = 10;
const boilMinutes = 10;
const feetPerExtraMinute = 1000;

/**
 * Whether the empty jars are boiled first: where the printed style says so, and in boiling water or steam wherever the
 * process itself is under 10 minutes. Jars for a pressure canner are not boiled first unless the style says so.
 *
 * Source: USDA Complete Guide 1, p1-14.
 */
export const needsSterileJars = ({
  sterileJars,
  method,
  minutes,
}: Pick<Schedule, 'sterileJars' | 'method' | 'minutes'>): boolean =>
  sterileJars || (method !== 'pressure' && minutes < leastMinutesUnsterilized);

/**
 * Minutes for which empty jars are boiled: 10 below 1,000 ft, and a minute more for each 1,000 ft. The guide does not
 * say how a begun 1,000 ft counts; it counts whole, which only boils longer.
 *
 * Example: 16 minutes at 5,300 ft. Source: USDA Complete Guide 1, p1-15.
 */
export const sterilizingMinutes = (altitudeFt: number): number =>
  altitudeFt < feetPerExtraMinute ? boilMinutes : boilMinutes + Math.ceil(altitudeFt / feetPerExtraMinute);
