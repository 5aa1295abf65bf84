/** What produce is sold in, besides its weight. */
export const tradeMeasures = ['bushel', 'half-bushel', 'peck', 'lug', 'crate'] as const;
export type TradeMeasure = (typeof tradeMeasures)[number];

/** What an amount of produce may be chosen to be in. */
export const produceUnits = ['lb', 'kg', ...tradeMeasures] as const;
export type ProduceUnit = (typeof produceUnits)[number];

/** What may be written behind an amount: also a flat, of which no weight is published here, to be told what there is. */
export const producesSaid = [...produceUnits, 'flat'] as const;
export type ProduceSaid = (typeof producesSaid)[number];

/** An amount as it was typed, and what it is in. */
export interface AmountSaid {
  readonly amount: string;
  readonly unit: ProduceSaid;
}

/** The longest first, so that a half-bushel is no bushel. */
const writtenAs: readonly (readonly [RegExp, ProduceSaid])[] = [
  [/half[- ]?bushels?/, 'half-bushel'],
  [/bushels?|bu/, 'bushel'],
  [/pecks?|pk/, 'peck'],
  [/lugs?/, 'lug'],
  [/crates?/, 'crate'],
  [/flats?/, 'flat'],
  [/lbs?|pounds?/, 'lb'],
  [/kgs?|kilos?|kilograms?/, 'kg'],
];

/**
 * An amount or a price of produce with what stands behind it; what is typed goes before what is chosen beside the field.
 *
 * Examples, pounds chosen: `40` is 40 lb, `2 bushels` 2 bushels, `half a bushel` 1/2 bushel, `32 a bushel` and `32/bu` 32 for one.
 */
export function amountSaid(typed: string, chosen: ProduceSaid): AmountSaid {
  const text = typed.trim();
  for (const [word, unit] of writtenAs) {
    const end = new RegExp(
      `^(.*?)(?:\\s*(?:\\bof an?\\b|\\ban?\\b|\\bper\\b|/))?\\s*(?<![a-z-])(?:${word.source})\\.?$`,
      'i',
    );
    const amount = end.exec(text)?.[1]?.trim();
    if (amount !== undefined)
      return {
        amount: amount === '' ? (/^an?\b/i.test(text) ? '1' : text) : /^half$/i.test(amount) ? '1/2' : amount,
        unit,
      };
  }
  return { amount: text, unit: chosen };
}

const weighedAs: readonly (readonly [RegExp, string])[] = [
  [/lbs?|pounds?/, 'lb'],
  [/kgs?|kilos?|kilograms?/, 'kg'],
  [/qts?|quarts?/, 'qt'],
  [/l|liters?|litres?/, 'L'],
];

/** An amount of what is weighed or measured and what it is in; what is typed goes before what stands beside the field. `9 kg`, `2.5`. */
export function weightSaid(
  typed: string,
  beside: string,
): { readonly amount: string; readonly unit: string } {
  const text = typed.trim();
  for (const [word, unit] of weighedAs) {
    const amount = new RegExp(`^(.*?[\\d\\p{No}])\\s*(?:${word.source})\\.?$`, 'iu').exec(text)?.[1];
    if (amount !== undefined) return { amount: amount.trim(), unit };
  }
  return { amount: text, unit: beside };
}
