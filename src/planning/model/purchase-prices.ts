import { entry } from '../lookup.ts';
import type { ShopPack } from '../planning-year.ts';
import type { Draft } from './draft.ts';
import type { Span } from './spans.ts';

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
  const priced = (
    term: PricedPurchase['term'],
    column: number | null | undefined,
    cents: number,
  ): PricedPurchase[] => (column == null ? [] : [{ term, column, cents }]);
  const { year, items, sources } = sets;
  return [
    ...items.flatMap((item, at) =>
      item.packs.flatMap((pack, packAt) =>
        priced('groceries', columns.purchases[at]?.[packAt]?.[week], lowestPrice(pack, spans[at]?.[week])),
      ),
    ),
    ...sources.flatMap((source, at) =>
      priced(
        'produce',
        columns.produce[at]?.[week],
        entry(source.priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek'),
      ),
    ),
    ...year.supplies.flatMap((supply, at) =>
      priced('supplies', columns.supplyBought[at]?.[week], supply.packPrice),
    ),
    ...year.jars.flatMap((holding, at) => priced('jars', columns.jarsBought[at]?.[week], holding.packPrice)),
    ...year.lids.flatMap((holding, at) => priced('lids', columns.lidsBought[at]?.[week], holding.boxPrice)),
  ];
}

/** Of a week its price; of joined weeks the lowest of theirs. */
function lowestPrice({ priceByWeek }: ShopPack, span: Span | null | undefined): number {
  return span ? Math.min(...priceByWeek.slice(span.from, span.to + 1)) : 0;
}
