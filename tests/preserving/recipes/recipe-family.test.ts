import { describe, expect, test } from 'vitest';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { recipeFamily } from '../../../src/preserving/recipes/recipe-family.ts';
import { book, ofBook } from '../own-kitchen.ts';

const familyOf = (kind: string, ...crops: readonly (string | null)[]) =>
  recipeFamily({ kind, produce: crops.map((cropKey) => ({ cropKey })) } as unknown as TestedRecipe);

describe('the board a recipe’s food stands on', () => {
  test.each([
    ['pickle', 'pickles'],
    ['relish', 'pickles'],
    ['ferment', 'pickles'],
    ['chutney', 'pickles'],
    ['salsa', 'tomatoes'],
    ['ketchup', 'tomatoes'],
    ['sauce', 'tomatoes'],
    ['tomato', 'tomatoes'],
    ['meal', 'meat-stock'],
    ['beans', 'greens-beans'],
  ])('%s stands with %s, whatever it is made of', (kind, family) => {
    expect(familyOf(kind, 'carrot')).toBe(family);
  });

  // Sorted by hand: fruit with a stone, berries, apples and pears; what grows above the ground, and roots.
  test.each([
    ['stone-fruit', ['apricot', 'cherry', 'cherry_tart', 'peach', 'plum']],
    ['berries', ['blackberry', 'blueberry', 'cranberry', 'grape', 'strawberry', 'rhubarb']],
    ['apples-pears', ['apple', 'pear']],
    ['tomatoes', ['tomato']],
    [
      'greens-beans',
      [
        'asparagus',
        'green_bean',
        'lima_bean',
        'okra',
        'pea',
        'pepper_hot',
        'pepper_sweet',
        'spinach',
        'summer_squash',
        'sweet_corn',
        'winter_squash',
      ],
    ],
    ['roots', ['beet', 'carrot', 'potato', 'sweet_potato']],
  ])('%s are %j', (family, crops) => {
    for (const crop of crops) expect(familyOf('fruit', crop)).toBe(family);
  });

  test('goes by the first crop that is known', () => {
    expect(familyOf('jam', null, 'onion', 'peach', 'carrot')).toBe('stone-fruit');
  });

  test('of unknown crops is with vegetables or with apples', () => {
    expect(familyOf('vegetable', null)).toBe('greens-beans');
    expect(familyOf('vegetable')).toBe('greens-beans');
    expect(familyOf('fruit', 'pineapple')).toBe('apples-pears');
    expect(recipeFamily(ofBook('mushrooms-pints'))).toBe('greens-beans');
  });

  test('no fruit of the book stands with vegetables, and no vegetable with fruit', () => {
    const fruit = ['stone-fruit', 'berries', 'apples-pears'];
    for (const recipe of book) {
      if (
        ['fruit', 'jam', 'jelly', 'juice', 'pie-filling', 'sauce-fruit', 'butter'].includes(recipe.kind) &&
        !/pepper|zucchini/.test(recipe.key)
      )
        expect({ key: recipe.key, isFruit: fruit.includes(recipeFamily(recipe)) }).toEqual({
          key: recipe.key,
          isFruit: true,
        });
      if (recipe.kind === 'vegetable')
        expect({ key: recipe.key, isFruit: fruit.includes(recipeFamily(recipe)) }).toEqual({
          key: recipe.key,
          isFruit: false,
        });
    }
  });
});
