import { type CalendarDate, daysBetween } from '../../shared/week.ts';
import type { NoticeLot } from './notice-picture.ts';
import { amountWords } from './notice-words.ts';

/** Has the lot units left that may be eaten, now or when ready? */
export const isToEat = (lot: NoticeLot): boolean => lot.left > 0 && lot.setAside === null;

/** "2 jars a week", "one every 3 weeks": the pace from today that finishes the lot on its last good day. */
export function paceWords(lot: NoticeLot, asOf: CalendarDate): string {
  const weeks = weeksLeft(lot, asOf);
  if (weeks === 1) return `${amountWords(lot.left, lot.unit)} within the week`;
  const perWeek = unitsAWeek(lot, asOf);
  if (perWeek > 1) return `${amountWords(perWeek, lot.unit)} a week`;
  const every = Math.floor(weeks / Math.ceil(lot.left));
  return every > 1 ? `one every ${every} weeks` : 'one a week';
}

const unitsAWeek = (lot: NoticeLot, asOf: CalendarDate): number =>
  Math.min(lot.left, Math.ceil(lot.left / weeksLeft(lot, asOf)));

/** Whole weeks up to and including the last good day, at least one. */
const weeksLeft = (lot: NoticeLot, asOf: CalendarDate): number =>
  Math.max(1, Math.floor((daysBetween(asOf, lot.bestQualityUntil) + 1) / 7));
