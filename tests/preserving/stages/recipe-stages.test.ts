import { describe, expect, test } from 'vitest';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import {
  daysFor,
  leastHoursBefore,
  mostHoursBefore,
  type RecipeStage,
  stagesOfWay,
  startsOf,
  waysOf,
} from '../../../src/preserving/stages/recipe-stages.ts';
import { tables } from '../tables.ts';

const book = recipeBook(tables);
const stagesOf = (key: string): readonly RecipeStage[] => {
  const recipe = book.find((candidate) => candidate.key === key);
  if (!recipe) throw new Error(`no recipe ${key} in the book`);
  return recipe.stages;
};
const hoursOf = (key: string): [number, number] => [
  leastHoursBefore(stagesOf(key)),
  mostHoursBefore(stagesOf(key)),
];

// USDA Complete Guide 2 p2-9, 2-15; 4 p4-5, 4-6; 5 p5-8; 6 p6-7 to p6-12, p6-28.
describe('hours from the first work to filling the jars', () => {
  test.each([
    ['sauerkraut', 3 * 168, 6 * 168],
    ['cucumbers-quarts', 3 * 168, 6 * 168],
    ['14-day-sweet-pickles', 13 * 24, 13 * 24],
    ['quick-dill-pickles', 12, 12],
    ['bread-and-butter-pickles', 3, 27],
    ['pickle-relish', 29, 29],
    ['spiced-crab-apples', 24, 24],
    ['grape-juice-pints', 24, 48],
    ['beans-dried-pints', 1, 18],
    ['chile-con-carne', 12, 18],
    ['peaches-quarts', 0, 0],
  ])('%s: %i to %i', (key, least, most) => {
    expect(hoursOf(key)).toEqual([least, most]);
  });

  test('hours on a day that is counted by the date do not add: gherkins are filled on the fourth day, 6 to 8 hours in', () => {
    const [at] = startsOf(stagesOf('sweet-gherkin-pickles')).slice(-1);

    expect(at).toMatchObject({ leastHours: 3 * 24 + 6, mostHours: 3 * 24 + 8 });
  });

  test('what may be kept cold after its ferment may be canned at once', () => {
    const starts = startsOf(stagesOfWay(stagesOf('sauerkraut')));

    expect(starts.map(({ stage, leastHours }) => [stage.place, leastHours])).toEqual([
      ['crock', 0],
      ['refrigerator', 504],
      ['none', 504],
    ]);
  });

  test('half a day goes on to the morning after', () => {
    expect([0, 4, 8, 12, 18, 24, 48, 504].map(daysFor)).toEqual([0, 0, 0, 1, 1, 1, 2, 21]);
  });
});

describe('printed ways', () => {
  test('the first printed is taken where none is said; another leaves its positions out', () => {
    const stages = stagesOf('bread-and-butter-pickles');

    expect(waysOf(stages)).toEqual(['salted under ice', 'limed']);
    expect(stagesOfWay(stages).map(({ position }) => position)).toEqual([1, 5]);
    expect(stagesOfWay(stages, 'limed').map(({ position }) => position)).toEqual([1, 2, 3, 4, 5]);
    expect(waysOf(stagesOf('quick-dill-pickles'))).toEqual([null]);
    expect(waysOf([])).toEqual([null]);
  });

  test('in every way of every recipe no position begins before the one ahead of it, nor later than it may', () => {
    for (const { key, stages } of book)
      for (const way of waysOf(stages)) {
        const starts = startsOf(stagesOfWay(stages, way));
        for (const [at, start] of starts.entries()) {
          const before = starts[at - 1];
          if (before) expect(start.leastHours, key).toBeGreaterThanOrEqual(before.leastHours);
          if (start.mostHours !== null) expect(start.mostHours, key).toBeGreaterThanOrEqual(start.leastHours);
        }
        expect(leastHoursBefore(stages), key).toBeLessThanOrEqual(starts.at(-1)?.leastHours ?? 0);
      }
  });
});
