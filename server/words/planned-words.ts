import type { Family } from '../../shared/family.ts';
import type { JarKind } from '../../shared/jar.ts';
import { asCents, type Cents } from '../../shared/money.ts';
import { whileTheSame } from '../../shared/remembering.ts';
import type { Item } from '../../src/household/item.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import type { Source } from '../../src/household/source.ts';
import type { Supply } from '../../src/household/supplies.ts';
import type { PlannedPurchase, PlannedSession } from '../../src/planning/plan.ts';
import type { MeasureWeight } from '../../src/preserving/foods/trade-measures.ts';
import type { ItemLabel } from '../../views/parts/item-name.tsx';
import { formatJarKind, formatJars, formatMoney, formatQuantity } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { aboutWords, withoutPecks } from './buying/produce-words.ts';
import { amountOf } from './shelf-units.ts';

/** The names behind the ids of a plan. A plan may name what was retired since; then its id has to do. */
export interface PlannedNames {
  readonly items: readonly Item[];
  readonly recipes: readonly Recipe[];
  readonly sources: readonly Source[];
  readonly supplies: readonly Supply[];
  readonly canners: readonly { readonly id: string; readonly name: string }[];
  readonly reading: Reading;
  /** The trade measures of a crop that have a published weight. */
  readonly measuresOf: (crop: string) => readonly MeasureWeight[];
}

const nameless = (id: string): string => id.replaceAll('-', ' ');

export const recipeOf = (names: PlannedNames, session: PlannedSession): Recipe | null =>
  names.recipes.find((recipe) => recipe.id === session.recipe) ?? null;

export const itemOf = (names: PlannedNames, session: PlannedSession): Item | null => {
  const recipe = recipeOf(names, session);
  return names.items.find((item) => item.id === recipe?.itemId) ?? null;
};

export const itemLabel = (names: PlannedNames, session: PlannedSession): ItemLabel => {
  const item = itemOf(names, session);
  if (item === null) return { name: nameless(session.recipe), family: 'dry-goods' satisfies Family };
  return { name: item.name, family: item.family, href: `/year/${item.id}` };
};

/** `12 to 14 quarts`: the low yield the plan counts on, the high one jars and lids are got ready for. */
export const comesWords = (names: PlannedNames, session: PlannedSession): string => {
  const item = itemOf(names, session);
  const { reading } = names;
  const [jars] = session.jars;
  if (jars === undefined) return item === null ? '' : amountOf(item, session.units, reading);
  const most = formatJars(jars.count, jars.kind, reading);
  const least = Math.round(session.batches * (recipeOf(names, session)?.yieldLow ?? jars.count));
  return least >= jars.count ? most : `${least} to ${most}`;
};

export interface PurchaseWords {
  readonly what: string;
  readonly where: string;
  /** `63 lb, about 1¼ bushels`, `12 jars` */
  readonly quantity: string;
  /** The same where little room is: `63 lb`. */
  readonly amount: string;
  readonly packs: string;
  /** Of produce, in its trade measure: `about 1¼ bushels`; empty of what has none. */
  readonly about: string;
}

/** A purchase as it is read on a list. */
export const purchaseWords = (names: PlannedNames, purchase: PlannedPurchase): PurchaseWords =>
  wordsOf({ names, purchase });

interface Named {
  readonly names: PlannedNames;
  readonly purchase: PlannedPurchase;
}

const wordsOf = whileTheSame('purchase', ({ names, purchase }: Named): PurchaseWords => {
  const words = listedWords(names, purchase);
  const about = aboutOf(names, purchase) ?? '';
  return { ...words, about, quantity: about === '' ? words.amount : `${words.amount}, ${about}` };
});

const aboutOf = (names: PlannedNames, { kind, what, quantity }: PlannedPurchase): string | null => {
  const source = kind === 'produce' ? names.sources.find(({ id }) => id === what) : undefined;
  return source === undefined
    ? null
    : aboutWords(tenthsUp(quantity), measuresFor(names, source), names.reading);
};

/** Nobody weighs hundredths of a pound. */
const tenthsUp = (lb: number): number => Math.ceil(lb * 10) / 10;

const listedWords = (
  names: PlannedNames,
  purchase: PlannedPurchase,
): Omit<PurchaseWords, 'quantity' | 'about'> => {
  const { reading } = names;
  const packs = purchase.packs === null ? '' : formatQuantity(purchase.packs.count, 'pack', reading);
  switch (purchase.kind) {
    case 'produce': {
      const source = names.sources.find((one) => one.id === purchase.what);
      return {
        what: source?.name ?? nameless(purchase.what),
        where: source === undefined ? 'Fetch' : placeWords[source.kind],
        amount: formatQuantity(tenthsUp(purchase.quantity), 'lb', reading),
        packs,
      };
    }
    case 'item': {
      const item = names.items.find((one) => one.id === purchase.what);
      return {
        what: item?.name ?? nameless(purchase.what),
        where: 'For the pantry',
        amount:
          item === undefined
            ? formatQuantity(purchase.quantity, 'each', reading)
            : amountOf(item, purchase.quantity, reading),
        packs,
      };
    }
    case 'supply': {
      const supply = names.supplies.find((one) => one.id === purchase.what);
      return {
        what: supply?.name ?? nameless(purchase.what),
        where: 'For canning',
        amount: formatQuantity(purchase.quantity, supply?.unit ?? purchase.unit, reading),
        packs,
      };
    }
    case 'jars':
      return {
        what: `Empty jars, ${formatJarKind(purchase.what as JarKind)}`,
        where: 'For canning',
        amount: formatQuantity(purchase.quantity, 'jar', reading),
        packs,
      };
    case 'lids':
      return {
        what: `Lids, ${purchase.what} mouth`,
        where: 'For canning',
        amount: formatQuantity(purchase.quantity, 'lid', reading),
        packs,
      };
  }
};

const measuresFor = ({ measuresOf }: PlannedNames, { crop, kind }: Source): readonly MeasureWeight[] =>
  kind === 'garden' ? withoutPecks(measuresOf(crop)) : measuresOf(crop);

const placeWords: Readonly<Record<Source['kind'], string>> = {
  garden: 'Pick in the garden',
  'pick-your-own': 'Pick there',
  market: 'Buy there',
};

/** `$81.93: $61.93 for the pantry, $20.00 to put up`: groceries told apart from what is put up; one alone where there is no other. */
export const spendWords = (purchases: readonly PlannedPurchase[], spend: Cents, reading: Reading): string => {
  const groceries = purchases.reduce((sum, { kind, cost }) => (kind === 'item' ? sum + cost : sum), 0);
  const all = formatMoney(spend, reading);
  if (groceries <= 0) return spend <= 0 ? all : `${all} to put up`;
  if (groceries >= spend) return `${all} for the pantry`;
  return `${all} (${formatMoney(asCents(groceries), reading)} for the pantry, ${formatMoney(asCents(spend - groceries), reading)} to put up)`;
};
