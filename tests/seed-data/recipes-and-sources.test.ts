import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { untestedFoodRules } from '../../src/preserving/foods/untested-foods.ts';
import { conditionRefusal, foodConditions } from '../../src/preserving/lookup/food-conditions.ts';
import { scheduleFor } from '../../src/preserving/lookup/process-lookup.ts';
import { methodRefusal, unsafeMethods } from '../../src/preserving/lookup/unsafe-methods.ts';
import { recipeBook } from '../../src/preserving/recipes/recipe-book.ts';
import { foodStepsFor } from '../../src/preserving/sheet/food-steps.ts';
import { sessionSteps } from '../../src/preserving/sheet/session-steps.ts';
import { stagesOfKey, stagesOfWay, waysOf } from '../../src/preserving/stages/recipe-stages.ts';

const tables = loadReferenceTables();
const known = new Set(tables.sources.map((source) => source.sourceId));

describe('tables about recipes', () => {
  const book = new Set(recipeBook(tables).map((recipe) => recipe.key));
  const ways = new Set(tables.uncannedWays.map(({ wayKey }) => wayKey));
  const inBook = (key: string): boolean =>
    book.has(key) || ways.has(key) || [...book].some((recipe) => recipe.startsWith(`${key}-`));

  test('curing and by-products belong to recipes of the book, stages to those or to a food with a process', () => {
    const keys = [...tables.recipeCuring, ...tables.recipeByProducts].map((row) => row.recipeKey);
    expect(tables.recipeCuring.filter(({ recipeKey }) => ways.has(recipeKey))).toEqual([]);
    const foods = new Set(tables.processTimes.map((row) => row.foodKey));
    const staged = tables.recipeStages.map((row) => row.recipeKey);

    expect(keys.filter((key) => !inBook(key))).toEqual([]);
    expect(staged.filter((key) => !inBook(key) && !foods.has(key))).toEqual([]);
  });

  test('in every printed way the stages follow on in order and end with filled jars', () => {
    for (const key of new Set(tables.recipeStages.map((row) => row.recipeKey))) {
      const stages = stagesOfKey(tables, key);
      expect(stages[0]?.position, key).toBe(1);
      expect(Math.max(...stages.map(({ leastHours }) => leastHours)), key).toBeGreaterThan(0);
      for (const way of waysOf(stages)) {
        const positions = stagesOfWay(stages, way).map(({ position }) => position);

        expect(positions, `${key} ${way}`).toEqual([...new Set(positions)].sort((one, two) => one - two));
        expect(stagesOfWay(stages, way).at(-1), `${key} ${way}`).toMatchObject({
          way: null,
          leastHours: 0,
          mostHours: 0,
          place: 'none',
          occupies: null,
        });
      }
    }
  });

  test('every ingredient of a batch is known, and each known one is used', () => {
    const used = new Set(tables.batchQuantities.map((row) => row.ingredient));

    expect(new Set(tables.ingredients.map((row) => row.ingredient))).toEqual(used);
  });

  test('crops and cup weights that ingredients name exist', () => {
    const crops = new Set(tables.harvestWindows.map((row) => row.cropKey));
    const cups = new Set(tables.measures.map((row) => row.fromUnit));
    const unknown = tables.ingredients.filter(
      (row) =>
        (row.cropKey !== null && !crops.has(row.cropKey)) ||
        (row.cupMeasure !== null && !cups.has(row.cupMeasure)),
    );

    expect(unknown.map((row) => row.ingredient)).toEqual([]);
  });

  test('whatever is bought has a unit and a step to round up to', () => {
    const bought = tables.ingredients.filter((row) => row.kind !== 'own');

    expect(bought.filter((row) => !row.shopAs || !row.buyUnit || !(row.buyStep && row.buyStep > 0))).toEqual(
      [],
    );
  });
});

describe('rules that refuse', () => {
  const refusals = [
    ...foodConditions.map(conditionRefusal),
    ...unsafeMethods.map(methodRefusal),
    ...untestedFoodRules,
  ];

  test('each names its rule, a source in the table or memory, and what is possible instead', () => {
    expect(refusals.filter((rule) => !rule.rule || !rule.instead || !rule.source.locator)).toEqual([]);
    expect(refusals.filter((rule) => !known.has(rule.source.sourceId))).toEqual([]);
    expect(
      refusals.filter((rule) => (rule.source.sourceId === 'MEMORY') !== (rule.source.basis === 'memory')),
    ).toEqual([]);
  });

  test('steps of a checklist name sources in the table', () => {
    for (const method of ['boiling-water', 'atmospheric-steam', 'pressure'] as const) {
      const ruling = scheduleFor(tables, {
        foodKey: 'tomatoes-crushed',
        pack: 'hot',
        jar: 'pint',
        method,
        gauge: 'dial',
        altitudeFt: 500,
        ...(method === 'pressure' ? { choice: { psi: 11 } } : {}),
      });
      if (!ruling.ok) throw new Error(ruling.problems[0]?.message);
      expect(
        sessionSteps(ruling.value, foodStepsFor(tables, ruling.value)).filter(
          (step) => !known.has(step.source.sourceId),
        ),
      ).toEqual([]);
    }
  });
});
