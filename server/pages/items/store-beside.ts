import { asCents } from '../../../shared/money.ts';
import type { ShopPackSetting } from '../../../src/household/appetite.ts';
import { batchCost, type PricesHere, unitsPerBatch } from '../../../src/household/batch-cost.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { storePrice } from '../../../src/household/store-price.ts';
import { formatMinutes, formatMoney } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import { cropGuessFor } from '../../reference/first-year.ts';
import { amountOf } from '../../words/shelf-units.ts';

export interface StoreBeside {
  readonly item: Item;
  readonly recipes: readonly Recipe[];
  readonly packs: readonly ShopPackSetting[];
  readonly reading: Reading;
}

const noneBought = { units: 0, cents: 0 };

/** What one unit made here takes, in money and work, beside what a store asks for it; one sentence each, empty without a recipe. */
export function storeBeside(
  { item, recipes, packs, reading }: StoreBeside,
  prices: PricesHere,
): readonly string[] {
  const [recipe] = recipes;
  if (recipe === undefined) return [];
  const { cents, unpriced } = batchCost(prices, recipe);
  const units = unitsPerBatch(item, recipe);
  const one = amountOf(item, 1, reading);
  const each = formatMoney(asCents(cents / units), reading);
  const work = formatMinutes(Math.round(recipe.handsOnMinutes / units));
  const price = storePrice(packs, noneBought);
  const names = unpriced.map(
    (what) => prices.supplies.find(({ id }) => id === what)?.name ?? cropGuessFor(what).plural,
  );
  return [
    `Made here, ${one} costs about ${each} and takes ${work} of work.`,
    ...(names.length === 0 ? [] : [`No price is known for ${listed(names)}, so the real cost is higher.`]),
    price === null
      ? 'Write down what a store asks, and you see what making it saves.'
      : `A store asks ${formatMoney(asCents(price.centsEach), reading)} for as much.`,
  ];
}
