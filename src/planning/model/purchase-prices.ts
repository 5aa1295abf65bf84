import { cell, entry } from '../lookup.ts';
import type { ShopPack } from '../planning-year.ts';
import type { Draft } from './draft.ts';
import type { Span } from './spans.ts';
import type { MaybeColumn } from './variables.ts';

export interface PricedPurchase {
  /** Term of the objective the money belongs to. */
  readonly term: 'groceries' | 'produce' | 'supplies' | 'jars' | 'lids';
  readonly column: number;
  /** Cents per unit of the column: per pack, per lb, per box. */
  readonly cents: number;
}

/** Everything that costs money in a week, with its price: the one list behind the fund, the objective and the read-back. */
export function purchasePrices(
  { sets, spans, columns }: Pick<Draft, 'sets' | 'spans' | 'columns'>,
  week: number,
): PricedPurchase[] {
  const priced = (term: PricedPurchase['term'], column: MaybeColumn, cents: number): PricedPurchase[] =>
    column === null ? [] : [{ term, column, cents }];
  const { year, items, sources } = sets;
  return [
    ...items.flatMap((item, at) =>
      item.packs.flatMap((pack, packAt) =>
        priced(
          'groceries',
          entry(cell(columns.purchases, at, packAt, 'purchases'), week, 'purchases'),
          lowestPrice(pack, cell(spans, at, week, 'spans')),
        ),
      ),
    ),
    ...sources.flatMap((source, at) =>
      priced(
        'produce',
        cell(columns.produce, at, week, 'produce'),
        entry(source.priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek'),
      ),
    ),
    ...year.supplies.flatMap((supply, at) =>
      priced('supplies', cell(columns.supplyBought, at, week, 'supplyBought'), supply.packPrice),
    ),
    ...year.jars.flatMap((holding, at) =>
      priced('jars', cell(columns.jarsBought, at, week, 'jarsBought'), holding.packPrice),
    ),
    ...year.lids.flatMap((holding, at) =>
      priced('lids', cell(columns.lidsBought, at, week, 'lidsBought'), holding.boxPrice),
    ),
  ];
}

/** Of a week its price; of joined weeks the lowest of theirs. */
function lowestPrice({ priceByWeek }: ShopPack, span: Span | null): number {
  return span === null ? 0 : Math.min(...priceByWeek.slice(span.from, span.to + 1));
}
