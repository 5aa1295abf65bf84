import { describe, expect, test } from 'vitest';
import type { RecipeKind } from '../../../shared/schemas/reference/recipe.ts';
import { asDate } from '../../../shared/week.ts';
import type { Canner } from '../../../src/preserving/canner.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { changesRuling } from '../../../src/preserving/recipes/recipe-changes.ts';
import {
  processedOn,
  readyFrom,
  schedulesForRecipe,
  startedOn,
} from '../../../src/preserving/recipes/recipe-schedule.ts';
import { leastHoursBefore, mostHoursBefore, startsOf } from '../../../src/preserving/stages/recipe-stages.ts';
import { answerOf, codesOf, tables } from '../tables.ts';

const book = recipeBook(tables);
const recipeOf = (key: string) => {
  const recipe = book.find((candidate) => candidate.key === key);
  if (!recipe) throw new Error(`no recipe ${key} in the book`);
  return recipe;
};

const kettle: Canner = { method: 'boiling-water', gauge: null, uprightQuarts: 7, gaugeCheckedOn: null };
const pressureCanner: Canner = {
  method: 'pressure',
  gauge: 'weighted',
  uprightQuarts: 7,
  gaugeCheckedOn: null,
};
const here = { altitudeFt: 2200, sessionOn: asDate('2026-08-22') };

describe('the recipe book', () => {
  test('names each recipe once, with produce or other ingredients and a process', () => {
    expect(new Set(book.map((recipe) => recipe.key)).size).toBe(book.length);
    expect(
      book.filter((recipe) => recipe.ingredients.length === 0).map(({ key, material }) => [key, material]),
    ).toEqual([
      ['meat-stock-quarts', 'chicken or turkey bones'],
      ['meat-stock-pints', 'chicken or turkey bones'],
    ]);
    expect(book.filter((recipe) => recipe.processes.length === 0)).toEqual([]);
    expect(book.length).toBeGreaterThan(100);
  });

  test('pairs recipes only with foods, styles and packs that are printed', () => {
    const printed = new Set(tables.processTimes.map((row) => [row.foodKey, row.style, row.pack].join('|')));
    const unknown = book.flatMap((recipe) =>
      recipe.processes
        .map(({ foodKey, style, pack }) => [foodKey, style, pack].join('|'))
        .filter((process) => !printed.has(process)),
    );

    expect(unknown).toEqual([]);
  });

  test('every recipe has a schedule in its own jar at 2,200 ft, save those whose times were not read', () => {
    const without = book.filter(
      (recipe) =>
        ![kettle, pressureCanner].some(
          (canner) => schedulesForRecipe(tables, recipe, { ...here, canner, jar: recipe.yield.jar }).ok,
        ),
    );

    expect(without.map((recipe) => recipe.key)).toEqual([
      'choice-salsa',
      'apricot-jam-no-pectin',
      'peach-jam-no-pectin',
    ]);
  });

  test('crops named by recipes have harvest windows', () => {
    const crops = new Set(tables.harvestWindows.map((row) => row.cropKey));
    const named = book.flatMap((recipe) => recipe.produce.flatMap(({ cropKey }) => cropKey ?? []));

    expect(named.filter((crop) => !crops.has(crop))).toEqual([]);
  });

  test('weights come from the recipe, from a weight printed beside a volume, or from the weight of a cup', () => {
    const poundsOf = (key: string) => recipeOf(key).produce[0];

    expect(poundsOf('quick-dill-pickles')).toMatchObject({ pounds: { low: 8 }, weighed: 'as-picked' });
    expect(poundsOf('peach-jam-liquid')).toMatchObject({ pounds: { low: 3.5 }, weighed: 'as-picked' });
    // 5.5 cups of 232 g (USDA nutrient database, release 26: strawberries, pureed) are 2.81 lb.
    expect(poundsOf('strawberry-jam')?.pounds?.low).toBeCloseTo(2.813, 3);
    expect(poundsOf('strawberry-jam')?.weighed).toBe('prepared');
  });

  test('apple butter takes the sterile style in pints and the plain style in quarts', () => {
    const styleIn = (jar: 'pint' | 'quart') =>
      answerOf(schedulesForRecipe(tables, recipeOf('apple-butter'), { ...here, canner: kettle, jar }))[0]
        .sterileJars;

    expect(styleIn('pint')).toBe(true);
    expect(styleIn('quart')).toBe(false);
  });

  test('beans are refused in the boiling-water canner with the reason', () => {
    const ruling = schedulesForRecipe(tables, recipeOf('beans-snap-pints'), {
      ...here,
      canner: kettle,
      jar: 'pint',
    });

    expect(codesOf(ruling)).toEqual(['low-acid-needs-pressure']);
  });
});

describe('recipes that take days', () => {
  test('14-day pickles begun on 3 August are canned on the 16th and begun 13 days before a session', () => {
    expect(processedOn(recipeOf('14-day-sweet-pickles'), asDate('2026-08-03'))).toBe('2026-08-16');
    expect(startedOn(recipeOf('14-day-sweet-pickles'), asDate('2026-08-16'))).toBe('2026-08-03');
    expect(
      startsOf(recipeOf('14-day-sweet-pickles').stages).map(({ leastHours }) => leastHours / 24),
    ).toEqual([0, 2, 4, 6, 7, 8, 9, 10, 11, 12, 13]);
  });

  test('sauerkraut ferments three to six weeks (USDA Complete Guide 6, p6-8)', () => {
    expect(leastHoursBefore(recipeOf('sauerkraut').stages)).toBe(3 * 7 * 24);
    expect(mostHoursBefore(recipeOf('sauerkraut').stages)).toBe(6 * 7 * 24);
    expect(processedOn(recipeOf('sauerkraut'), asDate('2026-10-01'))).toBe('2026-11-12');
  });

  test('bread-and-butter pickles are ready after four weeks (Guide 6, p6-9), applesauce at once', () => {
    expect(readyFrom(recipeOf('bread-and-butter-pickles'), asDate('2026-08-01'))).toBe('2026-08-29');
    expect(readyFrom(recipeOf('applesauce-quarts'), asDate('2026-08-01'))).toBe('2026-08-01');
  });

  test('jelly leaves pulp with the days it keeps, and says that these are remembered', () => {
    expect(recipeOf('apple-jelly').byProducts).toMatchObject([
      { material: 'apple pulp', keepDays: 3, source: { basis: 'memory' } },
    ]);
  });
});

describe("a household's own copy of a tested recipe", () => {
  test.each([
    ['salsa', 'dried-spices'],
    ['salsa', 'bottled-lemon-juice-for-vinegar'],
    ['fruit', 'lighter-or-heavier-syrup'],
    ['tomato', 'salt'],
    ['pickle', 'salt'],
    ['sauce-fruit', 'less-sugar'],
    ['sauce', 'less-onion-or-pepper'],
  ] as const)('%s with %s may still be canned', (kind, change) => {
    expect(answerOf(changesRuling({ kind, stages: [] }, [change]))[0]?.source.locator).toBeTruthy();
  });

  test.each([
    ['ferment', 'salt'],
    ['pickle', 'bottled-lemon-juice-for-vinegar'],
    ['relish', 'pepper-for-pepper'],
    ['salsa', 'less-onion-or-pepper'],
    ['soup', 'more-vegetables'],
    ['salsa', 'more-onions'],
    ['jam', '__proto__'],
  ] as const)('%s with %s may not', (kind, change) => {
    expect(codesOf(changesRuling({ kind: kind as RecipeKind, stages: [] }, [change]))).toEqual([
      'change-not-allowed',
    ]);
  });

  test('salt may not be changed in pickles that lie in brine for days, nor sugar in jam', () => {
    expect(changesRuling(recipeOf('bread-and-butter-pickles'), ['salt']).ok).toBe(true);
    expect(changesRuling(recipeOf('14-day-sweet-pickles'), ['salt']).ok).toBe(false);
    expect(changesRuling(recipeOf('strawberry-jam'), ['less-sugar']).ok).toBe(false);
  });
});
