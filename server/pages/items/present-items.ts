import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { cropName } from '../../../src/harvest/crop-name.ts';
import type { ShopPackSetting } from '../../../src/household/appetite.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Source } from '../../../src/household/source.ts';
import type { Supply } from '../../../src/household/supplies.ts';
import type { LeftOutRecipe } from '../../../src/planning/year/planned-recipes.ts';
import type {
  GuessLine,
  ItemLine,
  ItemsPageProps,
  SupplyLine,
} from '../../../views/pages/items/items-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import {
  formatDate,
  formatMinutes,
  formatMoney,
  formatNumber,
  formatQuantity,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { Guess } from '../../queries/year/guesses.ts';
import { amountOf, unitsOf } from '../../words/shelf-units.ts';

/** Everything the household keeps and what it is made from. */
export interface ItemsPicture {
  readonly items: readonly Item[];
  readonly retired: readonly { readonly item: Item; readonly retiredOn: CalendarDate }[];
  /** Units of an item that stand on the shelf, those set aside left out. */
  readonly unitsLeft: ReadonlyMap<Item['id'], number>;
  readonly recipes: readonly Recipe[];
  readonly leftOut: readonly LeftOutRecipe[];
  readonly packs: ReadonlyMap<Item['id'], readonly ShopPackSetting[]>;
  readonly supplies: readonly Supply[];
  readonly sources: readonly Source[];
  readonly guesses: readonly Guess[];
  readonly reference: ReferenceTables;
  readonly reading: Reading;
}

export function presentItems(picture: ItemsPicture, newKeys: () => FormKeys): Omit<ItemsPageProps, 'frame'> {
  const lines = (kind: Item['kind']) =>
    picture.items.filter((item) => item.kind === kind).map((item) => itemLine(item, picture));
  return {
    preserves: lines('preserve'),
    staples: lines('staple'),
    supplies: picture.supplies.map((supply) => supplyLine(supply, picture)),
    guesses: guessLines(picture),
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

/** What was guessed for the household, each with its figure and the place where it is put right. */
function guessLines(picture: ItemsPicture): readonly GuessLine[] {
  const { guesses, reading, reference } = picture;
  return guesses.flatMap(({ kind, subject }): GuessLine[] => {
    const key = `${kind}-${subject}`;
    if (kind === 'source') {
      const source = picture.sources.find(({ id }) => id === subject);
      if (!source) return [];
      const window = source.windows.at(-1);
      const figures = `${formatMoney(source.pricePerLb, reading)} a lb${window ? `, ${formatNumber(window.lbPerWeek, reading)} lb a week` : ''}`;
      const text = window
        ? figures
        : `${figures}. No season is published for ${cropName(reference.harvestWindows, source.crop).toLowerCase()} in your region: write its dates down, or nothing is planned from it.`;
      return [{ key, what: source.name, figure: text, href: `/harvest/${source.id}` }];
    }
    if (kind === 'supply') {
      const supply = picture.supplies.find(({ id }) => id === subject);
      if (!supply) return [];
      return [
        {
          key,
          what: supply.name,
          figure: supplyLine(supply, picture).pack,
          href: `/items/supplies/${supply.id}`,
        },
      ];
    }
    const recipe = picture.recipes.find(({ id }) => id === subject);
    if (!recipe) return [];
    return [
      {
        key,
        what: recipe.name,
        figure: `${formatMinutes(recipe.atFirst.handsOnMinutes)} of work a batch`,
        href: `/items/${recipe.itemId}#recipes`,
      },
    ];
  });
}
