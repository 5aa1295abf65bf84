import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { asDate } from '../../../shared/week.ts';
import { recipeBook, type TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { cannedIn, type OwnCanner, testedWays } from '../../../src/preserving/recipes/tested-ways.ts';

const tables = loadReferenceTables();
const book = recipeBook(tables);
const named = (key: string): TestedRecipe => {
  const recipe = book.find((one) => one.key === key);
  if (!recipe) throw new Error(`no recipe ${key}`);
  return recipe;
};

const on = asDate('2026-08-17');
const kettle: OwnCanner = {
  id: 'kettle',
  method: 'boiling-water',
  gauge: null,
  uprightQuarts: 7,
  gaugeCheckedOn: null,
};
const pressurePot: OwnCanner = { ...kettle, id: 'pressure-pot', method: 'pressure', gauge: 'weighted' };
const ways = (key: string, canners: readonly OwnCanner[], altitudeFt: number | null = 1240) =>
  testedWays(tables, named(key), { altitudeFt, canners, on });

describe('how a recipe can be put up here', () => {
  test('acid food goes into boiling water even where there is a pressure canner', () => {
    expect(ways('peaches-pints', [pressurePot, kettle]).here).toEqual([
      {
        jar: 'pint',
        cannerId: 'kettle',
        process: { foodKey: 'peaches', style: 'halved or sliced', pack: 'hot' },
      },
    ]);
  });

  test('low-acid food goes under pressure or nowhere', () => {
    expect(ways('beans-snap-pints', [kettle, pressurePot]).here.map(({ cannerId }) => cannerId)).toEqual([
      'pressure-pot',
    ]);

    const without = ways('beans-snap-pints', [kettle]);
    expect(without.here).toEqual([]);
    expect(without.why).toEqual([
      'Only a pressure canner makes this food safe, and this kitchen has none that fits. Add it on the kitchen page.',
    ]);
  });

  test('a batch may go into every printed size; a canner load only into its own', () => {
    expect(ways('bread-and-butter-pickles', [kettle]).here.map(({ jar }) => jar)).toEqual([
      'half-pint',
      'pint',
      'quart',
    ]);
    expect(ways('peaches-quarts', [kettle]).here.map(({ jar }) => jar)).toEqual(['quart']);
  });

  test('without an altitude nothing is tested yet, and the reason is the altitude', () => {
    const open = ways('peaches-pints', [kettle], null);

    expect(open.here).toEqual([]);
    expect(open.waiting.map(({ jar, cannerId }) => [jar, cannerId])).toEqual([['pint', 'kettle']]);
    expect(open.why.join(' ')).toContain('altitude');
  });

  test('a pressure canner whose gauge is not known waits for it', () => {
    const open = ways('beans-snap-pints', [{ ...pressurePot, gauge: null }]);

    expect(open.here).toEqual([]);
    expect(open.waiting).toHaveLength(1);
    expect(open.why.join(' ')).toContain('gauge');
  });

  test('a kitchen without canners is told which it needs', () => {
    expect(ways('peaches-pints', []).why.join(' ')).toContain('a boiling-water canner is needed');
  });

  test('remembered rows are no process: jam of apricots without pectin has none', () => {
    const open = ways('apricot-jam-no-pectin', [kettle, pressurePot]);

    expect(open.here).toEqual([]);
    expect(open.why.join(' ')).toContain('No tested process that was read');
  });

  test('whatever is offered is low-acid only under pressure, for the whole book', () => {
    for (const recipe of book) {
      const { here } = testedWays(tables, recipe, { altitudeFt: 1240, canners: [kettle, pressurePot], on });
      for (const { process, cannerId, jar } of here) {
        const rows = tables.processTimes.filter(
          (row) =>
            row.foodKey === process.foodKey && row.style === process.style && row.pack === process.pack,
        );
        expect(
          rows.every((row) => row.acidity !== 'low-acid') || cannerId === 'pressure-pot',
          `${recipe.key} ${jar}`,
        ).toBe(true);
      }
    }
  });
});

describe('what a recipe may be canned in, whatever the kitchen has', () => {
  test.each([
    ['bread-and-butter-pickles', ['boiling-water', 'atmospheric-steam']],
    ['peaches-pints', ['boiling-water', 'atmospheric-steam', 'pressure']],
    ['beans-snap-pints', ['pressure']],
    ['tomatoes-crushed-pints', ['boiling-water', 'atmospheric-steam', 'pressure']],
  ])('%s: %j', (key, methods) => {
    expect(new Set(cannedIn(tables, named(key)))).toEqual(new Set(methods));
  });
});
