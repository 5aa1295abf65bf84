import type { CalendarDate } from '../../../shared/week.ts';
import type { ShopPackSetting } from '../../../src/household/appetite.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Supply } from '../../../src/household/supplies.ts';
import type { LeftOutRecipe } from '../../../src/planning/year/planned-recipes.ts';
import type { ItemLine, ItemsPageProps, SupplyLine } from '../../../views/pages/items/items-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDate, formatMoney, formatQuantity } from '../../../views/words/format.ts';
import { amountOf, unitsOf } from '../../words/shelf-units.ts';
import { type GuessPicture, presentGuesses } from './present-guesses.ts';

/** Everything the household keeps and what it is made from. */
export interface ItemsPicture extends GuessPicture {
  readonly items: readonly Item[];
  readonly retired: readonly { readonly item: Item; readonly retiredOn: CalendarDate }[];
  /** Units of an item that stand on the shelf, those set aside left out. */
  readonly unitsLeft: ReadonlyMap<Item['id'], number>;
  readonly leftOut: readonly LeftOutRecipe[];
  readonly packs: ReadonlyMap<Item['id'], readonly ShopPackSetting[]>;
}

export function presentItems(picture: ItemsPicture, newKeys: () => FormKeys): Omit<ItemsPageProps, 'frame'> {
  const lines = (kind: Item['kind']) =>
    picture.items.filter((item) => item.kind === kind).map((item) => itemLine(item, picture));
  return {
    preserves: lines('preserve'),
    staples: lines('staple'),
    supplies: picture.supplies.map((supply) => supplyLine(supply, picture)),
    guesses: presentGuesses(picture),
    retired: picture.retired.map(({ item, retiredOn }) => ({
      itemId: item.id,
      item: { name: item.name, family: item.family },
      on: formatDate(retiredOn, picture.reading),
      left: leftWords(item, picture),
      keys: newKeys(),
    })),
  };
}

/** What still stands of a retired item, with the way to it; null once it is eaten. */
const leftWords = (item: Item, { unitsLeft, reading }: ItemsPicture): string | null => {
  const units = unitsLeft.get(item.id) ?? 0;
  return units > 0 ? amountOf(item, units, reading) : null;
};

function itemLine(item: Item, picture: ItemsPicture): ItemLine {
  return {
    itemId: item.id,
    item: { name: item.name, family: item.family, href: `/items/${item.id}` },
    counted: unitsOf(item, picture.reading),
    how: item.kind === 'staple' ? packWords(item, picture) : recipeWords(item, picture),
    state: item.kind === 'staple' ? '' : stateWords(item, picture),
  };
}

const recipeWords = (item: Item, { recipes }: ItemsPicture): string => {
  const own = recipes.filter(({ itemId }) => itemId === item.id);
  return own.length === 0 ? 'no recipe' : own.map(({ name }) => name).join('; ');
};

const stateWords = (item: Item, { recipes, leftOut }: ItemsPicture): string => {
  const own = recipes.filter(({ itemId }) => itemId === item.id);
  if (own.length === 0) return 'not planned: it has no recipe';
  const out = own.filter(({ id }) => leftOut.some(({ recipeId }) => recipeId === id));
  return out.length < own.length ? 'planned' : 'not planned yet: open it to see why';
};

const packWords = (item: Item, { packs, reading }: Pick<ItemsPicture, 'packs' | 'reading'>): string =>
  (packs.get(item.id) ?? [])
    .map(
      (pack) => `${formatQuantity(pack.units, item.unit, reading)} for ${formatMoney(pack.price, reading)}`,
    )
    .join('; ') || 'no pack';

const supplyLine = (supply: Supply, { reading, guesses }: ItemsPicture): SupplyLine => ({
  supplyId: supply.id,
  name: supply.name,
  pack: `${formatQuantity(supply.packQuantity, supply.unit, reading)} for ${formatMoney(supply.packPrice, reading)}`,
  onHand: formatQuantity(supply.onHand, supply.unit, reading),
  isGuess: guesses.some(({ kind, subject }) => kind === 'supply' && subject === supply.id),
});
