import type { NameDenial } from '../../household/recipe.ts';
import { cite } from '../citation.ts';
import type { TestedRecipe } from '../recipes/recipe-book.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from '../refusal.ts';
import { covers, type FoodGroup } from './food-words.ts';
import { foldedWords, type Named, namedIn } from './name-reading.ts';
import { refusalOfUntested, untestedAmong } from './untested-foods.ts';

/** What a household's own name for a recipe comes to. */
export type NameAnswer =
  | { readonly kind: 'fits' }
  | {
      readonly kind: 'ask';
      /** "This process was tested for apple butter. Is there fig in it?" */
      readonly question: string;
      /** "fig": what the answer is remembered for. */
      readonly otherFood: string;
      /** "No, there is no fig in it" */
      readonly no: string;
      /** False where the name is that of a refused food written otherwise ("Pumkin butter"): only another name helps. */
      readonly mayBeDenied: boolean;
      /** What stands against it once somebody says that there is. */
      readonly ifYes: Refusal;
    };

/** What a process was tested for, as far as a name is held against it. */
export type TestedFood = Pick<TestedRecipe, 'name' | 'processes'> &
  Partial<{
    readonly kind: TestedRecipe['kind'];
    readonly ingredients: readonly { readonly ingredient: string }[];
  }>;

/**
 * Holds a name against what its process was tested for.
 *
 * Refused: a name of a food that must not be canned, in any of the languages of the word list, in any order, glued or not;
 * unless the tested food itself is called so (cantaloupe pickles). Asked: a name of a food that is no part of the tested
 * recipe, and one that only may name a refused food (misspelt, a part of a longer word, or just denied: "without pumpkin").
 * Everything else fits, whatever a household likes to call its jars. Without a tested food (`null`) only refusals and
 * what may be one are held against the name.
 *
 * Source: USDA Complete Guide 1, p1-8 (a process is for the food it was tested for); the rules as cited in each refusal.
 */
export const nameRuling = (name: string, recipe: TestedFood | null): Ruling<NameAnswer> => {
  const named = namedIn(name);
  const title = recipe ? titleOf(recipe) : [];
  const against = (said: readonly Named[]) =>
    untestedAmong(said).filter((match) => !match.named.every((one) => isPartOf(one, title)));
  const claimed = withoutDenied(name);
  const plain = (claimed === name ? against(named) : against(namedIn(claimed))).find(({ sure }) => sure);
  if (plain) return forbidden(refusalOfUntested(plain.food, 'name'));
  const matches = against(named);
  const [match] = matches;
  const others = recipe === null ? [] : foreignTo(named, recipe, title);
  const foreign = match?.named.filter((one) => !isPartOf(one, title)) ?? [];
  const likely = foreign.length > 0 ? foreign : (match?.named ?? []);
  const asked = [
    ...new Set([...likely, ...others, ...plainButter(name, named, recipe)].map(({ food }) => food)),
  ];
  if (asked.length === 0) return allowed({ kind: 'fits' });
  return allowed({
    kind: 'ask',
    ...question(asked, named, recipe),
    mayBeDenied: matches.every((one) => one.named.every(({ doubt }) => doubt !== 'spelling')),
    ifYes: match ? refusalOfUntested(match.food, 'name') : notPartOf(listed(asked), recipe),
  });
};

/**
 * What stands against a name: the rule it falls under, or the question nobody has answered; nothing where it fits, or where
 * somebody said of exactly this name that the other food is not in it. No answer lifts what a rule refuses.
 */
export const nameRefusals = (
  name: string,
  recipe: TestedFood | null,
  denials: readonly NameDenial[] = [],
): readonly Refusal[] => {
  const ruling = nameRuling(name, recipe);
  if (!ruling.ok) return ruling.problems;
  if (ruling.value.kind === 'fits') return [];
  const { question, otherFood, mayBeDenied } = ruling.value;
  if (mayBeDenied && denials.some((denial) => denial.name === name && denial.otherFood === otherFood))
    return [];
  return [
    refusal(
      nameOfAnotherFood,
      'name',
      `“${name.slice(0, 60)}” names another food. ${question}`,
      cite('USDA-G1', 'p1-8'),
      `If there is none, give it a name that does not say ${otherFood}${mayBeDenied ? ', or say so' : ''}. If there is, add the tested recipe of that food, or keep it frozen or refrigerated.`,
    ),
  ];
};

/** The code of a refusal that is a question: the gate stays shut until somebody answers it, or renames. */
export const nameOfAnotherFood = 'name-of-another-food';

/** What it comes to where the other food is in it. */
const notPartOf = (otherFood: string, recipe: TestedFood | null): Refusal =>
  refusal(
    'other-food-in-it',
    'name',
    recipe === null
      ? `No process was tested for ${otherFood} under this name`
      : `The process was tested for ${testedFoodWords(recipe)}, and ${otherFood} is not part of that: it may not be canned by it`,
    cite('USDA-G1', 'p1-8'),
    'Add the tested recipe of that food from the book, or keep it frozen or refrigerated.',
  );

const denials = new Set(
  'no not without non sans sin ohne kein keine senza bez zonder geen sem utan uden uten без'.split(' '),
);
/** Words a denial reaches: "without any pumpkin". */
const deniedWords = 2;

/** The name without what it says is not in it: "Apple butter without pumpkin" claims apple butter. "No. 7" denies nothing. */
function withoutDenied(name: string): string {
  const clauses = name.replace(/\b(?:no|nr)\s*(?:\.|#|(?=\d))/gi, ' ').split(/([,;:()/–—]+)/);
  let isChanged = false;
  const kept = clauses.map((clause) => {
    const words = clause.split(/[\s-]+/).filter(Boolean);
    const folded = words.map((word) => foldedWords(word).join(''));
    const gone = new Set<number>();
    for (const [at, word] of folded.entries()) {
      if (denials.has(word)) for (let step = 0; step <= deniedWords; step += 1) gone.add(at + step);
      if (word === 'free' && at > 0) gone.add(at).add(at - 1);
    }
    if (gone.size === 0) return clause;
    isChanged = true;
    return words.filter((_, at) => !gone.has(at)).join(' ');
  });
  return isChanged ? kept.join(' ') : name;
}

/** What the tested food is itself called: its name and the names and styles of its processes. */
const titleOf = ({ name, processes, kind }: TestedFood): readonly Named[] => [
  ...namedIn(name),
  ...processes.flatMap(({ foodKey, style }) => namedIn(`${foodKey} ${style}`)),
  ...(kind === 'butter' ? namedIn('butter') : []),
  ...(/sauce|butter/i.test(name) ? namedIn('puree') : []),
  ...(/puree/i.test(name) ? namedIn('fruit') : []),
  ...(kind === 'jam' || kind === 'jelly' ? namedIn('jelly') : []),
];

const isPartOf = ({ food }: Named, tested: readonly Named[]): boolean =>
  tested.some((one) => one.food === food || (covers[one.food] ?? []).includes(food));

/** Whether one is a general word for the other: "fruit" names strawberries. */
const isGeneralFor = ({ food, group }: Named, tested: readonly Named[]): boolean =>
  tested.some((one) => (covers[food] ?? []).includes(one.food) || (food === group && one.group === group));

/** Groups whose words are no food of their own, or are known from every kitchen and change nothing. */
const neverAsked: readonly FoodGroup[] = ['quality'];
const seasonings = ['herb', 'lemon', 'lime', 'oil', 'butter', 'smoked', 'applesauce', 'relish'];

function foreignTo(named: readonly Named[], recipe: TestedFood, title: readonly Named[]): readonly Named[] {
  const tested = [...title, ...(recipe.ingredients ?? []).flatMap(({ ingredient }) => namedIn(ingredient))];
  return named.filter(
    (one) =>
      !neverAsked.includes(one.group) &&
      !seasonings.includes(one.food) &&
      !isPartOf(one, tested) &&
      !isGeneralFor(one, tested),
  );
}

/** Words that leave "butter" the butter of a cow. */
const plainWords = new Set(
  'butter butters mantequilla beurre burro manteiga boter smor maslo масло vaj canned home homemade fresh salted unsalted sweet melted clarified dairy cow cows the jar jars of in our my'.split(
    ' ',
  ),
);

/** "Butter" with no other word in it may be the butter of a cow; "Grandma's butter" of a tested apple butter is not. */
const plainButter = (name: string, named: readonly Named[], recipe: TestedFood | null): readonly Named[] => {
  const butter = named.filter(({ food }) => food === 'butter');
  const isButter = recipe !== null && titleOf(recipe).some(({ food }) => food === 'butter');
  const isPlain = foldedWords(name).every((word) => plainWords.has(word.replace(/’s$/, '')));
  return isPlain ||
    (!isButter && !named.some(({ group }) => group === 'fruit')) ||
    (recipe !== null && !isButter)
    ? butter
    : [];
};

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

function question(
  asked: readonly string[],
  named: readonly Named[],
  recipe: TestedFood | null,
): { readonly question: string; readonly otherFood: string; readonly no: string } {
  const isForm = (food: string): boolean => named.some((one) => one.food === food && one.group === 'form');
  const [foods, forms] = [asked.filter((food) => !isForm(food)), asked.filter(isForm)];
  const tested = recipe === null ? '' : `This process was tested for ${testedFoodWords(recipe)}. `;
  const inIt = foods.length === 0 ? '' : `Is there ${listed(foods)} in it?`;
  const isIt = forms.length === 0 ? '' : `Is it made as ${listed(forms)}?`;
  return {
    question: `${tested}${[inIt, isIt].filter(Boolean).join(' ')}`,
    otherFood: listed(asked),
    no: `No, ${[foods.length === 0 ? '' : `there is no ${listed(foods)} in it`, forms.length === 0 ? '' : `it is not made as ${listed(forms)}`].filter(Boolean).join(', and ')}`,
  };
}

/** The tested food in running words: "apple butter", "peaches, halved or sliced". */
const testedFoodWords = ({ name }: Pick<TestedFood, 'name'>): string => {
  const plain = name.replace(/ \(\d+ (quarts|pints)\)$/, '');
  return plain.charAt(0).toLowerCase() + plain.slice(1);
};

/**
 * "Grandma's butter — apple butter, tested process": a headline that hides neither name. A name that says the tested food's
 * own words and no other food says it already: "Spiced apple butter" stands alone.
 */
export const nameWithTestedFood = (name: string, recipe: TestedFood): string =>
  saysItself(name, recipe) ? name : `${name} — ${testedFoodWords(recipe)}, tested process`;

function saysItself(name: string, recipe: TestedFood): boolean {
  const singular = (word: string): string =>
    word
      .replace(/ies$/, 'y')
      .replace(/(ch|sh|x|z|ss|o)es$/, '$1')
      .replace(/(?<=[^s])s$/, '');
  const wordsOf = (text: string): readonly string[] => foldedWords(text).map(singular);
  const [head = ''] = recipe.name.split(/[,(]/);
  const said = wordsOf(name);
  const tested = [
    ...titleOf(recipe),
    ...(recipe.ingredients ?? []).flatMap(({ ingredient }) => namedIn(ingredient)),
  ];
  return (
    wordsOf(head).every((word) => said.includes(word)) && namedIn(name).every((one) => isPartOf(one, tested))
  );
}
