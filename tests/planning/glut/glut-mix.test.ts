import { describe, expect, test } from 'vitest';
import { bestMix, byPounds, byWorth, moreThan, quickest } from '../../../src/planning/glut/glut-mix.ts';
import type { Mix } from '../../../src/planning/glut/glut-room.ts';
import type { PlannedRecipe } from '../../../src/planning/planning-year.ts';
import { plumJam } from '../plum-year.ts';
import { dried, glutYear, itemOf, kitchenOf, plumsOf, wanting } from './glut-kitchen.ts';

// A week holds 270 minutes of work beside its set-up of 30.
const batchesOf = (mix: Mix | null) =>
  mix === null ? null : Object.fromEntries(mix.taken.map(({ way, batches }) => [way.recipe.id, batches]));

describe('one figure above another', () => {
  test('by more than rounding, or neither', () => {
    expect(moreThan(2, 1)).toBe(true);
    expect(moreThan(1, 2)).toBe(false);
    expect(moreThan(1, 1)).toBeNull();
    expect(moreThan(1 + 1e-7, 1)).toBeNull();
    expect(moreThan(1, 1 + 1e-7)).toBeNull();
    expect(moreThan(1 + 2e-6, 1)).toBe(true);
  });
});

describe('the likeliest ways first', () => {
  const waysOf = (recipes: readonly PlannedRecipe[], wanted = 100) =>
    kitchenOf(glutYear(recipes), { walkOf: () => wanting(wanted) }).ways;
  const ids = (ways: ReturnType<typeof waysOf>) => ways.map(({ recipe }) => recipe.id);
  const way = (id: string, minutes: number, lb: number, yieldLowUnits: number) =>
    dried(id, minutes, { ...plumsOf(lb), yieldLowUnits });

  test('are those that serve most of the year for a minute of work, of equal ones by their ids', () => {
    // Units a minute: 0.1, 0.2, 0.1, 0.05.
    const ways = waysOf([way('c', 100, 9, 10), way('d', 50, 1, 10), way('b', 10, 1, 1), way('a', 100, 1, 5)]);
    expect(ids(byWorth(ways))).toEqual(['d', 'b', 'c', 'a']);
    expect(ids(byWorth(ways.toReversed()))).toEqual(['d', 'b', 'c', 'a']);
  });

  test('are those that take most pounds for a minute, of equal ones by their ids', () => {
    const ways = waysOf([way('c', 100, 10, 9), way('d', 50, 10, 1), way('b', 10, 1, 9), way('a', 100, 5, 9)]);
    expect(ids(byPounds(ways))).toEqual(['d', 'b', 'c', 'a']);
    expect(ids(byPounds(ways.toReversed()))).toEqual(['d', 'b', 'c', 'a']);
  });

  test('work of no minutes counts as one', () => {
    const ways = waysOf([way('none', 0, 10, 10), way('one', 1, 11, 11), way('two', 2, 18, 18)]);
    expect(ids(byPounds(ways))).toEqual(['one', 'none', 'two']);
    expect(ids(byWorth(ways))).toEqual(['one', 'none', 'two']);
  });
});

describe('the best mix', () => {
  const recipes = [
    dried('big', 200, { ...plumsOf(20), yieldLowUnits: 10 }),
    dried('middle', 130, { ...plumsOf(12), yieldLowUnits: 6 }),
    dried('small', 60, { ...plumsOf(5), yieldLowUnits: 2 }),
  ];
  const mostPounds = (one: Mix, other: Mix) => moreThan(one.lb, other.lb);
  const best = (lb: number, { isWanted = false, wanted = 100 } = {}) => {
    const { kitchen, ways } = kitchenOf(glutYear(recipes), { walkOf: () => wanting(wanted) });
    return batchesOf(bestMix(kitchen, byPounds(ways), lb, { isWanted, isBetter: mostPounds }));
  };

  test('is found among all that fit, also where the likeliest way is no part of it', () => {
    // In 270 minutes: big and small make 25 lb, two of middle 24; of 24 lb all are taken by two of middle.
    expect(best(100)).toEqual({ big: 1, small: 1 });
    expect(best(24)).toEqual({ middle: 2 });
    expect(best(5)).toEqual({ small: 1 });
    expect(best(4.9)).toBeNull();
  });

  test('of equal ones is the first, of the likeliest way', () => {
    const even = [dried('a', 100, plumsOf(10)), dried('b', 100, plumsOf(10))];
    const { kitchen, ways } = kitchenOf(glutYear(even));
    const aim = { isWanted: false, isBetter: mostPounds };
    expect(batchesOf(bestMix(kitchen, ways, 10, aim))).toEqual({ a: 1 });
    expect(batchesOf(bestMix(kitchen, ways.toReversed(), 10, aim))).toEqual({ b: 1 });
  });

  test('where only what is wanted counts, takes no batch of which the year wants less than half', () => {
    expect(best(100, { isWanted: true, wanted: 5 })).toEqual({ big: 1 });
    expect(best(100, { isWanted: true, wanted: 4 })).toEqual({ middle: 1 });
    expect(best(100, { isWanted: true, wanted: 0 })).toBeNull();
    expect(best(100, { isWanted: false, wanted: 0 })).toEqual({ big: 1, small: 1 });
  });
});

describe('the least work for a pound', () => {
  const quick = (
    recipes: readonly PlannedRecipe[],
    lb: number,
    wanted: Readonly<Record<string, number>> = {},
  ) => {
    const items = [plumJam, itemOf('other')];
    const { kitchen, ways } = kitchenOf(glutYear(recipes, { items }), {
      walkOf: (item) => (wanted[item] === undefined ? null : wanting(wanted[item])),
    });
    return batchesOf(quickest(kitchen, ways, lb));
  };
  const other = { itemId: itemOf('other').id };

  test('is of one way alone, as far as it goes, with its set-up', () => {
    // Eight of 30 minutes take 8 lb in 270 minutes, set-up with them; two of 100 take 20 lb in 230.
    expect(quick([dried('slow', 30, plumsOf(1)), dried('fast', 100, plumsOf(10))], 100)).toEqual({ fast: 2 });
    expect(quick([dried('fast', 100, plumsOf(10)), dried('faster', 90, plumsOf(10))], 30)).toEqual({
      faster: 3,
    });
  });

  test('is as much as the year wants of it, where it wants any', () => {
    const jam = dried('jam', 60, { ...plumsOf(10), yieldLowUnits: 4 });
    expect(quick([jam], 100, { [plumJam.id]: 6 })).toEqual({ jam: 2 });
    expect(quick([jam], 100, { [plumJam.id]: 5.9 })).toEqual({ jam: 1 });
    // Wanted not by half a batch, it goes as far as the plums and the hours.
    expect(quick([jam], 100, { [plumJam.id]: 1.9 })).toEqual({ jam: 4 });
    expect(quick([jam], 100)).toEqual({ jam: 4 });
  });

  test('is none that takes less than half of what another does', () => {
    const some = (lb: number) => dried('some', 1, { ...plumsOf(lb), yieldLowUnits: 8 });
    const most = dried('most', 200, { ...plumsOf(10), ...other });
    const wanted = { [plumJam.id]: 4 };
    expect(quick([some(4.9), most], 100, wanted)).toEqual({ most: 1 });
    expect(quick([some(5), most], 100, wanted)).toEqual({ some: 1 });
  });

  test('of equal ones is the first; none where no batch fits', () => {
    expect(quick([dried('b', 100, plumsOf(10)), dried('a', 100, plumsOf(10))], 10)).toEqual({ a: 1 });
    expect(quick([dried('jam', 100, plumsOf(10))], 9)).toBeNull();
    expect(quick([], 9)).toBeNull();
  });
});
