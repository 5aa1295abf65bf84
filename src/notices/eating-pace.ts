import { counted } from '../../shared/counting.ts';
import { type CalendarDate, daysBetween } from '../../shared/week.ts';
import type { NoticeLot } from './notice-picture.ts';
import { amountWords } from './notice-words.ts';

/** Has the lot units left that may be eaten, now or when ready? */
export const isToEat = (lot: NoticeLot): boolean => lot.left > 0 && lot.setAside === null;

/**
 * "2 jars a week", "one every 3 weeks": the pace from today that finishes each of some lots of one food, the first to expire first,
 * on its last good day: the fastest that any of them asks for once those before it are eaten too.
 */
export function finishingPace(lots: readonly NoticeLot[], asOf: CalendarDate): string {
  let left = 0;
  const asked = lots.map((lot) => {
    left += lot.left;
    return { left, weeks: weeksLeft(lot, asOf), unit: lot.unit };
  });
  const fastest = asked.reduce((most, one) => (one.left / one.weeks > most.left / most.weeks ? one : most));
  const { weeks, unit } = fastest;
  if (weeks === 1) return `${amountWords(fastest.left, unit)} within the week`;
  const perWeek = Math.min(fastest.left, Math.ceil(fastest.left / weeks));
  if (perWeek > 1) return `${amountWords(perWeek, unit)} a week`;
  const every = Math.floor(weeks / Math.ceil(fastest.left));
  if (every <= 1) return 'one a week';
  return `one every ${counted(every, 'week')}`;
}

/** Whole weeks up to and including the last good day, at least one. */
const weeksLeft = (lot: NoticeLot, asOf: CalendarDate): number =>
  Math.max(1, Math.floor((daysBetween(asOf, lot.bestQualityUntil) + 1) / 7));
