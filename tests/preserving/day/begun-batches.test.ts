import { describe, expect, test } from 'vitest';
import type { RecipeId } from '../../../shared/ids.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import {
  batchesBegunOn,
  batchesWrittenDown,
  isWrittenDown,
} from '../../../src/preserving/day/begun-batches.ts';
import { type LoadsOfDay, recipesOnTheStove } from '../../../src/preserving/day/loads-of-day.ts';

const jam = 'plum-jam' as RecipeId;
const beans = 'green-beans' as RecipeId;

const cameOut = (...results: readonly (readonly [RecipeId, number])[]): readonly BatchResult[] =>
  results.map(([recipeId, batches]) => ({ recipeId, batches }) as unknown as BatchResult);

const loadsOf = (ticked: Readonly<Record<string, readonly string[]>>, timed: readonly string[] = []) =>
  ({
    tickedByLoad: new Map(Object.entries(ticked).map(([key, steps]) => [key, new Set(steps)])),
    clockByLoad: new Map(timed.map((key) => [key, []])),
  }) as LoadsOfDay;

describe('batches of a recipe that are written down', () => {
  test('are those of its own results, several on one day added up', () => {
    expect(batchesWrittenDown(jam, cameOut([jam, 2], [beans, 5], [jam, 1]))).toBe(3);
    expect(batchesWrittenDown(jam, [])).toBe(0);
  });

  // What was processed again is written down with no batch of its own.
  test.each([
    { came: cameOut([jam, 2]), isAll: true },
    { came: cameOut([jam, 1], [jam, 1]), isAll: true },
    { came: cameOut([jam, 3]), isAll: true },
    { came: cameOut([jam, 1], [jam, 0]), isAll: false },
    { came: cameOut([jam, 1], [beans, 2]), isAll: false },
  ])('of two batches on the day, $came is all of it: $isAll', ({ came, isAll }) => {
    expect(isWrittenDown({ recipeId: jam, batches: 2 }, came)).toBe(isAll);
  });
});

describe('batches of a recipe that are begun on a day', () => {
  test('reach to the last pot that was ticked or timed, or to what is written down, whichever is more', () => {
    expect(batchesBegunOn(jam, loadsOf({ 'plum-jam.1.1': ['lids'], 'plum-jam.3.1': ['lids'] }), [])).toBe(3);
    expect(batchesBegunOn(jam, loadsOf({ 'plum-jam.1.1': ['lids'] }, ['plum-jam.2.2']), [])).toBe(2);
    expect(batchesBegunOn(jam, loadsOf({ 'plum-jam.1.1': ['lids'] }), cameOut([jam, 4], [beans, 9]))).toBe(4);
    expect(batchesBegunOn(jam, loadsOf({ 'green-beans.5.1': ['lids'] }), [])).toBe(0);
  });
});

describe('recipes on the stove', () => {
  test('are those of which a step was ticked or a clock was started; a tick taken back leaves none', () => {
    const loads = loadsOf({ 'plum-jam.1.1': ['lids'], 'green-beans.1.1': [], 'plum-jam.2.1': ['lids'] }, [
      'peach-halves.1.1',
    ]);
    expect([...recipesOnTheStove(loads)].toSorted()).toEqual(['peach-halves', 'plum-jam']);
  });

  test('a key that names no load is nobody’s', () => {
    expect([...recipesOnTheStove(loadsOf({ 'plum-jam': ['lids'] }, ['of-before']))]).toEqual([]);
    expect([...recipesOnTheStove(loadsOf({}))]).toEqual([]);
  });
});
