import { z } from 'zod';
import { bounds, letters } from '../../shared/bounds.ts';
import { type Family, family } from '../../shared/family.ts';
import { type JarKind, jarKinds } from '../../shared/jar.ts';
import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';
import { choiceField, numberField, readForm, textField } from '../../shared/schemas/form-fields.ts';
import type { Item } from '../../src/household/item.ts';
import { publishedHomeCannedDays } from '../../src/shelf/best-quality.ts';
import type { UnknownName } from './list-import.ts';

// A list names things the household does not keep yet. Each is either one it keeps under another name, or is added.

/** How a new item is kept, as the person reads it, and what that makes of it. */
export const waysOfKeeping = {
  'canned jar': { words: 'put up in jars', kind: 'preserve', keeping: 'canned', unit: 'jar' },
  'fermented jar': { words: 'fermented, in jars', kind: 'preserve', keeping: 'fermented', unit: 'jar' },
  'frozen bag': { words: 'frozen, by the bag', kind: 'preserve', keeping: 'frozen', unit: 'bag' },
  'dried bag': { words: 'dried, by the bag', kind: 'preserve', keeping: 'dried', unit: 'bag' },
  'cellar bin': { words: 'in the cellar, by the bin', kind: 'preserve', keeping: 'cellar', unit: 'bin' },
  'cellar lb': { words: 'in the cellar, by the pound', kind: 'preserve', keeping: 'cellar', unit: 'lb' },
  'bought each': { words: 'bought, by the piece', kind: 'staple', keeping: 'bought', unit: 'each' },
  'bought bag': { words: 'bought, by the bag', kind: 'staple', keeping: 'bought', unit: 'bag' },
  'bought lb': { words: 'bought, by the pound', kind: 'staple', keeping: 'bought', unit: 'lb' },
} as const satisfies Readonly<
  Record<string, { readonly words: string } & Pick<Item, 'kind' | 'keeping' | 'unit'>>
>;
export type WayOfKeeping = keyof typeof waysOfKeeping;
const ways = Object.keys(waysOfKeeping) as readonly WayOfKeeping[];

/** What becomes of one name of the list that is not known. */
export type NewListItem =
  | { readonly name: string; readonly sameAs: Item['id'] }
  | {
      readonly name: string;
      readonly sameAs: null;
      readonly way: WayOfKeeping;
      readonly family: Family;
      readonly jarKind: JarKind | null;
      readonly bestQualityDays: number;
    };

/** At most so many new names are asked about on one page. */
export const mostNewNames = 200;

export const fieldsOfNew = (at: number) =>
  ({
    name: `new-${at}-name`,
    as: `new-${at}-as`,
    family: `new-${at}-family`,
    jar: `new-${at}-jar`,
    days: `new-${at}-days`,
  }) as const;

/** What a name and its rows look like, to begin with: a guess that the person sees and changes. */
export function guessOfNew({
  name,
  jar,
}: UnknownName): Readonly<Record<'as' | 'family' | 'jar' | 'days', string>> {
  const guessed = familyOf(name);
  return {
    as: jar === null ? '' : 'canned jar',
    family: guessed,
    jar: jar ?? 'pint/regular',
    days: jar === null ? '' : String(publishedHomeCannedDays),
  };
}

/** Words in names and the family they point to; our own, and only a first guess. */
const familyWords: readonly (readonly [RegExp, Family])[] = [
  [/pickle|relish|kraut|kimchi|chutney/i, 'pickles'],
  [/tomat|salsa|ketchup/i, 'tomatoes'],
  [/berr|grape|currant/i, 'berries'],
  [/peach|plum|apricot|cherr|nectarine/i, 'stone-fruit'],
  [/apple|pear|quince/i, 'apples-pears'],
  [/bean|pea\b|peas\b|corn|spinach|kale|greens/i, 'greens-beans'],
  [/carrot|beet|potato|onion|garlic|turnip|squash/i, 'roots'],
  [/beef|pork|chicken|turkey|venison|stock|broth|fish|soup|stew/i, 'meat-stock'],
];
const familyOf = (name: string): Family =>
  familyWords.find(([words]) => words.test(name))?.[1] ?? 'dry-goods';

/** Reads what was said about each new name; names nobody spoke of yet are left out. */
export function readNewItems(
  values: Readonly<Record<string, string>>,
  known: readonly Item[],
): Outcome<readonly NewListItem[]> {
  const read: NewListItem[] = [];
  const problems: Problem[] = [];
  for (let at = 0; at < mostNewNames && values[fieldsOfNew(at).name] !== undefined; at += 1) {
    const fields = fieldsOfNew(at);
    const said = readOne(values, fields, known);
    if (said.ok) read.push(said.value);
    else
      problems.push(
        ...said.problems.map((one) => ({ ...one, path: [fields[one.path[0] as keyof typeof fields]] })),
      );
  }
  return problems.length > 0 ? refused(...problems) : found(read);
}

const howForm = z.object({
  name: textField('Name', letters.name),
  as: choiceField('way of keeping', ways, (way) => waysOfKeeping[way].words),
});
const restForm = z.object({
  family: choiceField('kind of food', family.options),
  days: numberField({ label: 'Best quality', ...bounds.bestQualityDays, unit: 'days', example: '365' }),
});
const jarForm = z.object({ jar: choiceField('jar', jarKinds) });

function readOne(
  values: Readonly<Record<string, string>>,
  fields: ReturnType<typeof fieldsOfNew>,
  known: readonly Item[],
): Outcome<NewListItem> {
  const typed = (field: keyof typeof fields): string => values[fields[field]] ?? '';
  const same = known.find(({ id }) => typed('as') === `item ${id}`);
  if (same) return found({ name: typed('name'), sameAs: same.id });
  const how = readForm(howForm, { name: typed('name'), as: typed('as') });
  if (!how.ok) return how;
  const rest = readForm(restForm, { family: typed('family'), days: typed('days') });
  if (!rest.ok) return rest;
  const { name, as } = how.value;
  const jar = waysOfKeeping[as].unit === 'jar' ? readForm(jarForm, { jar: typed('jar') }) : null;
  if (jar !== null && !jar.ok) return jar;
  return found({
    name,
    sameAs: null,
    way: as,
    family: rest.value.family,
    jarKind: jar === null ? null : jar.value.jar,
    bestQualityDays: rest.value.days,
  });
}

/** An item that a name of the list becomes, before it is there: to hold rows against. */
export const itemToBe = (one: Extract<NewListItem, { sameAs: null }>): Item => {
  const { kind, keeping, unit } = waysOfKeeping[one.way];
  return {
    id: `new ${one.name}` as Item['id'],
    name: one.name,
    kind,
    keeping,
    unit,
    family: one.family,
    usualJar: one.jarKind,
    servingsPerUnit: null,
    shelfLifeKey: null,
    bestQualityDays: one.bestQualityDays,
    keepColdDays: null,
    freezerQuarts: null,
    chanceWanted: 0.8,
    familyMinimumUnits: null,
    emergencyUnits: null,
    countsAs: null,
    retiredOn: null,
  };
};

/** Items by what else the list calls them, in small letters. */
export const calledAlsoIn = (
  said: readonly NewListItem[],
  kept: readonly Item[],
): ReadonlyMap<string, Item> =>
  new Map(
    said.flatMap((one): [string, Item][] => {
      const item = one.sameAs === null ? itemToBe(one) : kept.find(({ id }) => id === one.sameAs);
      return item === undefined ? [] : [[one.name.toLowerCase(), item]];
    }),
  );
