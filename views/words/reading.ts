import { firstCurrency } from '../../shared/currency.ts';
import type { CalendarDate } from '../../shared/week.ts';

/** How this household reads: numbers and dates by locale, amounts by unit system, weeks by their first day. */
export interface Reading {
  readonly locale: string;
  readonly units: 'us' | 'metric';
  readonly weekStartsOn: 'monday' | 'sunday';
  /** ISO 4217 code of the household's money; left out where there is none yet. */
  readonly currency?: string;
  /** The day on which it is read: a date of another year carries its year. Left out where no date is read. */
  readonly today?: CalendarDate;
}

export const usReading: Reading = { locale: 'en-US', units: 'us', weekStartsOn: 'sunday' };

/** How a household reads numbers, units, dates and weeks on a day. */
export const readingOf = (
  { locale, units, weekStartsOn, currency = firstCurrency }: Omit<Reading, 'today'>,
  today: CalendarDate,
): Reading => ({
  locale,
  units,
  weekStartsOn,
  currency,
  today,
});
