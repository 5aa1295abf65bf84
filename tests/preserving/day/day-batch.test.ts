import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import type { Canner } from '../../../src/preserving/canner.ts';
import { jarsPerLoad } from '../../../src/preserving/canner.ts';
import { canningDay } from '../../../src/preserving/day/canning-day.ts';
import { dayBatchOf, pickAndBuyBy } from '../../../src/preserving/day/day-batch.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { schedulesForRecipe } from '../../../src/preserving/recipes/recipe-schedule.ts';
import { scaleBatches } from '../../../src/preserving/recipes/scaling.ts';
import { answerOf, tables } from '../tables.ts';

const kettle: Canner = { method: 'boiling-water', gauge: null, uprightQuarts: 7, gaugeCheckedOn: null };
const book = recipeBook(tables);
const minutes = { prepMinutes: 30, cookMinutes: 20, stirred: true, fillMinutesPerLoad: 10 };

const entryOf = (key: string, batches: number) => {
  const recipe = book.find((candidate) => candidate.key === key);
  if (!recipe) throw new Error(`no recipe ${key}`);
  const { jar } = recipe.yield;
  const [schedule] = answerOf(
    schedulesForRecipe(tables, recipe, {
      jar,
      canner: kettle,
      altitudeFt: 2200,
      sessionOn: asDate('2026-08-22'),
    }),
  );
  const perLoad = answerOf(jarsPerLoad(kettle, jar, tables.cannerFacts));
  return dayBatchOf(
    answerOf(scaleBatches(recipe, batches)),
    schedule,
    'kettle',
    perLoad,
    minutes,
    tables.cannerFacts,
  );
};

describe('a batch on the day', () => {
  test('two batches of strawberry jam are two pots of two loads each: 10 jars at 8 a load', () => {
    expect(entryOf('strawberry-jam', 2)).toMatchObject({ pots: 2, loadsPerPot: 2, cookMinutes: 20 });
  });

  test('two loads of peach halves are one pot and two canner loads', () => {
    expect(entryOf('peaches-quarts', 2)).toMatchObject({ pots: 1, loadsPerPot: 2, acidPerJar: false });
  });

  test('a raw pack is not cooked, tomatoes carry the acid tick', () => {
    expect(entryOf('quick-dill-pickles', 1).cookMinutes).toBe(0);
    expect(entryOf('tomatoes-crushed-quarts', 1).acidPerJar).toBe(true);
  });

  test('a Saturday of jam and pickles fits into a day with one person and three burners', () => {
    const kitchen = { people: 1, burners: 3, canners: ['kettle'], loadingMinutes: 5, unloadingMinutes: 5 };

    const day = answerOf(
      canningDay(kitchen, [entryOf('strawberry-jam', 1), entryOf('quick-dill-pickles', 1)]),
    );

    expect(day.workMinutes).toBeLessThan(8 * 60);
  });
});

describe('pick and buy', () => {
  test.each([
    ['2026-08-22', '2026-08-20'],
    ['2026-08-21', '2026-08-20'],
    ['2026-08-20', '2026-08-13'],
    ['2026-08-17', '2026-08-13'],
  ])('for a session on %s by Thursday %s', (sessionOn, by) => {
    expect(pickAndBuyBy(asDate(sessionOn))).toBe(by);
  });
});
