import { describe, expect, test } from 'vitest';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { type ScaledBatches, scaleBatches } from '../../../src/preserving/recipes/scaling.ts';
import {
  type AcidForJars,
  type ShoppingTables,
  shoppingList,
} from '../../../src/preserving/recipes/shopping-list.ts';
import { ofBook } from '../own-kitchen.ts';
import { answerOf, tables } from '../tables.ts';

// Two recipes made up for the list alone. Cups of a quart 4, of a pint 2, tablespoons of a cup 16 (NIST Handbook 44, Appendix C).
const ingredient = (name: string, quantity: number, unit: string, change: object = {}) => ({
  ingredient: name,
  quantity: { low: quantity / 2, high: quantity },
  unit,
  kind: 'other',
  ...change,
});
const batchOf = (
  name: string,
  batches: number,
  amounts: 'batch' | 'load',
  ...ingredients: readonly object[]
) => ({ recipe: { name, amounts }, batches, ingredients }) as unknown as ScaledBatches;
const bought = (name: string, buyUnit: string | null, buyStep: number | null = 1, change: object = {}) => ({
  ingredient: name,
  shopAs: null,
  buyUnit,
  buyStep,
  kind: 'other',
  ...change,
});
const listed = (
  session: readonly ScaledBatches[],
  ingredients: readonly object[] = [],
  acids: readonly AcidForJars[] = [],
) => shoppingList(session, { ingredients, measures: tables.measures } as unknown as ShoppingTables, acids);
const brief = (lines: ReturnType<typeof listed>) =>
  lines.map(({ name, needed, buy, unit }) => `${name} ${Math.round(needed * 1000) / 1000} ${buy} ${unit}`);

describe('what a session needs from the shop', () => {
  test('is summed under the name it is bought by, with the recipes it is for, each once', () => {
    const session = [
      batchOf('Jam', 1, 'batch', ingredient('cider vinegar', 1, 'cup'), ingredient('salt', 1, 'tbsp')),
      batchOf('Relish', 2, 'batch', ingredient('vinegar', 2.5, 'cup'), ingredient('vinegar', 0.5, 'cup')),
    ];
    const lines = listed(session, [
      bought('cider vinegar', 'qt', 1, { shopAs: 'vinegar' }),
      bought('vinegar', 'qt'),
    ]);
    expect(lines).toEqual([
      {
        name: 'vinegar',
        kind: 'other',
        needed: 1,
        buy: 1,
        unit: 'qt',
        prepared: false,
        forRecipes: ['Jam', 'Relish'],
      },
      { name: 'salt', kind: 'other', needed: 1, buy: 1, unit: 'tbsp', prepared: false, forRecipes: ['Jam'] },
    ]);
  });

  test('counts ranges at their high end', () => {
    expect(listed([batchOf('Jam', 1, 'batch', ingredient('salt', 4, 'tbsp'))])[0]?.needed).toBe(4);
  });

  test('is rounded up to what can be bought, and a whole step stays whole', () => {
    const of = (quantity: number, unit: string, known: object) =>
      brief(listed([batchOf('Jam', 1, 'batch', ingredient('x', quantity, unit))], [known]))[0];
    expect(of(5, 'cup', bought('x', 'qt'))).toBe('x 1.25 2 qt');
    expect(of(5, 'cup', bought('x', 'qt', 0.5))).toBe('x 1.25 1.5 qt');
    expect(of(8, 'cup', bought('x', 'qt'))).toBe('x 2 2 qt');
    // Three thirds of a cup are a cup, whatever they sum to.
    const thirds = [1, 2, 3].map(() => ingredient('x', 1 / 3, 'cup'));
    expect(brief(listed([batchOf('Jam', 1, 'batch', ...thirds)], [bought('x', 'cup')]))).toEqual([
      'x 1 1 cup',
    ]);
    expect(of(5, 'cup', bought('x', 'qt', null))).toBe('x 1.25 2 qt');
  });

  test('of what is not known is as the recipe has it: whole units, half pounds', () => {
    const session = [
      batchOf(
        'Jam',
        1,
        'batch',
        ingredient('x', 1.2, 'lb'),
        ingredient('y', 1.2, 'cup'),
        ingredient('z', 1.5, 'pint'),
      ),
    ];
    expect(brief(listed(session))).toEqual(['x 1.2 1.5 lb', 'y 1.2 2 cup', 'z 3 3 cup']);
    expect(brief(listed(session, [bought('x', null), bought('y', null)]))).toEqual([
      'x 1.2 1.5 lb',
      'y 1.2 2 cup',
      'z 3 3 cup',
    ]);
  });

  test('leaves out one’s own water and juice', () => {
    expect(listed([batchOf('Jam', 1, 'batch', ingredient('water', 4, 'cup', { kind: 'own' }))])).toEqual([]);
  });

  // USDA Complete Guide 7, p7-9 and p7-10: a box of powdered pectin 1.75 oz, a pouch of liquid 3 oz.
  test('counts pectin in its packs', () => {
    const of = (unit: 'package' | 'pouch', ounces: number) =>
      brief(
        listed([batchOf('Jam', 1, 'batch', ingredient('pectin', ounces, 'oz'))], [bought('pectin', unit)]),
      )[0];
    expect(of('package', 1.75)).toBe('pectin 1 1 package');
    expect(of('package', 3.5)).toBe('pectin 2 2 package');
    expect(of('pouch', 6)).toBe('pectin 2 2 pouch');
    // Said in the pack itself it stays so.
    expect(
      brief(
        listed(
          [batchOf('Jam', 1, 'batch', ingredient('pectin', 2, 'package'))],
          [bought('pectin', 'package', 2)],
        ),
      ),
    ).toEqual(['pectin 2 2 package']);
  });

  test('what cannot be turned into its shopping unit keeps a line of its own', () => {
    const session = [batchOf('Jam', 1, 'batch', ingredient('dill', 4, 'head'), ingredient('dill', 2, 'cup'))];
    expect(brief(listed(session, [bought('dill', 'qt')]))).toEqual(['dill 4 4 head', 'dill 0.5 1 qt']);
  });

  test('tells prepared weight from weight as picked: a cut crop of a batch, and no other', () => {
    const pie = shoppingList([answerOf(scaleBatches(ofBook('peach-pie-filling'), 2))], tables);
    expect(pie.filter(({ prepared }) => prepared).map(({ name }) => name)).toEqual(['peaches']);
    const loads = shoppingList([answerOf(scaleBatches(ofBook('peaches-pints'), 1))], tables);
    expect(loads.find(({ name }) => name === 'peaches')).toMatchObject({
      needed: 11,
      unit: 'lb',
      prepared: false,
    });
  });

  test('of two batches is twice that of one, for every recipe of the book, before it is rounded', () => {
    const keys = [
      'apple-butter',
      'chile-salsa',
      'mixed-fruit-cocktail',
      'pickle-relish',
      'strawberry-jam',
      'tomato-ketchup',
    ];
    for (const recipe of keys.map(ofBook) as readonly TestedRecipe[]) {
      const of = (batches: number) => shoppingList([answerOf(scaleBatches(recipe, batches))], tables);
      const [one, two] = [of(1), of(2)];
      expect(two.map(({ name, unit }) => `${name} ${unit}`)).toEqual(
        one.map(({ name, unit }) => `${name} ${unit}`),
      );
      two.forEach((line, at) => {
        expect(line.needed).toBeCloseTo(2 * (one[at]?.needed ?? Number.NaN), 9);
        expect(line.buy).toBeGreaterThanOrEqual(line.needed - 1e-5);
        expect(line.forRecipes).toEqual([recipe.name]);
      });
    }
  });
});

describe('acid for so many jars', () => {
  // USDA Complete Guide 3, p3-5: two tablespoons of bottled lemon juice, or half a teaspoon of citric acid, to the quart.
  test('is bought in cups of juice, teaspoons of citric acid, quarts of vinegar', () => {
    const acid = (name: string, quantity: number, unit: string, jars: number) =>
      brief(
        listed([], [], [{ recipeName: 'Tomatoes', amount: { acid: name, quantity, unit } as never, jars }]),
      )[0];
    expect(acid('bottled_lemon_juice', 2, 'tbsp', 8)).toBe('bottled lemon juice 1 1 cup');
    expect(acid('bottled_lemon_juice', 2, 'tbsp', 9)).toBe('bottled lemon juice 1.125 2 cup');
    expect(acid('citric_acid', 0.5, 'tsp', 7)).toBe('citric acid 3.5 4 tsp');
    expect(acid('vinegar_5pct', 4, 'tbsp', 16)).toBe('vinegar 5% 1 1 qt');
  });

  test('is one line with what a recipe asks for of it', () => {
    const juice = {
      recipeName: 'Tomatoes',
      amount: { acid: 'bottled_lemon_juice', quantity: 2, unit: 'tbsp' },
      jars: 8,
    } as never;
    const salsa = batchOf(
      'Salsa',
      1,
      'batch',
      ingredient('bottled lemon juice', 0.5, 'cup', { kind: 'acid' }),
    );
    expect(listed([salsa], [bought('bottled lemon juice', 'cup')], [juice])).toEqual([
      {
        name: 'bottled lemon juice',
        kind: 'acid',
        needed: 1.5,
        buy: 2,
        unit: 'cup',
        prepared: false,
        forRecipes: ['Salsa', 'Tomatoes'],
      },
    ]);
  });
});
