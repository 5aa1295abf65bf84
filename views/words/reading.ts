/** How this household reads: numbers and dates by locale, amounts by unit system, weeks by their first day. */
export interface Reading {
  readonly locale: string;
  readonly units: 'us' | 'metric';
  readonly weekStartsOn: 'monday' | 'sunday';
}

export const usReading: Reading = { locale: 'en-US', units: 'us', weekStartsOn: 'sunday' };

/** How a household reads numbers, units, dates and weeks. */
export const readingOf = ({ locale, units, weekStartsOn }: Reading): Reading => ({
  locale,
  units,
  weekStartsOn,
});
