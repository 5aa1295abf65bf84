import { describe, expect, test } from 'vitest';
import { currencies, currencySign, isCurrency, withoutSign } from '../../shared/currency.ts';
import { asCents } from '../../shared/money.ts';
import { formatMoney } from '../../views/words/format.ts';

// ISO 4217: codes of three letters; the dinars of Kuwait, Bahrain and Tunisia have thousandths.
describe('the money of a household', () => {
  test('is one of the codes of ISO 4217 with hundredths or coarser', () => {
    for (const code of ['USD', 'EUR', 'CAD', 'GBP', 'CHF', 'JPY']) expect(isCurrency(code), code).toBe(true);
    for (const code of ['KWD', 'BHD', 'TND', 'usd', 'XXY', '']) expect(isCurrency(code), code).toBe(false);
    expect(new Set(currencies).size).toBe(currencies.length);
  });

  test.each([
    ['USD', 'en-US', '$', '$12.50'],
    ['EUR', 'en-GB', '€', '€12.50'],
    ['CAD', 'en-US', 'CA$', 'CA$12.50'],
    ['GBP', 'en-GB', '£', '£12.50'],
  ])('%s for readers of %s: %s, %s', (currency, locale, sign, sum) => {
    expect(currencySign(currency, locale)).toBe(sign);
    expect(formatMoney(asCents(1250), { locale, units: 'metric', weekStartsOn: 'monday', currency })).toBe(
      sum,
    );
  });

  test.each([
    ['$12.50', '12.50'],
    ['12,50 €', '12,50'],
    ['€ 12.50', '12.50'],
    ['CHF 12', '12'],
    ['12 CHF', '12'],
    ['CA$12.50', '12.50'],
    ['12.50', '12.50'],
    ['-3', '-3'],
  ])('%s is typed as %s', (typed, number) => {
    expect(withoutSign(typed)).toBe(number);
  });
});
