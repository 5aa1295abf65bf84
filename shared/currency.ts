import { numberFormatter } from './formatters.ts';
import { remembering } from './remembering.ts';

/** The money of the figures a household begins with; all of them are prices of the United States. */
export const firstCurrency = 'USD';

const fractionDigits = (code: string): number =>
  numberFormatter('en-US', { style: 'currency', currency: code }).resolvedOptions().maximumFractionDigits ??
  0;

/**
 * ISO 4217 codes a household may keep its money in: those this machine knows whose smallest coin is a hundredth or more. Money is
 * kept in whole hundredths, so the few with thousandths are not offered.
 */
export const currencies: readonly string[] = Intl.supportedValuesOf('currency').filter(
  (code) => fractionDigits(code) <= 2,
);

export const isCurrency = (code: string): boolean => currencies.includes(code);

/** The sign as the readers of a locale write it: `$`, `€`, `CA$`, `CHF`. */
export const currencySign = remembering(
  (code: string, locale: string): string =>
    numberFormatter(locale, { style: 'currency', currency: code })
      .formatToParts(0)
      .find(({ type }) => type === 'currency')?.value ?? code,
  { keyOf: (code, locale) => `${code} ${locale}`, most: 500 },
);

/** A sum as typed, without the sign or code written before or behind it: `$12.50`, `12,50 €`, `CHF 12`. */
export const withoutSign = (typed: string): string =>
  typed
    .trim()
    .replace(/^([A-Z]{1,3}\s?)?\p{Sc}?\s*/u, '')
    .replace(/\s*(\p{Sc}|[A-Z]{3})$/u, '');
