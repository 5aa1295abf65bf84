import type { ShopPackSetting } from './appetite.ts';

/** What a store asks for one unit of an item, and how that is known. */
export interface StorePrice {
  /** Cents for one unit, not rounded. */
  readonly centsEach: number;
  /** `pack`: the cheapest pack written down, outside of its sale; `paid`: what was paid for those that were bought. */
  readonly from: 'pack' | 'paid';
}

/** Null where no pack is written down and none was bought for money: a price is never guessed. */
export function storePrice(
  packs: readonly Pick<ShopPackSetting, 'units' | 'price'>[],
  bought: { readonly units: number; readonly cents: number },
): StorePrice | null {
  if (packs.length > 0)
    return { centsEach: Math.min(...packs.map(({ units, price }) => price / units)), from: 'pack' };
  return bought.units > 0 && bought.cents > 0
    ? { centsEach: bought.cents / bought.units, from: 'paid' }
    : null;
}
