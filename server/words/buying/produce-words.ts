import { asCents, type Cents } from '../../../shared/money.ts';
import type { TradeMeasure } from '../../../shared/trade-measure.ts';
import type { Source } from '../../../src/household/source.ts';
import { inTradeMeasure, type MeasureWeight } from '../../../src/preserving/foods/trade-measures.ts';
import { kitchenAmount } from '../../../src/preserving/lookup/display-units.ts';
import { formatMoney, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { pricePerWeight } from './price-per-weight.ts';

const several: Readonly<Record<TradeMeasure, string>> = {
  bushel: 'bushels',
  'half-bushel': 'half-bushels',
  peck: 'pecks',
  lug: 'lugs',
  crate: 'crates',
};

/** The word of a trade measure for so many of it. */
export const measureWords = (measure: TradeMeasure, count: number): string =>
  count > 1 ? several[measure] : measure;

/** `1¼ bushels`, `1 lug`, `¾ of a bushel`, `half a bushel`. */
const countWords = (count: number, measure: TradeMeasure): string =>
  count === 1 / 2
    ? `half a ${measure}`
    : `${kitchenAmount(count)} ${count < 1 ? 'of a ' : ''}${measureWords(measure, count)}`;

/**
 * `about 1¼ bushels`, where an amount is at least half of a measure with a published weight; null otherwise, and for metric
 * households, who read kilograms alone.
 */
export function aboutWords(
  lb: number,
  measures: readonly MeasureWeight[],
  { units }: Pick<Reading, 'units'>,
): string | null {
  const own = units === 'metric' ? null : inTradeMeasure(lb, measures);
  return own === null ? null : `about ${countWords(own.count, own.measure)}`;
}

/** An amount of produce to buy or fetch: `63 lb, about 1¼ bushels`. */
export function produceWords(lb: number, measures: readonly MeasureWeight[], reading: Reading): string {
  const about = aboutWords(lb, measures, reading);
  return `${formatQuantity(lb, 'lb', reading)}${about === null ? '' : `, ${about}`}`;
}

/** What is picked at home, or stands in the kitchen, is told in whole containers; pecks are what stands sell in. */
export const withoutPecks = (measures: readonly MeasureWeight[]): readonly MeasureWeight[] =>
  measures.filter(({ measure }) => measure !== 'peck');

/** What a source asks, as it was said: `$32 a bushel, $0.67 a lb`; else by weight, `$1.50 a lb`. */
export function sourcePriceWords(
  { pricePerLb, pricedIn }: Pick<Source, 'pricePerLb' | 'pricedIn'>,
  measures: readonly MeasureWeight[],
  reading: Reading,
): string {
  const perWeight = pricePerWeight(pricePerLb, reading);
  const said = saidPrice({ pricePerLb, pricedIn }, measures);
  return said === null ? perWeight : `${formatMoney(said.cents, reading)} a ${said.measure}, ${perWeight}`;
}

/** The price in the trade measure it was said in; null where it was said by weight, or was taught otherwise since. */
export function saidPrice(
  { pricePerLb, pricedIn }: Pick<Source, 'pricePerLb' | 'pricedIn'>,
  measures: readonly MeasureWeight[],
): { readonly measure: TradeMeasure; readonly cents: Cents } | null {
  const lb = measures.find(({ measure }) => measure === pricedIn?.measure)?.lb;
  if (pricedIn === null || lb === undefined) return null;
  return asCents(pricedIn.cents / lb) === pricePerLb ? pricedIn : null;
}
