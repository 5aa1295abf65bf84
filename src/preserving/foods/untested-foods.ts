import { type Citation, cite } from '../citation.ts';
import { type Refusal, refusal } from '../refusal.ts';
import type { FoodGroup } from './food-words.ts';
import { type Named, namedIn } from './name-reading.ts';

/** A food that must not be canned at home however it is processed. */
export interface UntestedFood {
  readonly name: string;
  /** Foods, forms and qualities that must all be named, in any order; `#vegetable` is any of that group. */
  readonly named: readonly (readonly string[])[];
  readonly rule: string;
  readonly source: Citation;
  readonly instead: string;
}

/** All seven guides were read: what they print no process for is refused for that alone. */
const noneInGuide = cite('USDA-G1', 'Guides 1 to 7, none printed');

const freeze = 'Freeze it, or keep it in the refrigerator and eat it soon.';

const foodInOil = 'Food in oil';

const untestedFoods: readonly UntestedFood[] = [
  {
    name: 'Pumpkin butter',
    named: [
      ['pumpkin', 'butter'],
      ['winter squash', 'butter'],
    ],
    rule: 'There is no tested process for pumpkin butter or squash butter',
    source: cite('USDA-G4', 'p4-18'),
    instead:
      'Freeze the butter, or can pumpkin in cubes under pressure and make the butter when a jar is opened.',
  },
  {
    name: 'Mashed or pureed pumpkin and winter squash',
    named: [
      ['pumpkin', 'puree'],
      ['pumpkin', 'mash'],
      ['winter squash', 'puree'],
      ['winter squash', 'mash'],
      ['pumpkin', 'pie filling'],
      ['winter squash', 'pie filling'],
      ['pumpkin', 'curd'],
      ['pumpkin', 'custard'],
    ],
    rule: 'Pumpkin and winter squash have a tested process only in cubes, never mashed or pureed',
    source: cite('USDA-G4', 'p4-18'),
    instead: 'Can the cubes under pressure and mash them when a jar is opened, or freeze the puree.',
  },
  {
    name: 'Mashed or dry-packed sweet potatoes',
    named: [
      ['sweet potato', 'mash'],
      ['sweet potato', 'puree'],
      ['sweet potato', 'butter'],
      ['sweet potato', 'dry pack'],
    ],
    rule: 'Sweet potatoes have a tested process only in pieces in liquid, not mashed and not packed dry',
    source: cite('USDA-G4', 'p4-16'),
    instead: 'Can pieces in liquid under pressure, or freeze the mash.',
  },
  {
    name: 'Pureed vegetables, red meat or poultry',
    named: [
      ['#vegetable', 'puree'],
      ['#vegetable', 'mash'],
      ['#meat', 'puree'],
      ['#seafood', 'puree'],
    ],
    rule: 'Purees of vegetables, red meat and poultry heat too unevenly; none has a tested process',
    source: cite('USDA-G1', 'p1-31'),
    instead: freeze,
  },
  {
    name: 'Bananas, and purees of fig, Asian pear, melon, papaya, ripe mango, coconut or tomato',
    named: [
      ['banana'],
      ['fig', 'puree'],
      ['Asian pear', 'puree'],
      ['fig', 'butter'],
      ['Asian pear', 'butter'],
      ['melon', 'butter'],
      ['melon', 'puree'],
      ['papaya', 'puree'],
      ['papaya', 'butter'],
      ['mango', 'puree'],
      ['mango', 'butter'],
      ['tomato', 'puree'],
    ],
    rule: 'The fruit puree process is not tested for banana, fig, Asian pear, tomato, melon, papaya, ripe mango or coconut',
    source: cite('USDA-G2', 'p2-14'),
    instead: freeze,
  },
  {
    name: 'Wild mushrooms',
    named: [['wild', 'mushroom'], ['wild mushroom']],
    rule: 'Only domestic mushrooms have a tested process; wild ones must not be canned',
    source: cite('USDA-G4', 'p4-13'),
    instead: 'Dry or freeze them after an expert has named them.',
  },
  {
    name: 'Smoked seafood other than fish',
    named: [
      ['smoked', 'seafood'],
      ['smoked', 'oyster'],
      ['smoked', 'clam'],
      ['smoked', 'mussel'],
      ['smoked', 'shrimp'],
      ['smoked', 'crab'],
      ['smoked', 'lobster'],
    ],
    rule: 'Smoked seafood other than fish has no tested process',
    source: cite('USDA-G5', 'p5-13'),
    instead: 'Freeze it.',
  },
  {
    name: 'Dairy and eggs',
    named: [['milk'], ['cream'], ['cheese'], ['yogurt'], ['egg'], ['custard']],
    rule: 'Food with milk, cream, cheese or eggs has no tested process',
    source: cite('PSU-COLUMN', 'column of Sep 19, 2020'),
    instead:
      'Can the rest by a tested recipe and add these when the jar is opened; otherwise freeze or refrigerate.',
  },
  {
    name: 'Food thickened with flour, starch, pasta or rice',
    named: [['pasta'], ['rice'], ['dumpling'], ['gravy'], ['flour'], ['starch'], ['oats']],
    rule: 'Flour, starch, pasta, rice and other thickeners slow the heat; printed exceptions are ClearJel in pie fillings, flour in corn relish and cornstarch in green tomato relish',
    source: cite('USDA-G4', 'p4-18/19'),
    instead: 'Can the unthickened soup or sauce by its tested recipe and thicken it when the jar is opened.',
  },
  {
    name: foodInOil,
    named: [
      ['garlic', 'oil'],
      ['herb', 'oil'],
      ['#vegetable', 'oil'],
      ['#dairy', 'oil'],
      ['#meat', 'oil'],
      ['oil'],
      ['pesto'],
    ],
    rule: 'Food packed in oil can grow botulism bacteria; only the printed marinated peppers and marinated mushrooms have a process',
    source: cite('PSU-COLUMN', 'column of Sep 19, 2020'),
    instead: 'Freeze it, or refrigerate it and eat it within four days.',
  },
  {
    name: 'Quick breads and cakes in jars',
    named: [['bread'], ['cake']],
    rule: 'The guide prints no process for cake or bread baked in a jar',
    source: noneInGuide,
    instead: 'Freeze it.',
  },
  {
    name: 'Elderberries',
    named: [['elderberry']],
    rule: 'Elderberries and their juice are less acid than other berries and have no process here',
    source: cite('UMAINE-ELDER', 'elderberries'),
    instead: 'Freeze the berries or the juice.',
  },
  {
    name: 'White-fleshed peaches and nectarines',
    named: [
      ['white', 'peach'],
      ['white', 'nectarine'],
    ],
    rule: 'White-fleshed peaches and nectarines can be low-acid; no process or acid amount has been tested for them',
    source: cite('UW-WHITEPEACH', 'whole page'),
    instead: 'Freeze them; can yellow-fleshed fruit only.',
  },
  {
    name: 'Horseradish sauce',
    named: [['horseradish']],
    rule: 'Horseradish sauce has no canning process; it is kept in the refrigerator',
    source: cite('USDA-G6', 'p6-30'),
    instead: 'Refrigerate it.',
  },
  {
    name: 'Spreads set with gelatin',
    named: [['gelatin']],
    rule: 'Spreads set with gelatin are not canned; they keep in the refrigerator',
    source: cite('USDA-G7', 'p7-12'),
    instead: 'Refrigerate it and use it within 4 weeks.',
  },
  {
    name: 'Summer squash and zucchini, plain',
    named: [['zucchini']],
    rule: 'The guide prints no process for plain summer squash; only its pickles, the pineapple pack and the tomato mixture have one',
    source: noneInGuide,
    instead: 'Pickle it by a printed recipe, use the zucchini-pineapple recipe, or freeze it.',
  },
  {
    name: 'Curds of lemon and other fruit',
    named: [['curd']],
    rule: 'A curd holds egg and butter, and food with eggs or dairy has no process here',
    source: cite('PSU-COLUMN', 'column of Sep 19, 2020'),
    instead: 'Freeze the curd, or make it fresh from juice that was canned or frozen.',
  },
  {
    name: 'Butter, lard and other fat',
    named: [['garlic', 'butter'], ['herb', 'butter'], ['lard']],
    rule: 'Butter and fat are low-acid, shield germs from the heat, and have no tested process',
    source: cite('PSU-COLUMN', 'column of Sep 19, 2020'),
    instead: freeze,
  },
  {
    name: 'Nut butters and peanuts',
    named: [['peanut butter']],
    rule: 'The guide prints no process for nut butters or boiled peanuts',
    source: noneInGuide,
    instead: freeze,
  },
  {
    name: 'Chocolate, fudge and caramel sauce',
    named: [['chocolate'], ['caramel']],
    rule: 'Chocolate and fudge sauces are low-acid; none has a tested process in boiling water or under pressure',
    source: cite('NCHFP-CHOC', 'whole page'),
    instead: 'Freeze the sauce.',
  },
  {
    name: 'Coconut and coconut milk',
    named: [['coconut']],
    rule: 'Coconut is low-acid and has no tested process',
    source: cite('KSU-PUREE', 'whole page'),
    instead: freeze,
  },
  {
    name: 'Avocado',
    named: [['avocado']],
    rule: 'The guide prints no process for avocado',
    source: noneInGuide,
    instead: freeze,
  },
  {
    name: 'Papaya and persimmon',
    named: [['papaya'], ['persimmon']],
    rule: 'Papaya and persimmon are less acid than other fruit and have no process here',
    source: cite('UCANR-LOWACID', 'list of fruits that need acid'),
    instead: freeze,
  },
  {
    name: 'Dates and dragon fruit',
    named: [['dragon fruit'], ['date', 'puree'], ['date', 'butter']],
    rule: 'The guide prints no process for dates or dragon fruit',
    source: noneInGuide,
    instead: freeze,
  },
  {
    name: 'Melons, plain or as jam',
    named: [['melon']],
    rule: 'Melons are low-acid; only the printed cantaloupe pickles have a process',
    source: cite('KSU-PUREE', 'whole page'),
    instead: 'Freeze it, or pickle cantaloupe by the printed recipe.',
  },
  {
    name: 'Mashed potatoes and thick soups or stews',
    named: [
      ['potato', 'mash'],
      ['potato', 'puree'],
      ['cream', 'soup'],
    ],
    rule: 'Mashed potatoes and thickened soups and stews are too thick for the heat to reach the middle',
    source: cite('MU-THICK', 'whole page'),
    instead:
      'Can potatoes in cubes, or soup by its tested recipe without thickener; mash or thicken when the jar is opened.',
  },
  {
    name: 'Refried beans and hummus',
    named: [['refried bean'], ['hummus'], ['bean', 'paste']],
    rule: 'Refried beans and hummus are dense pastes without a tested process',
    source: cite('PSU-COLUMN', 'column of Sep 19, 2020, dense purees'),
    instead: 'Can dried beans by their tested process and mash them when the jar is opened.',
  },
  {
    name: 'Broccoli, cauliflower, cabbage, Brussels sprouts and eggplant, plain',
    named: [
      ['broccoli'],
      ['cauliflower'],
      ['Brussels sprout'],
      ['eggplant'],
      ['cabbage'],
      ['lettuce'],
      ['artichoke'],
      ['olive'],
    ],
    rule: 'The guide prints no process for these plain; only the printed pickles and sauerkraut have one',
    source: noneInGuide,
    instead: 'Pickle them by a printed recipe, or freeze them.',
  },
  {
    name: 'Bacon, liver pastes and soy curd',
    named: [['bacon'], ['liver'], ['tofu']],
    rule: 'The guide prints no process for bacon, liver pastes or tofu',
    source: noneInGuide,
    instead: freeze,
  },
];

const isGroup = (part: string): boolean => part.startsWith('#');

/** One way of saying a refused food that a name holds, with whether it says so surely. */
export interface UntestedMatch {
  readonly food: UntestedFood;
  readonly named: readonly Named[];
  readonly sure: boolean;
}

/** Every rule that what is named falls under, the surest first. */
export const untestedAmong = (named: readonly Named[]): readonly UntestedMatch[] =>
  untestedFoods
    .flatMap((food) => food.named.flatMap((parts) => matchOf(food, parts, named)))
    .toSorted((one, other) => Number(other.sure) - Number(one.sure));

function matchOf(
  food: UntestedFood,
  parts: readonly string[],
  named: readonly Named[],
): readonly UntestedMatch[] {
  const meant = parts.map((part) =>
    named.find((one) => (isGroup(part) ? one.group === (part.slice(1) as FoodGroup) : one.food === part)),
  );
  const all = meant.filter((one) => one !== undefined);
  return all.length < parts.length ? [] : [{ food, named: all, sure: all.every(({ sure }) => sure) }];
}

export const refusalOfUntested = ({ rule, source, instead }: UntestedFood, field = 'food'): Refusal =>
  refusal('food-untested', field, rule, source, instead);

/** The rule against food in oil, which holds in a cellar and a refrigerator too; `undefined` where none is named. */
export const oilRefusal = (named: readonly Named[]): Refusal | undefined => {
  const match = untestedAmong(named).find(({ food, sure }) => sure && food.name === foodInOil);
  return match === undefined ? undefined : refusalOfUntested(match.food, 'name');
};

/** The rule against a food that is named as untested, or `undefined` when no rule names it. */
export const untestedFoodRefusal = (food: string): Refusal | undefined => {
  const [match] = untestedAmong(namedIn(food));
  return match?.sure ? refusalOfUntested(match.food) : undefined;
};

/** Names of the foods refused by rule, for the page that lists them. */
export const untestedFoodRules = untestedFoods.map(({ name, rule, source, instead }) => ({
  name,
  rule,
  source,
  instead,
}));
