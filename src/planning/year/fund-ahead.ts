import { asCents, type Cents } from '../../../shared/money.ts';
import {
  type CalendarDate,
  type WeekKey,
  type WeekStart,
  weekHolding,
  weeksBetween,
} from '../../../shared/week.ts';
import type { SeasonFund } from '../planning-year.ts';

export interface FundTold {
  readonly balance: Cents;
  /** Day on which that was in the fund, its week's share included. */
  readonly balanceOn: CalendarDate;
  readonly weekly: Cents;
  /** Spent since that day. */
  readonly spentSince: Cents;
}

/** Larger than any pantry: with no season fund, money is counted but does not limit. */
const noLimit = asCents(10_000_000);

/**
 * What the fund holds now and gains by week. opening = balance + weekly · whole weeks since it was told - spent since, not
 * below 0; the first week's share is in it already. Without a fund money does not limit anything.
 */
export function fundAhead(
  told: FundTold | null,
  weeks: readonly WeekKey[],
  startsOn: WeekStart = 'monday',
): SeasonFund {
  if (told === null) return { opening: noLimit, setAsideByWeek: weeks.map(() => asCents(0)) };
  const [first] = weeks;
  return {
    opening: first === undefined ? told.balance : fundIn(told, first, startsOn),
    setAsideByWeek: weeks.map((_, at) => (at === 0 ? asCents(0) : told.weekly)),
  };
}

/** Cents in the fund in a week, its own share included: balance + weekly · whole weeks since it was told - spent since, not below 0. */
export const fundIn = (
  { balance, balanceOn, weekly, spentSince }: FundTold,
  week: WeekKey,
  startsOn: WeekStart = 'monday',
): Cents =>
  asCents(
    Math.max(
      0,
      balance + weekly * Math.max(0, weeksBetween(weekHolding(balanceOn, startsOn), week)) - spentSince,
    ),
  );

/** Whether money limits a plan at all; without a season fund, or where a plan kept none, it is only counted. */
export const isLimited = (fund: SeasonFund | undefined): boolean =>
  fund !== undefined && fund.opening < noLimit;
