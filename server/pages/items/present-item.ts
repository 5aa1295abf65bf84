import { oneOrMore } from '../../../shared/counting.ts';
import { countsAsKinds } from '../../../shared/meal-kinds.ts';
import { poundsFieldOf, poundsLabel } from '../../../shared/schemas/item.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { dateInZone } from '../../../shared/week.ts';
import type { ShopPackSetting } from '../../../src/household/appetite.ts';
import { guessedCountsAs } from '../../../src/household/counts-as.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Canner } from '../../../src/household/kitchen.ts';
import { hasOwnAmounts, ownWay, type Recipe } from '../../../src/household/recipe.ts';
import type { Source } from '../../../src/household/source.ts';
import type { LidStock, Material, Supply } from '../../../src/household/supplies.ts';
import type { LeftOutRecipe } from '../../../src/planning/year/planned-recipes.ts';
import { citationOf, inWords } from '../../../src/preserving/citation.ts';
import type { NameQuestion } from '../../../src/preserving/foods/name-questions.ts';
import type { MeasureWeight } from '../../../src/preserving/foods/trade-measures.ts';
import { mayBeFrozenFirst } from '../../../src/preserving/recipes/frozen-first.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import type { PublishedLife } from '../../../src/preserving/recipes/recipe-life.ts';
import { crockOf } from '../../../src/preserving/stages/crock-of.ts';
import { neverCanned } from '../../../src/preserving/uncanned/never-canned.ts';
import { wayOf } from '../../../src/preserving/uncanned/uncanned-ways.ts';
import type { ItemPageProps } from '../../../views/pages/items/item-page.tsx';
import type { OwnRecipeProps } from '../../../views/pages/items/own-recipe.tsx';
import type { PackFormProps } from '../../../views/pages/items/pack-forms.tsx';
import type { Choice, FormKeys } from '../../../views/parts/form.tsx';
import type { AskedName } from '../../../views/parts/name-question.tsx';
import {
  formatDate,
  formatJarKind,
  formatMinutes,
  formatMoney,
  formatNumber,
  formatQuantity,
  formatRange,
  fromReadersUnit,
  inReadersUnit,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { saidLeftOversOf } from '../../queries/household/recipes.ts';
import type { Guess } from '../../queries/year/guesses.ts';
import { cropGuessFor } from '../../reference/first-year.ts';
import { presentWay } from '../../words/canning/way-words.ts';
import { plain } from '../../words/plain-number.ts';
import { publishedLifeWords } from '../../words/published-life.ts';
import { amountOf, unitsOf } from '../../words/shelf-units.ts';
import { countsAsWords } from '../../words/year/meal-words.ts';
import { fieldsFrom, type SentBack, type StateOfForm, statesFrom } from '../shared/answer-form.ts';
import { unitsTyped } from '../shared/produce/own-units.ts';
import { poundsKept, poundsTyped, unitChoicesOf } from '../shared/produce/units.ts';
import { supplyAmount } from '../shared/supply-amount.ts';
import { presentLeftOvers } from './present-left-overs.ts';
import { familyChoices } from './present-new-item.ts';
import { presentRecipeChanges } from './present-recipe-changes.ts';
import { storeBeside } from './store-beside.ts';

export interface ItemPicture {
  readonly item: Item;
  readonly unitsLeft: number;
  readonly recipes: readonly Recipe[];
  readonly retiredRecipes: readonly { readonly id: string; readonly name: string }[];
  readonly leftOut: readonly LeftOutRecipe[];
  readonly packs: readonly ShopPackSetting[];
  readonly supplies: readonly Supply[];
  readonly sources: readonly Source[];
  readonly lids: readonly LidStock[];
  readonly canners: readonly Canner[];
  readonly guesses: readonly Guess[];
  readonly materials: readonly Material[];
  readonly saidLeftOvers: Awaited<ReturnType<typeof saidLeftOversOf>>;
  readonly reference: ReferenceTables;
  /** The tested recipe of the book that each own one copies. */
  readonly copies: ReadonlyMap<string, TestedRecipe>;
  readonly reading: Reading;
  /** How long it keeps as published; null of what is not canned. */
  readonly published: PublishedLife | null;
  /** Names of each recipe that are asked about. */
  readonly questions: ReadonlyMap<string, readonly NameQuestion[]>;
  readonly timeZone: string;
  /** The trade measures of a crop that have a published weight. */
  readonly measuresOf: (crop: string) => readonly MeasureWeight[];
}

/** One form of the page that was sent back: `item`, `pack-<id>`, `recipe-<id>`, `retire`. */
export interface ItemSentBack extends SentBack {
  /** The question about a new name, where it has one. */
  readonly asked?: AskedName | null;
}

export function presentItem(
  picture: ItemPicture,
  newKeys: () => FormKeys,
  sentBack: ItemSentBack | null,
): Omit<ItemPageProps, 'frame' | 'head'> {
  const { item, reading } = picture;
  const state = statesFrom(newKeys, sentBack);
  return {
    kind: item.kind,
    line: lineOf(picture),
    isRetired: item.retiredOn !== null,
    left: picture.unitsLeft > 0 ? amountOf(item, picture.unitsLeft, reading) : null,
    bestQualityHint:
      item.keeping === 'refrigerated'
        ? 'Days in the refrigerator, 8 or more. Past them it is thrown away, and no plan counts on it.'
        : picture.published === null
          ? item.kind === 'staple'
            ? 'As printed on the pack.'
            : 'A matter of taste: what holds in your pantry. Jars already on the shelf change with it.'
          : `Published: ${publishedLifeWords(picture.published, reading)}, a matter of taste. Choose what holds in your pantry, ${formatNumber(picture.published.most, reading)} at most; jars already on the shelf change with it.`,
    unit: unitsOf(item, reading),
    families: familyChoices,
    countsAs: [
      { value: '', words: `by its kind: ${countsAsWords[guessedCountsAs(item)]}` },
      ...countsAsKinds.map((kind): Choice => ({ value: kind, words: countsAsWords[kind] })),
    ],
    form: state('item', {
      name: item.name,
      family: item.family,
      yearsInTwenty: String(Math.min(19, Math.max(10, Math.round(item.chanceWanted * 20)))),
      familyMinimum:
        item.familyMinimumUnits === null ? '' : unitsTyped(item.familyMinimumUnits, item.unit, reading),
      emergencyUnits: item.emergencyUnits === null ? '' : unitsTyped(item.emergencyUnits, item.unit, reading),
      servingsPerUnit:
        item.servingsPerUnit === null
          ? ''
          : plain(item.servingsPerUnit * fromReadersUnit(1, item.unit, reading)),
      countsAs: item.countsAs ?? '',
      bestQualityDays: String(item.bestQualityDays),
      keepColdDays: item.keepColdDays === null ? '' : String(item.keepColdDays),
      inIt: '',
    }),
    asked: sentBack?.formId === 'item' ? (sentBack.asked ?? null) : null,
    recipes: picture.recipes.map((recipe) =>
      ownRecipe(
        recipe,
        picture,
        newKeys(),
        presentRecipeChanges(recipe, picture.copies.get(recipe.id), state),
        state,
        presentNames(recipe, picture, newKeys, sentBack?.formId === `name-${recipe.id}` ? sentBack : null),
        presentLeftOvers(recipe, picture, state),
      ),
    ),
    retiredRecipes: picture.retiredRecipes.map(({ id, name }) => ({ id, name, keys: newKeys() })),
    canners: [
      { value: '', words: 'none: not planned' },
      ...picture.canners.map(({ id, name }): Choice => ({ value: id, words: name })),
    ],
    packs: [
      ...picture.packs.map((pack) => packForm(item, pack, picture, newKeys, state)),
      packForm(item, null, picture, newKeys, state),
    ],
    storeBeside: item.kind === 'preserve' ? storeBeside(picture, picture) : [],
    retire: state('retire', {}),
  };
}

const lineOf = ({ item, unitsLeft, recipes, leftOut, packs }: ItemPicture): string => {
  if (item.retiredOn !== null)
    return unitsLeft > 0
      ? 'No longer kept: what is on the shelf is there to be eaten, and no more is made or bought. You can bring it back as it was.'
      : 'No longer kept. Its history stays, and you can bring it back as it was.';
  if (item.kind === 'staple')
    return packs.length === 0
      ? 'Bought, but no pack is known: it cannot be planned until one is written down.'
      : 'Bought by the pack, when the plan says so.';
  if (recipes.length === 0) return 'Nothing makes it yet: add a recipe.';
  if (item.keeping !== 'canned' && recipes.every(({ process }) => process === null))
    return 'Put up here without a canner.';
  const out = recipes.filter(({ id }) => leftOut.some(({ recipeId }) => recipeId === id)).length;
  if (out === 0) return 'Put up here, by a tested process.';
  return out < recipes.length
    ? 'Put up here; not every recipe of it has a tested process here.'
    : 'Kept, but not planned yet. Its recipe says why.';
};

function ownRecipe(
  recipe: Recipe,
  { item, leftOut, guesses, supplies, copies, reference, reading, measuresOf }: ItemPicture,
  retireKeys: FormKeys,
  changes: OwnRecipeProps['changes'],
  state: StateOfForm,
  names: OwnRecipeProps['names'],
  leftOvers: OwnRecipeProps['leftOvers'],
): OwnRecipeProps {
  const way = wayOf(recipe, reference);
  const crock = crockOf(recipe, reference);
  const printed = copies.get(recipe.id);
  const isCanned = recipe.process !== null || recipe.awaitsCanner;
  const maybeFrozen = mayWait(recipe, printed);
  const amounts = ownAmounts(recipe, { item, measuresOf, reading });
  const produce = recipe.produce.map(
    ({ crop, lb }) => `${formatQuantity(lb, 'lb', reading)} ${cropGuessFor(crop).plural}`,
  );
  const used = recipe.supplies.flatMap(({ supplyId, quantity }) => {
    const supply = supplies.find(({ id }) => id === supplyId);
    return supply ? [`${supplyAmount(quantity, supply.unit, reading)} ${supply.name.toLowerCase()}`] : [];
  });
  return {
    recipeId: recipe.id,
    name: recipe.name,
    jar: recipe.jarKind === null ? null : formatJarKind(recipe.jarKind),
    comes: comesWords(recipe, item, reading),
    needs: [...produce, ...(leftOvers.takes === null ? [] : [leftOvers.takes]), ...used].join(', '),
    crock:
      crock === null
        ? null
        : `${formatQuantity(crock.quarts, 'qt', reading)}, for up to ${oneOrMore(crock.days, 'day')}`,
    source: printed
      ? inWords(printed.source)
      : way !== undefined
        ? inWords(citationOf(way))
        : recipe.basedOn === ownWay
          ? 'your own way'
          : recipe.basedOn,
    leftOvers,
    way: way === undefined ? null : presentWay(way, reading),
    neverCanned: recipe.basedOn === ownWay && hasOwnAmounts(recipe) ? neverCanned(reference) : null,
    minutes: learntWords(recipe),
    isGuess: guesses.some(({ kind, subject }) => kind === 'minutes' && subject === recipe.id),
    isCanned,
    why: (leftOut.find(({ recipeId }) => recipeId === recipe.id)?.reasons ?? []).map(
      ({ message }) => message,
    ),
    names,
    retireKeys,
    changes,
    madeOf: maybeFrozen ? madeOfChoices : null,
    amounts,
    form: state(
      `recipe-${recipe.id}`,
      {
        cannerId: recipe.process?.cannerId ?? '',
        handsOnMinutes: String(recipe.atFirst.handsOnMinutes),
        madeOf: recipe.produce.some(({ mayBeFrozen }) => mayBeFrozen) ? 'frozen-too' : 'fresh',
        ...Object.fromEntries((amounts ?? []).flatMap(({ kept }) => kept)),
      },
      [...(isCanned ? [] : (['cannerId'] as const)), ...(maybeFrozen ? [] : (['madeOf'] as const))],
    ),
  };
}

export const mayWait = (recipe: Recipe, printed: TestedRecipe | undefined): boolean =>
  recipe.produce.length > 0 &&
  mayBeFrozenFirst(
    printed?.kind ?? null,
    recipe.basedOn === ownWay && recipe.process === null && !recipe.awaitsCanner,
  );

const madeOfChoices: readonly Choice[] = [
  { value: 'fresh', words: 'fresh, while it keeps' },
  { value: 'frozen-too', words: 'fresh, or frozen when it was ripe' },
];

/** What a batch of one's own way takes and gives, to be changed; null of what copies a printed recipe. */
/** What a batch is counted in; jars are never weighed. */
const weighedIn = (recipe: Recipe, item: Item): string => (recipe.jarKind === null ? item.unit : 'jar');

const comesWords = (recipe: Recipe, item: Item, reading: Reading): string => {
  const [low, high] = [recipe.yieldLow, recipe.yieldHigh].map((units) =>
    inReadersUnit(units, weighedIn(recipe, item), reading),
  );
  return formatRange(low ?? 0, high ?? 0, 'unit', reading);
};

const ownAmounts = (
  recipe: Recipe,
  { item, measuresOf, reading }: Pick<ItemPicture, 'item' | 'measuresOf' | 'reading'>,
) =>
  !hasOwnAmounts(recipe)
    ? null
    : [
        ...recipe.produce.map(({ crop, lb }) => ({
          field: poundsFieldOf(crop),
          label: poundsLabel(cropGuessFor(crop).plural.toLowerCase()),
          units: unitChoicesOf(measuresOf(crop), reading),
          kept: poundsKept(crop, poundsTyped(lb, reading), reading),
        })),
        {
          field: 'units',
          label: 'One batch gives',
          units: [],
          kept: [['units', unitsTyped(recipe.atFirst.yieldLow, weighedIn(recipe, item), reading)] as const],
        },
      ];

/** What the names of a recipe are asked about, and what was answered. */
const presentNames = (
  recipe: Recipe,
  { questions, reading, timeZone }: ItemPicture,
  newKeys: () => FormKeys,
  sentBack: SentBack | null,
): OwnRecipeProps['names'] => ({
  asked: (questions.get(recipe.id) ?? []).map((asked, at) => {
    const formId = `recipe-${recipe.id}-name-${at}`;
    const own = sentBack?.typed.askedName === asked.name ? { ...sentBack, formId } : null;
    return { ...asked, form: statesFrom(newKeys, own)(formId, { inIt: '' }) };
  }),
  problem: sentBack === null ? undefined : fieldsFrom(sentBack)(sentBack.formId, { inIt: '' }).problems[''],
  kept: recipe.nameDenials.map(({ name, otherFood, by, at }) => ({
    name,
    words: `Called “${name}”, with no ${otherFood} in it: said ${by === null ? '' : `by ${by} `}on ${formatDate(dateInZone(at, timeZone), reading)}.`,
    keys: newKeys(),
  })),
});

const learntWords = ({ handsOnMinutes, atFirst }: Recipe): string =>
  atFirst.batchesSeen === 0
    ? formatMinutes(handsOnMinutes)
    : `${formatMinutes(handsOnMinutes)}, from ${formatMinutes(atFirst.handsOnMinutes)} as said and ${oneOrMore(atFirst.batchesSeen, 'batch')} made here`;

function packForm(
  item: Item,
  pack: ShopPackSetting | null,
  { packs, reading }: ItemPicture,
  newKeys: () => FormKeys,
  state: StateOfForm,
): PackFormProps {
  const month = (value: number | undefined) => (value === undefined ? '' : String(value));
  const form = state(`pack-${pack?.id ?? ''}`, {
    units: pack === null ? '' : unitsTyped(pack.units, item.unit, reading),
    price: pack === null ? '' : plain(pack.price / 100),
    saleFromMonth: month(pack?.sale?.fromMonth),
    saleUntilMonth: month(pack?.sale?.untilMonth),
    salePrice: pack?.sale ? plain(pack.sale.price / 100) : '',
    mayBuy: pack?.isPlanned ?? false,
  });
  return {
    ...form,
    packId: pack?.id ?? '',
    words:
      pack === null
        ? item.kind === 'preserve'
          ? 'Write down a store’s price'
          : 'Add a pack'
        : `${item.kind === 'preserve' ? amountOf(item, pack.units, reading) : formatQuantity(pack.units, item.unit, reading)} for ${formatMoney(pack.price, reading)}`,
    isMadeHere: item.kind === 'preserve',
    unit: item.unit === 'each' ? 'pieces' : unitsOf(item, reading),
    removal: pack === null || (item.kind === 'staple' && packs.length < 2) ? null : newKeys(),
  };
}
