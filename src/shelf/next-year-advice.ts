import type { DiscardReason } from '../../shared/schemas/shelf/take.ts';
import type { ItemAccount } from './account.ts';

export interface NextYearAdvice {
  readonly advice: 'make more' | 'make less' | 'make the same' | 'cannot say';
  /** Units to supply next year; null when nothing can be said. */
  readonly supplyUnits: number | null;
  /** One sentence: the figures behind it. */
  readonly because: string;
}

/** Fewer days with any on the shelf say too little about a year's appetite. Judged, no source. */
const leastDaysWithStock = 56;

/** A difference within this share of the year's supply, or below one unit, is not worth changing. Judged, no source. */
const sameWithin = 0.1;

/** Thrown away because there was too much of it; a failed seal or a broken jar says nothing about appetite. */
const tooMuch: readonly DiscardReason[] = ['past-best', 'taste'];

/**
 * More, less or the same next year, from what became of an item over about a year.
 *
 * next year's supply (units) = eaten / days with any on the shelf · days + given away + what was lost for other reasons than
 * age or taste, to the nearest unit. It is held against what came this year (put up, bought, received): more or less when
 * they differ by more than a tenth and by at least one unit.
 *
 * Cannot say below 56 days with any on the shelf.
 * Example: 22 eaten, none for 73 of 365 days, 22 put up: 27.5 would have been eaten, so make 28.
 */
export function nextYearAdvice(account: ItemAccount): NextYearAdvice {
  const daysWith = account.days - account.daysWithout;
  if (daysWith < leastDaysWithStock) {
    return {
      advice: 'cannot say',
      supplyUnits: null,
      because: `Only ${inDays(daysWith)} with any on the shelf; ${leastDaysWithStock} are needed to judge.`,
    };
  }
  const wouldEat = (account.eaten / daysWith) * account.days;
  const failed = unitsThrown(account, (reason) => !isTooMuch(reason));
  const supplied = account.putUp + account.bought + account.received;
  const supply = Math.max(0, Math.round(wouldEat + account.given + failed));
  const difference = supply - supplied;
  const same = Math.abs(difference) < 1 || Math.abs(difference) <= sameWithin * supplied;
  return {
    advice: same ? 'make the same' : difference > 0 ? 'make more' : 'make less',
    supplyUnits: same ? Math.round(supplied) : supply,
    because: sentence(account, wouldEat, supplied),
  };
}

const isTooMuch = (reason: string): boolean => tooMuch.some((known) => known === reason);

const unitsThrown = (account: ItemAccount, counts: (reason: string) => boolean): number =>
  account.thrownAway.filter((thrown) => counts(thrown.reason)).reduce((sum, thrown) => sum + thrown.units, 0);

function sentence(account: ItemAccount, wouldEat: number, supplied: number): string {
  const parts = [`${shown(account.eaten)} eaten`];
  if (account.daysWithout > 0) {
    parts.push(`none for ${inDays(account.daysWithout)}, or about ${shown(wouldEat)} would have been`);
  }
  if (account.given > 0) parts.push(`${shown(account.given)} given away`);
  const wasted = unitsThrown(account, isTooMuch);
  if (wasted > 0) parts.push(`${shown(wasted)} thrown away for age or taste`);
  return `${parts.join(', ')}; ${shown(supplied)} came to the shelf, ${shown(account.closing)} ${shown(account.closing) === '1' ? 'is' : 'are'} left.`;
}

const inDays = (days: number): string => `${days} ${days === 1 ? 'day' : 'days'}`;

const shown = (units: number): string => String(Math.round(units * 10) / 10);
