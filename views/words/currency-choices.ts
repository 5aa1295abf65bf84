import { currencies } from '../../shared/currency.ts';
import { nameFormatter } from '../../shared/formatters.ts';
import type { Choice } from '../parts/form.tsx';

const kept = new Map<string, readonly Choice[]>();

/** Every currency by its code and its name in the language of a locale: "EUR, Euro". */
export function currencyChoices(locale: string): readonly Choice[] {
  const known = kept.get(locale);
  if (known !== undefined) return known;
  const names = nameFormatter(locale, { type: 'currency' });
  const made = currencies.map((code) => ({ value: code, words: `${code}, ${names.of(code) ?? code}` }));
  kept.set(locale, made);
  return made;
}
