import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { nameRuling, nameWithTestedFood } from '../../../src/preserving/foods/food-names.ts';
import { untestedFoodRefusal, untestedFoodRules } from '../../../src/preserving/foods/untested-foods.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { neverCannedNames } from './never-canned-names.ts';

const book = recipeBook(loadReferenceTables());
const recipe = (key: string) => {
  const known = book.find((one) => one.key === key);
  if (!known) throw new Error(`no recipe ${key}`);
  return known;
};
const said = (name: string, key: string | null): string => {
  const ruling = nameRuling(name, key === null ? null : recipe(key));
  return ruling.ok ? ruling.value.kind : 'refused';
};

describe('names of food that must not be canned', () => {
  it.each(untestedFoodRules.map(({ name }) => name))(
    'the reference rule “%s” holds under its own name',
    (name) => {
      expect(said(name, 'apple-butter')).not.toBe('fits');
      expect(said(name, null)).not.toBe('fits');
    },
  );

  it.each(neverCannedNames)('“%s” is refused or asked about on every recipe of the book', (name) => {
    const fitting = book.filter((one) => said(name, one.key) === 'fits').map(({ key }) => key);
    expect(fitting).toEqual([]);
  });

  it.each(['Zucchini', 'Courgettes', 'Calabacín'])(
    '“%s” is refused but where the tested food is called so',
    (name) => {
      const fitting = book.filter((one) => said(name, one.key) !== 'refused').map(({ key }) => key);
      expect(fitting).toEqual([
        'zucchini-pineapple',
        'tomatoes-okra-zucchini-quarts',
        'tomatoes-okra-zucchini-pints',
      ]);
    },
  );

  it('is refused, with rule, source and what is possible instead, where the word is plain', () => {
    const ruling = nameRuling('Pumpkin butter', recipe('apple-butter'));
    expect(ruling).toMatchObject({
      ok: false,
      problems: [{ code: 'food-untested', path: ['name'], source: { sourceId: 'USDA-G4', basis: 'read' } }],
    });
    expect(ruling.ok ? '' : ruling.problems[0]?.instead).toContain('Freeze');
  });

  it.each([
    'PUMPKIN BUTTER',
    'pumpkins butter',
    'Pumpkin-Butter',
    'pumpkinbutter',
    'PumpkinButter',
    'Butter, pumpkin',
    'ｐｕｍｐｋｉｎ butter',
    'Рumpkin butter',
    'P u m p k i n butter',
    'Pump kin butter',
    'pump\u00adkin butter',
    'Kürbisbutter',
    'KUERBISBUTTER',
  ])('no way of writing it passes: %s', (name) => {
    expect(said(name, 'apple-butter')).toBe('refused');
  });

  it.each([
    'Pumkin butter',
    'Pumpkni butter',
    'Elderbery jelly',
    'Apple butter without pumpkin',
    'Holler Farm jelly',
  ])('what may only be meant is asked, not refused: %s', (name) => {
    expect(said(name, 'apple-butter')).toBe('ask');
  });
});

describe('what the list of refused foods rests on', () => {
  it('says of no rule that it was read where part of it is remembered', () => {
    for (const { name, source } of untestedFoodRules)
      if (source.basis === 'read') expect(source.locator, name).not.toMatch(/memory|same reason/i);
  });

  it.each(['Avocado', 'Dates and dragon fruit'])(
    '%s: says no more than that the guide prints nothing',
    (name) => {
      const rule = untestedFoodRules.find((one) => one.name === name);

      expect(rule?.source.basis).toBe('read');
      expect(rule?.rule).toMatch(/^The guide prints no process for /);
    },
  );
});

describe('names of another food', () => {
  it('are asked about, naming the tested food and the other', () => {
    expect(nameRuling('Fig jam', recipe('apple-butter'))).toMatchObject({
      ok: true,
      value: {
        kind: 'ask',
        question: 'This process was tested for apple butter. Is there fig in it?',
        otherFood: 'fig',
        no: 'No, there is no fig in it',
        mayBeDenied: true,
        ifYes: { code: 'other-food-in-it' },
      },
    });
  });

  it.each([
    ['Pumpkin surprise', 'apple-butter'],
    ['Carrots', 'peaches-quarts'],
    ['Birnenmus', 'applesauce-quarts'],
    ['Tomato soup', 'tomato-sauce-thin-quarts'],
    ['Peach salsa', 'peaches-quarts'],
    ['Asian pears', 'pears-quarts'],
    ['Tuna', 'chile-con-carne'],
  ] as const)('%s on %s', (name, key) => {
    expect(said(name, key)).toBe('ask');
  });
});

describe('names that fit', () => {
  it.each(book.map(({ key, name }) => [name, key]))('a recipe under its own name: %s', (name, key) => {
    expect(said(name, key)).toBe('fits');
  });

  it.each(ordinaryNames())('%s, on %s', (name, key) => {
    expect(said(name, key)).toBe('fits');
  });

  it('a headline shows the tested food beside the household’s name', () => {
    expect(nameWithTestedFood('Grandma’s butter', recipe('apple-butter'))).toBe(
      'Grandma’s butter — apple butter, tested process',
    );
  });

  it.each([
    ['Spiced apple butter', 'apple-butter', 'Spiced apple butter'],
    ['Peach halves', 'peaches-quarts', 'Peach halves'],
    ['Crushed tomatoes', 'tomatoes-crushed-quarts', 'Crushed tomatoes'],
    ['Pfirsiche', 'peaches-quarts', 'Pfirsiche — peaches, halved or sliced, tested process'],
    ['Pumpkin surprise', 'apple-butter', 'Pumpkin surprise — apple butter, tested process'],
    ['Apple pumpkin butter', 'apple-butter', 'Apple pumpkin butter — apple butter, tested process'],
  ])('%s is headed with its tested food once', (name, key, headline) => {
    expect(nameWithTestedFood(name, recipe(key))).toBe(headline);
  });
});

function ordinaryNames(): readonly (readonly [string, string])[] {
  const byRecipe: Readonly<Record<string, string>> = {
    'apple-butter':
      'Apple butter|Grandma’s butter|Grandma’s favorite|Spiced apple butter|Apfelbutter|Beurre de pommes|Granny Smith butter|Butter of the old orchard|Apple spread|Cinnamon apple butter|Cider apple butter|Slow-cooked apple butter|Fall in a jar|Number 7|Aunt Tilly’s best',
    'peaches-quarts':
      'Peaches|Peach halves|Peach slices in light syrup|Peaches (white lid)|Peaches, white label|white peach-colored label|Redhaven peaches|Peaches 2026|Pfirsiche|Pêches au sirop|Melocotones en almíbar|Nectarines|Sunshine jars|Peaches, ginger|Elberta peaches',
    'pears-quarts': 'Pears|Pear halves|Bartlett pears|Peras en almíbar|Birnen',
    'applesauce-quarts':
      'Applesauce|Apple sauce, no sugar|Apfelmus|Chunky applesauce|Compote de pommes|Apple puree|Vanilla applesauce',
    'cherries-quarts': 'Sweet cherries|Sour cherries|Kirschen|Wild cherries|Cherries in juice',
    'strawberry-jam':
      'Strawberry jam|Strawberry preserves|Berry jam|Erdbeermarmelade|Confiture de fraises|Fruit spread|Erdbeerkonfitüre',
    'berry-jam-no-pectin':
      'Raspberry jam|Blackberry jam|Berry jam|Himbeermarmelade|Mixed berry jam|Berry Good',
    'grape-jelly': 'Grape jelly|Concord grape jelly|Traubengelee',
    'cherry-jam-powder': 'Sour cherry jam|Cherry jam|Confiture de cerises',
    'tomatoes-crushed-quarts':
      'Crushed tomatoes|Roma tomatoes|Plum tomatoes|Cherry tomatoes|Tomates triturados|San Marzano',
    'tomato-sauce-thin-quarts': 'Tomato sauce|Tomatensauce|Salsa di pomodoro|Basil tomato sauce',
    'spaghetti-sauce-no-meat': 'Spaghetti sauce|Pasta sauce|Marinara',
    'chile-salsa': 'Chile salsa|Tomato salsa|Hot salsa|Salsa roja',
    'quick-dill-pickles':
      'Dill pickles|Dills|Pickles|Saure Gurken|Cornichons|Crunchy pickles|Lime pickles, bought pickling lime',
    'bread-and-butter-pickles':
      'Bread-and-butter pickles|Bread and butter pickles|Bread ’n’ butter pickles|B&B pickles',
    'pickled-beets': 'Pickled beets|Rote Bete|Beet slices|Harvard',
    'beans-snap-quarts': 'Green beans|Wax beans|Snap beans|Haricots verts|String beans|Runner beans',
    'beans-dried-quarts': 'Pinto beans|Butter beans|Black beans|Navy beans|Chickpeas',
    'corn-whole-kernel-pints': 'Sweet corn|Corn|Silver Queen corn|Maïs',
    'corn-cream-pints': 'Creamed corn|Cream-style corn',
    'winter-squash-quarts': 'Pumpkin cubes|Butternut squash|Butternut|Hubbard squash|Kürbis',
    'potatoes-white-quarts': 'Potatoes|New potatoes|Kartoffeln',
    'carrots-quarts': 'Carrots|Carrot coins|Möhren',
    'peppers-pints': 'Peppers|Banana peppers|Jalapeños|Roasted peppers',
    sauerkraut: 'Sauerkraut|Kraut|Choucroute',
    'spinach-greens-quarts': 'Spinach|Greens|Swiss chard|Kale',
    'mango-chutney': 'Mango chutney',
    'zucchini-pineapple': 'Zucchini-pineapple',
    'asian-pears-quarts': 'Asian pears|Nashi',
    'figs-quarts': 'Figs|Figs in syrup|Higos en almíbar',
  };
  return Object.entries(byRecipe).flatMap(([key, names]) =>
    names.split('|').map((name) => [name, key] as const),
  );
}

// Penn State Extension, column of September 19, 2020: nothing with milk, cream, cheese or eggs has a tested process.
describe('food with milk or eggs in it', () => {
  it.each(['Corn in milk', 'Cream of leek', 'Cheese sauce', 'Yogurt dip', 'Egg salad', 'Custard pears'])(
    '“%s” gets no process',
    (name) => {
      expect(untestedFoodRefusal(name)?.rule).toMatch(/milk, cream, cheese or eggs/);
    },
  );
});
