import { describe, expect, test } from 'vitest';
import { cropGuessFor, firstYear, supplyGuessFor } from '../../server/reference/first-year.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { sizeOf } from '../../shared/jar.ts';
import { asDate } from '../../shared/week.ts';
import { keptRecipe } from '../../src/preserving/recipes/kept-recipe.ts';
import { recipeBook } from '../../src/preserving/recipes/recipe-book.ts';
import { testedWays } from '../../src/preserving/recipes/tested-ways.ts';

const tables = loadReferenceTables();
const book = recipeBook(tables);
const perYear = { month: 12, year: 1 };

describe('where a first year starts', () => {
  test('what is chosen to begin with comes to between 60 and 150 jars a year', () => {
    const jars = firstYear().preserves.reduce(
      (sum, { usual }) => sum + (usual === null ? 0 : usual.amount * perYear[usual.per]),
      0,
    );

    expect(jars).toBeGreaterThanOrEqual(60);
    expect(jars).toBeLessThanOrEqual(150);
  });

  test('every preserve of the list is a recipe of the book with known pounds and a tested process in its jar', () => {
    const common = { uprightQuarts: 7, gaugeCheckedOn: null };
    const canners = [
      { ...common, id: 'kettle', method: 'boiling-water', gauge: null },
      { ...common, id: 'pressure', method: 'pressure', gauge: 'weighted' },
    ] as const;
    for (const { recipeKey, jarKind, usual } of firstYear().preserves) {
      const recipe = book.find(({ key }) => key === recipeKey);
      if (!recipe) throw new Error(`no recipe ${recipeKey}`);
      const { here } = testedWays(tables, recipe, { altitudeFt: 500, canners, on: asDate('2026-08-17') });
      const way = here.find(({ jar }) => jar === sizeOf(jarKind));

      expect(way, recipeKey).toBeDefined();
      if (usual !== null) expect(way?.cannerId, recipeKey).toBe('kettle');
      for (const { lb } of keptRecipe(recipe, sizeOf(jarKind), tables).produce)
        expect(lb, recipeKey).toBeGreaterThan(0);
    }
  });

  test('every supply and crop a recipe of the book may need has a guess of its own', () => {
    const listed = new Set(firstYear().supplies.map(({ name, unit }) => `${name} ${unit}`));
    const crops = new Set<string>(firstYear().crops.map(({ crop }) => crop));
    for (const recipe of book) {
      const kept = keptRecipe(recipe, recipe.yield.jar, tables);
      for (const { name, unit } of kept.supplies) expect(listed, recipe.key).toContain(`${name} ${unit}`);
      for (const { cropKey } of kept.produce)
        expect(crops, recipe.key).toContain(cropKey.replaceAll('_', '-'));
    }
  });

  test('prices are believable: a pound of produce from half a dollar to six, picking it oneself never dearer than buying', () => {
    for (const crop of firstYear().crops) {
      expect(crop.marketPerLb, crop.crop).toBeGreaterThanOrEqual(50);
      expect(crop.marketPerLb, crop.crop).toBeLessThanOrEqual(600);
      expect(crop.pickingPerLb, crop.crop).toBeLessThanOrEqual(crop.marketPerLb);
    }
  });

  test('what the list does not name gets an ordinary guess', () => {
    expect(supplyGuessFor('saffron', 'tsp')).toEqual({ pack: 1, price: 400 });
    expect(cropGuessFor('sea-buckthorn').plural).toBe('sea buckthorns');
    expect(cropGuessFor('raspberry-fall').plural).toBe('fall raspberries');
  });
});
