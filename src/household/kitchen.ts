import type { CannerId, PlaceId } from '../../shared/ids.ts';
import type { Cents } from '../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';

export interface Canner {
  readonly id: CannerId;
  readonly name: string;
  readonly method: 'boiling-water' | 'steam' | 'pressure';
  readonly gauge: 'dial' | 'weighted' | null;
  readonly gaugeCheckedOn: CalendarDate | null;
  /** Psi the dial read too high at that check, below 0 too low; null until all three were said. */
  readonly gaugeOff: { readonly at5: number; readonly at10: number; readonly at15: number } | null;
  /** Quarts of water it holds; null where not said. */
  readonly volumeQuarts: number | null;
  /** Jars of each size that fit in one load. */
  readonly holds: { readonly quarts: number; readonly pints: number; readonly halfPints: number };
}

export interface Place {
  readonly id: PlaceId;
  readonly name: string;
  readonly kind: 'shelf' | 'cellar' | 'freezer' | 'refrigerator';
  readonly capacityQuarts: number | null;
}

export interface WeekTime {
  readonly week: WeekKey;
  readonly sessions: number;
  /** Null: as long as usual. */
  readonly hoursPerSession: number | null;
  readonly reason: string | null;
}

export interface KitchenHours {
  readonly sessionsPerWeek: number;
  readonly hoursPerSession: number;
  readonly setUpMinutes: number;
  /** Burners of the stove; canners and pots of one day share them. */
  readonly stoveBurners: number;
  /** 1 = Monday to 7 = Sunday. */
  readonly sessionWeekday: number;
  /** Who is usually there; left out where nobody was named. */
  readonly who?: readonly string[];
  /** Weeks that differ from the usual, oldest first. */
  readonly weeks: readonly WeekTime[];
  /** Days on which nobody is at home. */
  readonly away?: readonly DateSpan[];
  /** On which days sessions are held; where none are said, on the usual day and those around it. */
  readonly rules?: readonly SessionRule[];
  /** When no sessions are held though somebody is at home. */
  readonly pauses?: readonly SessionPause[];
}

export const sessionPlaces = ['every', 'first', 'second', 'third', 'fourth', 'last'] as const;

/** `Saturdays, 5 hours`; `the second Saturday of the month`; `Wednesdays, 2 hours`. */
export interface SessionRule {
  readonly id: string;
  /** 1 Monday to 7 Sunday. */
  readonly weekday: number;
  /** Every one, or which of the month. */
  readonly which: (typeof sessionPlaces)[number];
  readonly hours: number;
  /** Who is there on these days; those who usually are where it is left out. */
  readonly who?: readonly string[];
}

/** `the first two weeks of August`, once or each year; the end is not included. */
export interface SessionPause extends DateSpan {
  readonly id: string;
  readonly eachYear: boolean;
}

/** Dates with their end not included. */
export interface DateSpan {
  readonly fromOn: CalendarDate;
  readonly untilOn: CalendarDate;
}

export interface DaysOff {
  readonly away: readonly DateSpan[];
  readonly schoolHolidays: readonly DateSpan[];
}

export interface SeasonFundSetting {
  readonly balance: Cents;
  readonly balanceOn: CalendarDate;
  readonly weekly: Cents;
  /** Spent on what was bought after the balance was told. */
  readonly spentSince: Cents;
}
