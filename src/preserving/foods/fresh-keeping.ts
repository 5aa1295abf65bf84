import { remembering } from '../../../shared/remembering.ts';
import type { ShelfLifeRow } from '../../../shared/schemas/reference/shelf-life.ts';
import { foldedWords, type Named, namedIn } from './name-reading.ts';

/** How long a fresh ingredient stands before its batch is made. */
export interface FreshKeeping {
  readonly days: number;
  /** The published line it follows from. */
  readonly row: ShelfLifeRow;
}

/** Foods as names say them, by the line of the table that speaks of them. Which goes with which is our own pairing. */
const lines: readonly (readonly [itemKey: string, foods: readonly string[]])[] = [
  ['fresh_poultry', ['chicken', 'turkey', 'duck', 'goose', 'poultry']],
  ['fresh_ground_meat', ['sausage']],
  ['fresh_variety_meat', ['liver']],
  ['fresh_meat', ['meat', 'beef', 'pork', 'lamb', 'veal', 'venison', 'bear', 'rabbit']],
  ['fresh_fish', ['fish', 'tuna']],
  ['fresh_shellfish', ['clam', 'oyster', 'mussel', 'crab', 'shrimp', 'seafood', 'lobster']],
  ['fresh_strawberry', ['strawberry']],
  ['fresh_raspberry', ['raspberry']],
  ['fresh_blackberry', ['blackberry', 'currant']],
  ['fresh_blueberry', ['blueberry']],
  ['fresh_cherry', ['cherry']],
  ['fresh_peach_pear_plum', ['peach', 'nectarine', 'plum', 'pear']],
  ['fresh_apricot', ['apricot']],
  ['fresh_grape', ['grape']],
  ['fresh_cucumber', ['cucumber']],
  ['fresh_corn', ['corn']],
  ['fresh_beet', ['beet']],
  ['fresh_cabbage', ['cabbage']],
  ['fresh_pepper', ['pepper']],
  ['fresh_rhubarb', ['rhubarb']],
  ['fresh_asparagus', ['asparagus']],
];

/** Raw meat and fish that the words of the gate do not hold. Ordinary vocabulary, no source. */
const moreAnimals: Readonly<Record<string, string>> = Object.fromEntries(
  [
    ['fresh_poultry', 'quail pheasant giblet giblets gizzard gizzards hen hens'],
    ['fresh_ground_meat', 'hamburger burger'],
    ['fresh_meat', 'bison buffalo goat antelope boar steak steaks'],
    ['fresh_fish', 'cod halibut perch walleye tilapia pollock haddock whitefish bass catfish pike'],
    ['fresh_shellfish', 'scallop scallops squid crawfish'],
  ].flatMap(([key = '', words = '']) => words.split(' ').map((word) => [word, key])),
);

/** Words that say an ingredient is not fresh. Ordinary vocabulary, no source. */
const keptWords = new Set(
  (
    'frozen freezer dried dry dehydrated canned tinned bottled jarred cured smoked salted jerky powder powdered flakes flake seed seeds ' +
    'juice cider sauce paste concentrate syrup vinegar pickled pickle candied crystallized glazed maraschino raisin raisins crushed ' +
    'broth stock bouillon soup base jam jelly preserves extract oil wine starch meal cornmeal popcorn spice spices seasoning rub salt sugar nectar ' +
    'kraut sauerkraut kimchi'
  ).split(' '),
);
/** Raw bones, whatever they are for: "soup bones" are no soup. */
const bones = new Set('bone bones frame frames carcass carcasses'.split(' '));
const liquids = new Set('broth stock soup base'.split(' '));
/** A word that means a spice beside a vegetable, and meat that was minced beside an animal. */
const ground = new Set('ground minced mince hamburger stew'.split(' '));

/**
 * Raw meat and fish are bought at most so many days before their session: the charts' shorter lives (poultry, fish, ground meat)
 * taken for all, since a name seldom says the cut.
 */
const mostDaysRaw = 2;
/** What stands this long is bought with the rest, in the week before. Judged, no source. */
const keepsFromDays = 14;

/**
 * How long an ingredient of this name stands fresh, by the published life of its food; null for what keeps, what is not fresh
 * (dried, frozen, in a bottle), and what the table does not speak of. Of several foods the shortest life counts; of vegetables
 * and fruit the shorter published figure, days.
 *
 * Example: "Chicken frames" 2 by `fresh_poultry`; "Chicken frames, frozen", "Yellow onions" and "Apple juice" null.
 */
export function freshKeeping(name: string, table: readonly ShelfLifeRow[]): FreshKeeping | null {
  const known = byTable.get(table) ?? remembering((one: string) => readFreshKeeping(one, table));
  byTable.set(table, known);
  return known(name);
}

/** A year asks after the same few names again and again. */
const byTable = new WeakMap<readonly ShelfLifeRow[], (name: string) => FreshKeeping | null>();

function readFreshKeeping(name: string, table: readonly ShelfLifeRow[]): FreshKeeping | null {
  const words = foldedWords(name);
  const isBones = words.some((word) => bones.has(word));
  if (words.some((word) => keptWords.has(word) && !(isBones && liquids.has(word)))) return null;
  const isGround = words.some((word) => ground.has(word));
  const bare: readonly Named[] = isBones ? [{ food: 'meat', group: 'meat', sure: true, doubt: null }] : [];
  const more = words.flatMap((word) => moreAnimals[word] ?? []);
  const lineOf = (key: string | undefined): ShelfLifeRow | undefined =>
    table.find(({ itemKey, form, state }) => itemKey === key && form === 'fresh' && state === 'unopened');
  const raw = more.flatMap((key): FreshKeeping[] => {
    const row = lineOf(key);
    return row === undefined ? [] : [{ days: Math.min(mostDaysRaw, row.maxDays), row }];
  });
  const said = [...namedIn(name), ...bare]
    .filter(({ doubt }) => doubt !== 'meaning')
    .flatMap(({ food, group }): FreshKeeping[] => {
      const isAnimal = group === 'meat' || group === 'seafood';
      if (isGround && !isAnimal) return [];
      const key = lines.find(([, foods]) => foods.includes(food))?.[0];
      const row = lineOf(key);
      if (row === undefined) return [];
      const days = isAnimal ? Math.min(mostDaysRaw, row.maxDays) : row.minDays;
      return days < keepsFromDays ? [{ days, row }] : [];
    });
  return [...raw, ...said].toSorted((one, other) => one.days - other.days)[0] ?? null;
}
