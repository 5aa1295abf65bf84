import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { isAway, lastDayAtHome } from '../../harvest/source-years.ts';
import type { KitchenHours } from '../../household/kitchen.ts';
import { pickAndBuyBy } from '../../preserving/day/day-batch.ts';
import type { BatchDays } from './batch-days.ts';

/** When what some canning days need has to be in the house. */
export interface NeededFor {
  /** The first day on which anything of it is used: a canning day, or the evening before on which something is soaked or brined. */
  readonly on: CalendarDate;
  /** The shopping day before it on which somebody is at home. */
  readonly buyBy: CalendarDate;
}

/** Nobody shops longer ahead than this, however long the household is away. Judged, no source. */
const mostDaysAhead = 14;

/**
 * The shopping day (`pickAndBuyBy`) before a day on which something is used: the last day up to it on which somebody is at home; where
 * there is none, the first after it on which somebody is; where nobody comes home before, the shopping day itself.
 */
export const shoppingDayBefore = (
  on: CalendarDate,
  { away = [] }: Pick<KitchenHours, 'away'>,
): CalendarDate => {
  const usual = pickAndBuyBy(on);
  const before = lastDayAtHome(usual, away, addDays(on, -mostDaysAhead));
  let day = before;
  while (isAway(day, away) && day < on) day = addDays(day, 1);
  return day < on ? day : before;
};

/**
 * By when everything for some canning days is bought: the shopping day before the first of them, or before the
 * soak or brine that begins earlier. Null without a day.
 */
export function neededFor(
  days: readonly CalendarDate[],
  batches: readonly Pick<BatchDays, 'plannedOn' | 'calendar'>[],
  hours: Pick<KitchenHours, 'away'>,
): NeededFor | null {
  const begun = batches
    .filter(({ plannedOn }) => plannedOn !== null && days.includes(plannedOn))
    .flatMap(({ calendar }) =>
      calendar.before.filter(({ state }) => state !== 'done' && state !== 'missed').map(({ on }) => on),
    );
  const [on] = [...days, ...begun].toSorted();
  if (on === undefined) return null;
  return { on, buyBy: shoppingDayBefore(on, hours) };
}
