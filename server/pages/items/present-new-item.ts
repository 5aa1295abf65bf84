import { counted } from '../../../shared/counting.ts';
import { families } from '../../../shared/family.ts';
import { groupedBy } from '../../../shared/grouped-by.ts';
import { asJarKind, type JarSize, mouths } from '../../../shared/jar.ts';
import { poundsFieldOf, poundsLabel, type UncannedKeeping } from '../../../shared/schemas/item.ts';
import type { RecipeKind } from '../../../shared/schemas/reference/recipe.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { UncannedWayRow } from '../../../shared/schemas/reference/uncanned-way.ts';
import { inWords } from '../../../src/preserving/citation.ts';
import { tradeMeasuresOf } from '../../../src/preserving/foods/trade-measures.ts';
import { handsOnGuess } from '../../../src/preserving/recipes/hands-on-guess.ts';
import { keptRecipe } from '../../../src/preserving/recipes/kept-recipe.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { recipeFamily } from '../../../src/preserving/recipes/recipe-family.ts';
import { recipeLife } from '../../../src/preserving/recipes/recipe-life.ts';
import type { TestedWays } from '../../../src/preserving/recipes/tested-ways.ts';
import type { NewPreserveProps } from '../../../views/pages/items/new-preserve-page.tsx';
import type { NewStapleProps } from '../../../views/pages/items/new-staple-page.tsx';
import type { BookPart } from '../../../views/pages/items/recipe-list-page.tsx';
import type { Choice } from '../../../views/parts/form.tsx';
import type { AskedName } from '../../../views/parts/name-question.tsx';
import {
  familyWords,
  formatJarKind,
  formatNumber,
  formatRange,
  jarWord,
  readersUnit,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import { poundsWords, spanWords } from '../../words/canning/way-words.ts';
import { publishedLifeWords } from '../../words/published-life.ts';
import type { SentBack, StateOfForm } from '../shared/answer-form.ts';
import { poundsKept, poundsTyped, unitChoicesOf, weightUnit } from '../shared/produce/units.ts';
import { supplyAmount } from '../shared/supply-amount.ts';

export const familyChoices: readonly Choice[] = families.map((value) => ({
  value,
  words: familyWords[value],
}));

/** Parts of the recipe book as a cook would look for them. */
const bookParts: readonly { readonly title: string; readonly kinds: readonly RecipeKind[] }[] = [
  { title: 'Jams, jellies and spreads', kinds: ['jam', 'jelly', 'spread', 'butter', 'syrup'] },
  { title: 'Fruit', kinds: ['fruit', 'sauce-fruit', 'juice', 'pie-filling'] },
  { title: 'Tomatoes and sauces', kinds: ['tomato', 'salsa', 'sauce', 'ketchup', 'chutney'] },
  { title: 'Pickles and relishes', kinds: ['pickle', 'relish', 'ferment'] },
  { title: 'Vegetables, beans and meals', kinds: ['vegetable', 'beans', 'meal'] },
];

/** The book, sorted by what is made; recipes that fit the words looked for. */
export function presentBook(
  book: readonly TestedRecipe[],
  isCannedHere: (recipe: TestedRecipe) => boolean,
  words: string,
  itemId: string,
  reading: Reading,
  isShown: (recipe: TestedRecipe) => boolean = () => true,
): readonly BookPart[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  const fits = ({ name, produce, kind }: TestedRecipe) => {
    if (wanted.length === 0) return true;
    const text = `${name} ${kind} ${produce.map(({ ingredient }) => ingredient).join(' ')}`.toLowerCase();
    return wanted.every((word) => text.includes(word));
  };
  const named = groupedBy(book, ({ name }) => name);
  return bookParts.flatMap(({ title, kinds }): BookPart[] => {
    const own = book.filter((recipe) => kinds.includes(recipe.kind) && fits(recipe) && isShown(recipe));
    if (own.length === 0) return [];
    return [
      {
        title,
        recipes: [...own]
          .sort((one, other) => (one.name < other.name ? -1 : 1))
          .map((recipe) => ({
            key: recipe.key,
            name: recipe.name,
            href: `/items/new?recipe=${recipe.key}${itemId === '' ? '' : `&item=${itemId}`}`,
            note: noteOf(recipe, isCannedHere(recipe), named, reading),
          })),
      },
    ];
  });
}

/** Parts of the book that need no canner, as they are kept. */
const wayParts: readonly { readonly title: string; readonly keeping: UncannedKeeping }[] = [
  { title: 'Frozen', keeping: 'frozen' },
  { title: 'Dried', keeping: 'dried' },
  { title: 'In the cellar', keeping: 'cellar' },
  { title: 'Fermented and kept cold', keeping: 'fermented' },
  { title: 'In the refrigerator', keeping: 'refrigerated' },
];

/** The ways of the book that need no canner and fit the words looked for; for an item only those it is kept by. */
export function presentWaysOfBook(
  { uncannedWays }: Pick<ReferenceTables, 'uncannedWays'>,
  words: string,
  addTo: { readonly id: string; readonly keeping: string } | null,
  reading: Reading,
): readonly BookPart[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return wayParts.flatMap(({ title, keeping }): BookPart[] => {
    const own = uncannedWays.filter((way) => {
      const text = `${way.name} ${way.keeping} ${way.material ?? ''}`.toLowerCase();
      return (
        way.keeping === keeping &&
        (addTo === null || addTo.keeping === keeping) &&
        wanted.every((word) => text.includes(word))
      );
    });
    if (own.length === 0) return [];
    return [
      {
        title,
        recipes: [...own]
          .sort((one, other) => (one.name < other.name ? -1 : 1))
          .map((way) => ({
            key: way.wayKey,
            name: way.name,
            href: `/items/new?kind=uncanned&way=${way.wayKey}${addTo === null ? '' : `&item=${addTo.id}`}`,
            note: wayNote(way, reading),
          })),
      },
    ];
  });
}

const wayNote = (way: UncannedWayRow, reading: Reading): string =>
  [
    ...(way.material === null ? [] : ['made of what another batch leaves']),
    ...(way.lbPerUnit === null
      ? []
      : [
          `${poundsWords(way.lbPerUnit, reading)} for one ${way.unit === 'bag' ? 'pint bag' : way.unit.replace(/\/.*/, '')}`,
        ]),
    ...(way.blanchMinutes === null
      ? []
      : [`blanched ${counted(spanWords(way.blanchMinutes, reading), 'minute')}`]),
    ...(way.basis === 'memory' ? ['from memory'] : []),
  ].join('; ');

/** What comes of it; recipes of one name are told apart by their pectin and where they stand. */
const noteOf = (
  recipe: TestedRecipe,
  isCannedHere: boolean,
  named: ReadonlyMap<string, readonly TestedRecipe[]>,
  reading: Reading,
): string => {
  const { low, high, jar } = recipe.yield;
  const jars = jarWord(asJarKind(jar, 'regular')).many;
  const namesakes = (named.get(recipe.name) ?? []).length > 1;
  const pectin = recipe.ingredients.find(({ kind }) => kind === 'pectin')?.ingredient;
  return [
    `${formatRange(low, high, 'unit', reading)} ${jars}`,
    ...(pectin === undefined ? [] : [pectin]),
    ...(namesakes ? [recipe.source.sourceId] : []),
    ...(isCannedHere ? [] : ['no tested process here yet']),
  ].join('; ');
};

export interface NewPreservePicture {
  readonly recipe: TestedRecipe;
  readonly ways: TestedWays;
  readonly reference: ReferenceTables;
  readonly reading: Reading;
  /** The item a further recipe is added to; null for a new item. */
  readonly addTo: { readonly id: string; readonly name: string } | null;
}

export interface NewItemSentBack extends SentBack {
  /** The question about the name, where it has one. */
  readonly asked?: AskedName | null;
}

/** A plain name from the printed one: "Peaches, halved or sliced (9 pints)" becomes "Peaches". */
const plainName = ({ name, amounts }: TestedRecipe): string =>
  amounts === 'load'
    ? sentenceCase(name.replace(/\s*\([^)]*\)$/, '').replace(/, .*$/, ''))
    : name.replace(/, .*$/, '');

/** Sizes that can be chosen: those tested here, else those the canners fit, else those that are printed at all. */
function sizesOffered(recipe: TestedRecipe, ways: TestedWays): readonly JarSize[] {
  const sizes = new Set(
    ways.here.length > 0
      ? ways.here.map(({ jar }) => jar)
      : ways.waiting.length > 0
        ? ways.waiting.map(({ jar }) => jar)
        : ways.printed,
  );
  return sizes.size > 0 ? [...sizes] : [recipe.yield.jar];
}

export function presentNewPreserve(
  { recipe, ways, reference, reading, addTo }: NewPreservePicture,
  state: StateOfForm,
  asked: AskedName | null,
): Omit<NewPreserveProps, 'frame'> {
  const sizes = sizesOffered(recipe, ways);
  const usual = sizes.includes(recipe.yield.jar) ? recipe.yield.jar : (sizes[0] ?? recipe.yield.jar);
  const kept = keptRecipe(recipe, usual, reference);
  const life = recipeLife(recipe, reference.shelfLives);
  const usualKind = asJarKind(usual, 'regular');
  const form = state(
    'new-preserve',
    {
      name: plainName(recipe),
      family: recipeFamily(recipe),
      jarKind: usualKind,
      handsOnMinutes: String(handsOnGuess[recipe.kind]),
      yearsInTwenty: '16',
      amount: '',
      per: 'month',
      inIt: '',
      materialLb: '',
      ...Object.fromEntries(
        kept.produce.flatMap(({ cropKey, lb }) =>
          poundsKept(cropKey.replaceAll('_', '-'), lb === null ? '' : poundsTyped(lb, reading), reading),
        ),
      ),
    },
    addTo === null ? [] : ['name', 'family', 'yearsInTwenty', 'amount', 'per'],
  );
  return {
    addTo,
    form,
    recipeKey: recipe.key,
    printedName: recipe.name,
    source: inWords(recipe.source),
    asked,
    families: familyChoices,
    jars: sizes.flatMap((size) =>
      mouths.map((mouth) => ({
        value: asJarKind(size, mouth),
        words: formatJarKind(asJarKind(size, mouth)),
      })),
    ),
    notPlanned: ways.here.length > 0 ? [] : ways.why,
    comes: `${formatRange(kept.yieldLow, kept.yieldHigh, 'unit', reading)} ${jarWord(usualKind).many} from one batch`,
    crops: kept.produce.map(({ cropKey, name, lb, weighed }) => {
      return {
        field: poundsFieldOf(cropKey.replaceAll('_', '-')),
        label: poundsLabel(name),
        hint:
          lb === null
            ? 'No weight is published. Weigh it once, or write your guess.'
            : weighed === 'prepared'
              ? 'Published as prepared weight, rounded up: write more if you pit or peel much.'
              : 'As published.',
        unit: weightUnit(reading),
        units: unitChoicesOf(tradeMeasuresOf(cropKey, reference), reading),
      };
    }),
    leftOver:
      recipe.material === null
        ? null
        : {
            field: 'materialLb',
            label: poundsLabel(recipe.material),
            hint: 'What another batch leaves. No weight is published: weigh it once, or write your guess.',
            unit: weightUnit(reading),
            units: [],
          },
    supplies: kept.supplies.map(
      ({ name, unit, quantity }) =>
        `${supplyAmount(quantity, unit, reading)} ${unit === 'each' ? '' : 'of '}${name}`,
    ),
    life: `Best quality for ${publishedLifeWords(life.published, reading)}; an opened jar keeps ${counted(formatNumber(life.opened.days, reading), 'day')} in the refrigerator.`,
  };
}

const countedWords = { lb: 'pounds', each: 'pieces', bag: 'bags', bin: 'bins' } as const;

/** What something may be counted in; what is weighed in pounds here a metric household weighs in kilograms. */
export const countedInChoices = (
  reading: Reading,
  units: readonly (keyof typeof countedWords)[],
): readonly Choice[] =>
  units.map((value) => ({
    value,
    words: readersUnit(value, reading) === 'kg' ? 'kilograms' : countedWords[value],
  }));

export const presentNewStaple = (state: StateOfForm, reading: Reading): Omit<NewStapleProps, 'frame'> => ({
  units: countedInChoices(reading, ['lb', 'each', 'bag', 'bin']),
  form: state('new-staple', {
    name: '',
    family: 'dry-goods',
    unit: 'lb',
    bestQualityDays: '365',
    packUnits: '',
    packPrice: '',
    yearsInTwenty: '18',
    amount: '',
    per: 'month',
  }),
  families: familyChoices,
});
