// How a number and what it counts are said together: `1 jar`, `2 jars`, `0 jars`, `1.5 jars`; `1 is left`, `2 are left`.

/** Plurals that no rule gives; what is measured keeps its word. */
const plurals: Readonly<Record<string, string>> = {
  lb: 'lb',
  qt: 'qt',
  kg: 'kg',
  oz: 'oz',
  tsp: 'tsp',
  tbsp: 'tbsp',
  each: 'each',
  this: 'these',
};

/** `jar` is `jars`, `batch` is `batches`, `box` is `boxes`, `berry` is `berries`; of several words the last: `canning day`. */
export const pluralOf = (one: string): string =>
  plurals[one] ?? `${one}s`.replace(/(s|x|z|ch|sh)s$/, '$1es').replace(/([^aeiou])ys$/, '$1ies');

/** A number, or the text it is shown as: 1.04 may be shown as 1. */
type Shown = number | string;

const isOne = (amount: Shown): boolean => Number(amount) === 1;

/** The word for one or for several: `wordFor(2, 'jar')` is `jars`, `wordFor(1, 'looks', 'look')` is `looks`. */
export const wordFor = (amount: Shown, one: string, several: string = pluralOf(one)): string =>
  isOne(amount) ? one : several;

/** `1 jar`, `2 jars`. */
export const counted = (amount: Shown, one: string, several?: string): string =>
  `${amount} ${wordFor(amount, one, several)}`;

/** `one batch was`, `2 batches were`: `oneOrMore(n, 'batch was', 'batches were')`. */
export const oneOrMore = (amount: Shown, one: string, several?: string): string =>
  isOne(amount) ? `one ${one}` : counted(amount, one, several);

export const isOrAre = (amount: Shown): string => wordFor(amount, 'is', 'are');
export const wasOrWere = (amount: Shown): string => wordFor(amount, 'was', 'were');
