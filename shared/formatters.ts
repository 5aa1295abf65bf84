import { remembering } from './remembering.ts';

// Making a formatter reads the rules of a language and takes tens of kilobytes outside of the heap until the next sweep; the page
// of a shelf writes hundreds of numbers and dates. So each is made once.

/** Of the locales and time zones of all households there are few. */
const madeOnce = <Options, Formatter>(make: (locale: string, options: Options) => Formatter) =>
  remembering(make, { keyOf: (locale, options) => `${locale} ${JSON.stringify(options)}`, most: 500 });

export const dateFormatter = madeOnce(
  (locale: string, options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(locale, options),
);

export const numberFormatter = madeOnce(
  (locale: string, options: Intl.NumberFormatOptions) => new Intl.NumberFormat(locale, options),
);

export const nameFormatter = madeOnce(
  (locale: string, options: Intl.DisplayNamesOptions) => new Intl.DisplayNames(locale, options),
);
