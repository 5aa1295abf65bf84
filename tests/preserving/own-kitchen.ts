import { asJarKind, type JarSize } from '../../shared/jar.ts';
import type { Household } from '../../src/household/household.ts';
import type { Item } from '../../src/household/item.ts';
import type { Canner } from '../../src/household/kitchen.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import { keptRecipe } from '../../src/preserving/recipes/kept-recipe.ts';
import { recipeBook, type TestedRecipe } from '../../src/preserving/recipes/recipe-book.ts';
import { tables } from './tables.ts';

// A household of the tests as the core knows it: a kitchen in Denver at 5,300 ft with a kettle and a pressure canner.

export const book = recipeBook(tables);

export const ofBook = (key: string): TestedRecipe => {
  const recipe = book.find((one) => one.key === key);
  if (!recipe) throw new Error(`no recipe ${key} in the book`);
  return recipe;
};

export const kettle = {
  id: 'kettle',
  name: 'Kettle',
  method: 'boiling-water',
  gauge: null,
  gaugeCheckedOn: null,
  gaugeOff: null,
  volumeQuarts: 21,
  holds: { quarts: 7, pints: 9, halfPints: 12 },
} as unknown as Canner;

export const pressureCanner = {
  ...kettle,
  id: 'pressure',
  name: 'Pressure canner',
  method: 'pressure',
  gauge: 'weighted',
  volumeQuarts: 23,
  holds: { quarts: 7, pints: 9, halfPints: 10 },
} as unknown as Canner;

export const householdAt = (altitudeFt: number | null, change: Partial<Household> = {}): Household =>
  ({ people: 3, timeZone: 'America/Denver', altitudeFt, ...change }) as unknown as Household;

export const itemOf = (name: string, change: Partial<Item> = {}): Item =>
  ({
    id: 'item',
    name,
    kind: 'preserve',
    keeping: 'canned',
    family: 'stone-fruit',
    unit: 'jar',
    usualJar: 'pint/regular',
    servingsPerUnit: 4,
    shelfLifeKey: null,
    bestQualityDays: 365,
    keepColdDays: null,
    freezerQuarts: null,
    chanceWanted: 0.9,
    familyMinimumUnits: null,
    emergencyUnits: null,
    retiredOn: null,
    ...change,
  }) as unknown as Item;

/** A recipe of the book as a household keeps it, by the first process printed for it, in jars of one size. */
export function copyOf(
  key: string,
  { jar = ofBook(key).yield.jar, in: canner = kettle }: { readonly jar?: JarSize; readonly in?: Canner } = {},
  change: Partial<Recipe> = {},
): Recipe {
  const tested = ofBook(key);
  const [process] = tested.processes;
  if (process === undefined) throw new Error(`${key} has no process`);
  const { yieldLow, yieldHigh, produce, readyAfterDays, crock } = keptRecipe(tested, jar, tables);
  const jarKind = asJarKind(jar, 'regular');
  return {
    id: key,
    itemId: 'item',
    name: tested.name,
    basedOn: key,
    changes: [],
    jarKind,
    process: {
      food: process.foodKey,
      style: process.style,
      pack: process.pack,
      cannerId: canner.id,
      jarKind,
    },
    awaitsCanner: false,
    processRefused: null,
    nameDenials: [],
    yieldLow,
    yieldHigh,
    handsOnMinutes: 90,
    atFirst: { yieldLow, yieldHigh, handsOnMinutes: 90, batchesSeen: 0 },
    readyAfterDays,
    crock,
    season: null,
    produce: produce.map(({ cropKey, lb }) => ({
      crop: cropKey.replaceAll('_', '-'),
      lb: lb ?? 1,
      mayBeFrozen: false,
    })),
    supplies: [],
    gives: [],
    uses: [],
    stages: [],
    way: null,
    ...change,
  } as unknown as Recipe;
}

/** A recipe of the household's own that is not canned. */
export const ownRecipe = (name: string, change: Partial<Recipe> = {}): Recipe =>
  copyOf(
    'apple-butter',
    {},
    { id: 'own' as never, name, basedOn: 'own', process: null, produce: [], ...change },
  );
