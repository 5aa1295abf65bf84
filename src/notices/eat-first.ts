import { compare } from '../../shared/compare.ts';
import { addDays, type CalendarDate, daysBetween } from '../../shared/week.ts';
import type { NoticeLot } from './notice-picture.ts';
import { amountWords } from './notice-words.ts';

export interface EatFirst {
  readonly lotId: string;
  readonly itemName: string;
  /** Units to eat this week so that the lot is finished by its date; all that is left once the date has passed. */
  readonly thisWeek: number;
  readonly left: number;
  readonly bestQualityUntil: CalendarDate;
}

/**
 * What to eat this week first: every lot that may be eaten and whose best-quality date is at most `leadDays` away, the
 * earliest date first, each with the units a week that finish it in time. Lots not ready or set aside are left out.
 */
export const eatFirst = (
  lots: readonly NoticeLot[],
  asOf: CalendarDate,
  leadDays: number,
): readonly EatFirst[] =>
  lots
    .filter((lot) => isToEat(lot) && lot.readyFrom <= asOf && isNear(lot, asOf, leadDays))
    .map((lot) => ({
      lotId: lot.lotId,
      itemName: lot.itemName,
      thisWeek: unitsAWeek(lot, asOf),
      left: lot.left,
      bestQualityUntil: lot.bestQualityUntil,
    }))
    .sort(
      (one, other) =>
        compare(one.bestQualityUntil, other.bestQualityUntil) || compare(one.lotId, other.lotId),
    );

/** Has the lot units left that may be eaten, now or when ready? */
export const isToEat = (lot: NoticeLot): boolean => lot.left > 0 && lot.setAside === null;

/** Has the lot's lead time begun? */
export const isNear = (lot: NoticeLot, asOf: CalendarDate, leadDays: number): boolean =>
  asOf >= addDays(lot.bestQualityUntil, -leadDays);

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
