import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { recipeBook } from '../../src/preserving/recipes/recipe-book.ts';
import {
  type RecipeStage,
  stagesOfFood,
  stagesOfKey,
  stagesOfWay,
  waysOf,
} from '../../src/preserving/stages/recipe-stages.ts';

// stage-pages.csv lists, for each recipe of the book and each other food with a printed process, the page that was
// looked through for waits, and what was found there, written down apart from the table of stages. A wait of less than
// an hour, or one without a printed length, belongs to the work of the day; the note says so.
const page = z.object({
  key: z.string(),
  source_id: z.string(),
  page: z.string().min(1),
  made: z.enum(['one go', 'stages']),
  waits: z.string(),
  note: z.string(),
  basis: z.enum(['read', 'memory']),
});
const pages = z
  .array(page)
  .parse(parse(readFileSync(new URL('./stage-pages.csv', import.meta.url)), { columns: true }));

const tables = loadReferenceTables();
const book = recipeBook(tables);
const recipeKeys = new Set(tables.recipeProcesses.map(({ recipeKey }) => recipeKey));
const foodsOfBook = new Set(tables.recipeProcesses.map(({ foodKey }) => foodKey));
const otherFoods = new Set(
  tables.processTimes.map(({ foodKey }) => foodKey).filter((key) => !foodsOfBook.has(key)),
);

const waitInWords = ({ leastHours, mostHours, counted }: RecipeStage): string =>
  counted === 'date' ? `${leastHours / 24}d` : `${leastHours}-${mostHours ?? ''}`;

const waitsOf = (stages: readonly RecipeStage[]): string =>
  waysOf(stages)
    .map((way) => {
      const waits = stagesOfWay(stages, way).slice(0, -1).map(waitInWords).join(' ');
      return way === null ? waits : `${way}: ${waits}`;
    })
    .join('; ');

describe('every recipe was held against its page', () => {
  test('each recipe of the book and each other food with a process has one line, and nothing else has', () => {
    expect(pages.map(({ key }) => key).sort()).toEqual([...recipeKeys, ...otherFoods].sort());
  });

  test('every recipe key of the book belongs to exactly one line', () => {
    const loads = new Set(
      tables.recipeProcesses.filter(({ amounts }) => amounts === 'load').map(({ recipeKey }) => recipeKey),
    );
    for (const recipe of book) {
      const mine = [...recipeKeys].filter((key) =>
        recipe.amounts === 'batch'
          ? key === recipe.key
          : loads.has(key) && new RegExp(`^${key}(-thin|-thick)?-(quarts|pints)$`).test(recipe.key),
      );

      expect(mine, recipe.key).toHaveLength(1);
    }
  });

  test.each(pages)('$key: $made, $source_id $page', ({ key, made, waits }) => {
    const stages = stagesOfKey(tables, key);

    expect(stages.length > 0 ? 'stages' : 'one go').toBe(made);
    expect(stages.length > 0 ? waitsOf(stages) : '').toBe(waits);
    for (const recipe of book.filter(({ amounts }) => amounts === 'batch'))
      if (recipe.key === key) expect(recipe.stages).toEqual(stages);
  });

  test('stages name the source that was looked through; those of the book were all read', () => {
    for (const { key, source_id: sourceId } of pages)
      for (const stage of stagesOfKey(tables, key)) {
        expect(stage.source.sourceId, key).toBe(sourceId);
        expect(stage.source.basis, key).toBe('read');
      }
    const known = new Set(tables.sources.map((source) => source.sourceId));
    expect(pages.filter(({ source_id: sourceId }) => !known.has(sourceId))).toEqual([]);
    expect(pages.filter(({ key, basis }) => recipeKeys.has(key) && basis !== 'read')).toEqual([]);
  });
});

describe('stages of a food, where no recipe of the book is known', () => {
  test.each([
    ['beans-dried', 'soaked overnight: 12-18; quick soak: 1-1'],
    ['dill-pickles-fermented', 'at 70 to 75 F: 504-672 0-4380; at 55 to 65 F: 840-1008 0-4380'],
    ['piccalilli', '12-12'],
    ['peaches', ''],
  ])('%s: %s', (foodKey, waits) => {
    const stages = stagesOfFood(tables, foodKey);
    expect(stages.length === 0 ? '' : waitsOf(stages)).toBe(waits);
  });

  test('a food with recipes that need no wait asks for none: grape jelly from frozen concentrate', () => {
    expect(stagesOfFood(tables, 'grape-jelly')).toEqual([]);
  });
});

describe('recipes of the demo household', () => {
  const column = z.object({ id: z.string(), yield_from: z.string(), process_food: z.string() });
  const recipes = z
    .array(column)
    .parse(
      parse(readFileSync(new URL('../../seed-data/demo/recipes.csv', import.meta.url)), { columns: true }),
    );

  // A recipe made from a tested batch waits as that batch does, any other as the food of its process.
  const waitsIn = ({ yield_from: from, process_food: food }: z.output<typeof column>): string => {
    const stages = from.startsWith('batch:')
      ? stagesOfKey(tables, from.slice('batch:'.length))
      : stagesOfFood(tables, food);
    return stages.length === 0 ? '' : waitsOf(stages);
  };

  test('five of them wait as their published recipe does, the others are made in one go', () => {
    const waiting = recipes
      .map((recipe) => [recipe.id, waitsIn(recipe)] as const)
      .filter(([, waits]) => waits !== '');

    expect(Object.fromEntries(waiting)).toEqual({
      'grape-jelly': '1d',
      'dill-pickles': '12-12',
      'bread-and-butter-pickles': 'salted under ice: 3-4; limed: 12-24 1-1 1-1 1-1',
      'pinto-beans': 'soaked overnight: 12-18; quick soak: 1-1',
      sauerkraut: 'at 70 to 75 F: 504-672 0-; at 60 to 65 F: 840-1008 0-',
    });
  });
});
