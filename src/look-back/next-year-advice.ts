import { counted, isOrAre } from '../../shared/counting.ts';
import type { DiscardReason } from '../../shared/schemas/shelf/take.ts';
import type { Item } from '../household/item.ts';
import type { YearWalk } from '../planning/year/year-walk.ts';
import type { ItemAccount } from '../shelf/account.ts';

/** An amount of the item as its readers write it, without its unit. */
type Figure = (units: number) => string;

export interface NextYearAdvice {
  /** What to make, or buy, of it against this year; null where nothing can be said. */
  readonly advice: 'more' | 'less' | 'the same' | null;
  /** What a year needs by use and reserve, as its walk has it; null when nothing can be said. */
  readonly needUnits: number | null;
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
 * More, less or the same next year: what came this year (put up, bought, received) held against what a year uses up, by the
 * walk from need to missing, which knows all that was eaten and for how long there was none. More or less when they differ by
 * more than a tenth and by at least one unit. No figure of its own: the need is the walk's.
 *
 * Cannot say below 56 days with any on the shelf, nor for what is no longer kept or nobody eats.
 * Example: 22 put up, a year needs 32 with 4 in reserve: it uses up 28, so make more.
 */
export function nextYearAdvice(
  account: ItemAccount,
  walk: YearWalk | null,
  item: Pick<Item, 'unit'>,
  figure: Figure = (units) => String(item.unit === 'lb' ? tenths(units) : Math.round(units)),
): NextYearAdvice {
  const cannotSay = (because: string): NextYearAdvice => ({
    advice: null,
    needUnits: null,
    because,
  });
  if (account.days < leastDaysWithStock)
    return cannotSay(
      account.days < 1
        ? `Nothing of it was written down when it happened: what was entered later says nothing of how it is eaten.`
        : `What happens to it has been written down for only ${counted(account.days, 'day')}; ${leastDaysWithStock} are needed to judge.`,
    );
  const daysWith = account.days - account.daysWithout;
  if (daysWith < leastDaysWithStock)
    return cannotSay(
      `Only ${counted(daysWith, 'day')} with any on the shelf; ${leastDaysWithStock} are needed to judge.`,
    );
  if (walk === null || walk.needByUse <= 0) return cannotSay(sentence(account, figure));
  const came = account.putUp + account.bought + account.received;
  const difference = walk.needByUse - walk.reserveByUse - came;
  const same = Math.abs(difference) < 1 || Math.abs(difference) <= sameWithin * came;
  return {
    advice: same ? 'the same' : difference > 0 ? 'more' : 'less',
    needUnits: walk.needByUse,
    because: `${sentence(account, figure)} ${needSentence(walk, figure)}`,
  };
}

/** `A year needs 32: 28 to use up and 4 in reserve.` */
const needSentence = ({ needByUse, reserveByUse }: YearWalk, figure: Figure): string =>
  reserveByUse > 0
    ? `A year needs ${figure(needByUse)}: ${figure(needByUse - reserveByUse)} to use up and ${figure(reserveByUse)} in reserve.`
    : `A year needs ${figure(needByUse)}.`;

const isTooMuch = (reason: string): boolean => tooMuch.some((known) => known === reason);

const unitsThrown = (account: ItemAccount, counts: (reason: string) => boolean): number =>
  account.thrownAway.filter((thrown) => counts(thrown.reason)).reduce((sum, thrown) => sum + thrown.units, 0);

/** `22 came, 19 were eaten, none for 73 days, 2 were given away; 1 is left.` */
function sentence(account: ItemAccount, shown: Figure): string {
  const came = shown(account.putUp + account.bought + account.received);
  const wasted = unitsThrown(account, isTooMuch);
  const parts = [
    `${came} came`,
    `${shown(account.eaten)} eaten`,
    ...(account.daysWithout > 0 ? [`none on the shelf for ${counted(account.daysWithout, 'day')}`] : []),
    ...(account.given > 0 ? [`${shown(account.given)} given away`] : []),
    ...(wasted > 0 ? [`${shown(wasted)} thrown away for age or taste`] : []),
  ];
  const left = shown(account.closing);
  return `${parts.join(', ')}; ${left} ${isOrAre(left)} left.`;
}

const tenths = (units: number): number => Math.round(units * 10) / 10;
