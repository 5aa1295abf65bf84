import type { CannerId, CropKey, ItemId, RecipeId } from '../../../shared/ids.ts';
import { asJarKind, type JarSize, type mouths } from '../../../shared/jar.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { cropName } from '../../harvest/crop-name.ts';
import type { Item } from '../../household/item.ts';
import type { Recipe } from '../../household/recipe.ts';
import type { Supply } from '../../household/supplies.ts';
import { handsOnGuess } from '../../preserving/recipes/hands-on-guess.ts';
import type { TestedRecipe } from '../../preserving/recipes/recipe-book.ts';
import { recipeFamily } from '../../preserving/recipes/recipe-family.ts';
import { recipeLife } from '../../preserving/recipes/recipe-life.ts';
import { canningPlace, type GuessSupply, recipeToKeep } from '../../preserving/recipes/recipe-to-keep.ts';
import { testedRecipes } from '../../preserving/recipes/tested-recipes.ts';
import { testedWays } from '../../preserving/recipes/tested-ways.ts';
import { usualWeekday } from '../days/session-dates.ts';
import { orNone } from '../lookup.ts';
import type { HouseholdYear } from '../year/household-year.ts';
import { recipesHere } from '../year/planned-recipes.ts';
import type { NamedCrop } from './crop-by-words.ts';

const hyphened = (key: string): CropKey => key.replaceAll('_', '-') as CropKey;

/** Every crop the recipe book uses, by name. */
export function cropsOfBook(reference: ReferenceTables): readonly NamedCrop[] {
  const keys = testedRecipes(reference).flatMap(({ produce }) =>
    produce.flatMap(({ cropKey }) => (cropKey === null ? [] : [hyphened(cropKey)])),
  );
  return [...new Set(keys)].map((crop) => ({ crop, name: cropName(reference.harvestWindows, crop) }));
}

/**
 * The year with the book's tested recipes of a crop in place of the household's own, each as an item nobody eats yet: to
 * see what a crop that nothing here is made of could become. A recipe without a tested schedule in this kitchen, or
 * without published pounds, is left out. It is never planned.
 */
export function yearFromBook(
  loaded: HouseholdYear,
  crop: CropKey,
  reference: ReferenceTables,
  guessSupply: GuessSupply,
): HouseholdYear {
  const { facts, year } = loaded;
  const taken = testedRecipes(reference)
    .filter(({ produce }) => produce.some(({ cropKey }) => cropKey !== null && hyphened(cropKey) === crop))
    .flatMap((recipe) => takenFromBook(loaded, recipe, reference, guessSupply));
  const items = taken.map(({ item }) => item);
  const recipes = recipesHere(
    taken.map(({ recipe }) => recipe),
    {
      ...facts,
      items,
      weeks: year.weeks,
      asOf: year.asOf,
      sessionWeekday: usualWeekday(facts.hours),
      reference,
    },
  );
  const supplies = taken.flatMap((one) => one.supplies);
  return {
    ...loaded,
    facts: { ...facts, items: [...facts.items, ...items] },
    recipes,
    year: { ...year, recipes: recipes.planned, supplies: [...year.supplies, ...supplies] },
  };
}

interface Taken {
  readonly item: Item;
  readonly recipe: Recipe;
  /** Supplies the household has none of. */
  readonly supplies: readonly Supply[];
}

function takenFromBook(
  { facts, year }: HouseholdYear,
  book: TestedRecipe,
  reference: ReferenceTables,
  guessSupply: GuessSupply,
): Taken[] {
  const place = canningPlace(facts.household, facts.canners, year.asOf);
  const { here } = testedWays(reference, book, place);
  const way = here.find(({ jar }) => jar === book.yield.jar) ?? here[0];
  if (way === undefined) return [];
  const handsOnMinutes = handsOnGuess[book.kind];
  const jarKind = asJarKind(way.jar, mouthOwned(facts.jars, way.jar));
  const kept = recipeToKeep(
    book,
    { name: book.name, jarKind, handsOnMinutes, minutesGuessed: true, lbByCrop: new Map() },
    place,
    reference,
    guessSupply,
  );
  if (!kept.ok) return [];
  const { value } = kept;
  const id = `book-${book.key}`;
  const needed = value.supplies.map((supply) => {
    const own = facts.supplies.find(
      (one) => one.name.toLowerCase() === supply.name.toLowerCase() && one.unit === supply.unit,
    );
    return { supply, own, supplyId: own?.id ?? `${id}-${supply.name}` };
  });
  const life = recipeLife(book, reference.shelfLives);
  return [
    {
      item: {
        id: id as ItemId,
        name: book.name,
        kind: 'preserve',
        keeping: 'canned',
        family: recipeFamily(book),
        unit: 'jar',
        usualJar: jarKind,
        servingsPerUnit: null,
        shelfLifeKey: life.shelfLifeKey,
        bestQualityDays: life.bestQualityDays,
        keepColdDays: null,
        freezerQuarts: null,
        chanceWanted: 0.9,
        familyMinimumUnits: null,
        emergencyUnits: null,
        countsAs: null,
        retiredOn: null,
      },
      recipe: {
        id: id as RecipeId,
        itemId: id as ItemId,
        name: book.name,
        basedOn: book.key,
        changes: [],
        nameDenials: [],
        jarKind,
        process:
          value.process === null ? null : { ...value.process, cannerId: way.cannerId as CannerId, jarKind },
        awaitsCanner: false,
        processRefused: null,
        yieldLow: value.yieldLow,
        yieldHigh: value.yieldHigh,
        handsOnMinutes,
        atFirst: { yieldLow: value.yieldLow, yieldHigh: value.yieldHigh, handsOnMinutes, batchesSeen: 0 },
        readyAfterDays: value.readyAfterDays,
        crock: value.crock,
        season: null,
        produce: value.produce.map(({ crop, lb }) => ({ crop: crop as CropKey, lb, mayBeFrozen: false })),
        supplies: needed.map(({ supply, supplyId }) => ({ supplyId, quantity: supply.quantity })),
        gives: [],
        uses: [],
        stages: [],
        way: null,
      },
      supplies: needed.flatMap(({ supply, own, supplyId }) =>
        own === undefined
          ? [
              {
                id: supplyId,
                name: supply.name,
                unit: supply.unit,
                onHand: 0,
                packQuantity: supply.pack,
                packPrice: supply.packPrice,
              },
            ]
          : [],
      ),
    },
  ];
}

/** The mouth the household has most empty jars of; regular where it has none of the size. */
function mouthOwned(jars: HouseholdYear['facts']['jars'], size: JarSize): (typeof mouths)[number] {
  const empty = (mouth: (typeof mouths)[number]) =>
    orNone(jars.find(({ kind }) => kind === asJarKind(size, mouth))?.empty);
  return empty('wide') > empty('regular') ? 'wide' : 'regular';
}
