import { type Citation, cite, fromMemory } from './citation.ts';
import { type Refusal, refusal } from './refusal.ts';

/** A food that must not be canned at home however it is processed. */
interface UntestedFood {
  readonly name: string;
  /** Words that must all stand in the food's key or name, in any order; each list is one way to say it. */
  readonly words: readonly (readonly string[])[];
  readonly rule: string;
  readonly source: Citation;
  readonly instead: string;
}

const freeze = 'Freeze it, or keep it in the refrigerator and eat it soon.';

const untestedFoods: readonly UntestedFood[] = [
  {
    name: 'Pumpkin butter',
    words: [
      ['pumpkin', 'butter'],
      ['squash', 'butter'],
    ],
    rule: 'There is no tested process for pumpkin butter or squash butter',
    source: cite('USDA-G4', 'p4-18'),
    instead:
      'Freeze the butter, or can pumpkin in cubes under pressure and make the butter when a jar is opened.',
  },
  {
    name: 'Mashed or pureed pumpkin and winter squash',
    words: [
      ['pumpkin', 'puree'],
      ['pumpkin', 'mashed'],
      ['squash', 'puree'],
      ['squash', 'mashed'],
    ],
    rule: 'Pumpkin and winter squash have a tested process only in cubes, never mashed or pureed',
    source: cite('USDA-G4', 'p4-18'),
    instead: 'Can the cubes under pressure and mash them when a jar is opened, or freeze the puree.',
  },
  {
    name: 'Mashed or dry-packed sweet potatoes',
    words: [
      ['sweet', 'potato', 'mashed'],
      ['sweet', 'potato', 'puree'],
      ['sweet', 'potato', 'dry', 'pack'],
    ],
    rule: 'Sweet potatoes have a tested process only in pieces in liquid, not mashed and not packed dry',
    source: cite('USDA-G4', 'p4-16'),
    instead: 'Can pieces in liquid under pressure, or freeze the mash.',
  },
  {
    name: 'Pureed vegetables, red meat or poultry',
    words: [
      ['vegetable', 'puree'],
      ['meat', 'puree'],
      ['poultry', 'puree'],
      ['chicken', 'puree'],
      ['carrot', 'puree'],
      ['bean', 'puree'],
      ['pea', 'puree'],
      ['baby', 'vegetable'],
      ['baby', 'meat'],
    ],
    rule: 'Purees of vegetables, red meat and poultry heat too unevenly; none has a tested process',
    source: cite('USDA-G1', 'p1-31'),
    instead: freeze,
  },
  {
    name: 'Purees of banana, fig, Asian pear, melon, papaya, ripe mango, coconut or tomato as a fruit puree',
    words: [
      ['banana', 'puree'],
      ['fig', 'puree'],
      ['asian', 'pear', 'puree'],
      ['melon', 'puree'],
      ['cantaloupe', 'puree'],
      ['papaya', 'puree'],
      ['mango', 'puree'],
      ['coconut', 'puree'],
      ['tomato', 'puree'],
      ['banana', 'butter'],
    ],
    rule: 'The fruit puree process is not tested for banana, fig, Asian pear, tomato, melon, papaya, ripe mango or coconut',
    source: cite('USDA-G2', 'p2-14'),
    instead: freeze,
  },
  {
    name: 'Wild mushrooms',
    words: [['wild', 'mushroom'], ['morel'], ['chanterelle']],
    rule: 'Only domestic mushrooms have a tested process; wild ones must not be canned',
    source: cite('USDA-G4', 'p4-13'),
    instead: 'Dry or freeze them after an expert has named them.',
  },
  {
    name: 'Smoked seafood other than fish',
    words: [
      ['smoked', 'oyster'],
      ['smoked', 'clam'],
      ['smoked', 'mussel'],
      ['smoked', 'shrimp'],
    ],
    rule: 'Smoked seafood other than fish has no tested process',
    source: cite('USDA-G5', 'p5-13'),
    instead: 'Freeze it.',
  },
  {
    name: 'Dairy and eggs',
    words: [
      ['milk'],
      ['cheese'],
      ['cream', 'soup'],
      ['cream', 'sauce'],
      ['egg'],
      ['eggs'],
      ['pickled', 'eggs'],
      ['lemon', 'curd'],
      ['custard'],
    ],
    rule: 'Food with milk, cream, cheese or eggs has no tested process',
    source: cite('PSU-COLUMN', 'column of 2020-09-19'),
    instead:
      'Can the rest by a tested recipe and add these when the jar is opened; otherwise freeze or refrigerate.',
  },
  {
    name: 'Food thickened with flour, starch, pasta or rice',
    words: [['noodle'], ['pasta'], ['rice'], ['dumpling'], ['gravy'], ['flour'], ['thickened']],
    rule: 'Flour, starch, pasta, rice and other thickeners slow the heat; printed exceptions are ClearJel in pie fillings, flour in corn relish and cornstarch in green tomato relish',
    source: cite('USDA-G4', 'p4-18/19'),
    instead: 'Can the unthickened soup or sauce by its tested recipe and thicken it when the jar is opened.',
  },
  {
    name: 'Food in oil',
    words: [
      ['garlic', 'oil'],
      ['herb', 'oil'],
      ['tomato', 'oil'],
      ['vegetable', 'oil'],
      ['pesto'],
      ['confit'],
    ],
    rule: 'Food packed in oil can grow botulism bacteria; only the printed marinated peppers and marinated mushrooms have a process',
    source: cite('PSU-COLUMN', 'column of 2020-09-19'),
    instead: 'Freeze it, or refrigerate it and eat it within four days.',
  },
  {
    name: 'Quick breads and cakes in jars',
    words: [['cake'], ['bread', 'jar']],
    rule: 'Cake and bread baked in a sealed jar is low-acid and moist and has no tested process',
    source: fromMemory('general extension advice'),
    instead: 'Freeze it.',
  },
  {
    name: 'Elderberries',
    words: [['elderberry'], ['elderberries']],
    rule: 'Elderberries and their juice are less acid than other berries and have no process here',
    source: cite('UMAINE-ELDER', 'elderberries'),
    instead: 'Freeze the berries or the juice.',
  },
  {
    name: 'White-fleshed peaches and nectarines',
    words: [
      ['white', 'peach'],
      ['white', 'nectarine'],
    ],
    rule: 'White-fleshed peaches and nectarines can be low-acid; no process or acid amount has been tested for them',
    source: cite('UW-WHITEPEACH', 'whole page'),
    instead: 'Freeze them; can yellow-fleshed fruit only.',
  },
  {
    name: 'Horseradish sauce',
    words: [['horseradish']],
    rule: 'Horseradish sauce has no canning process; it is kept in the refrigerator',
    source: cite('USDA-G6', 'p6-30'),
    instead: 'Refrigerate it.',
  },
  {
    name: 'Spreads set with gelatin',
    words: [['gelatin']],
    rule: 'Spreads set with gelatin are not canned; they keep in the refrigerator',
    source: cite('USDA-G7', 'p7-12'),
    instead: 'Refrigerate it and use it within 4 weeks.',
  },
  {
    name: 'Summer squash and zucchini, plain',
    words: [['zucchini'], ['summer', 'squash']],
    rule: 'Plain summer squash has no tested process',
    source: fromMemory(
      'withdrawn from the guide; only pickles, the pineapple pack and the tomato mixture are printed',
    ),
    instead: 'Pickle it by a printed recipe, use the zucchini-pineapple recipe, or freeze it.',
  },
];

/** The rule against a food that is named as untested, or `undefined` when no rule names it. */
export const untestedFoodRefusal = (food: string): Refusal | undefined => {
  const said = new Set(food.toLowerCase().split(/[^a-z]+/));
  const says = (word: string): boolean => said.has(word) || said.has(`${word}s`) || said.has(`${word}es`);
  const rule = untestedFoods.find((untested) => untested.words.some((words) => words.every(says)));
  return rule && refusal('food-untested', 'food', rule.rule, rule.source, rule.instead);
};

/** Names of the foods refused by rule, for the page that lists them. */
export const untestedFoodRules = untestedFoods.map(({ name, rule, source, instead }) => ({
  name,
  rule,
  source,
  instead,
}));
