import { describe, expect, test } from 'vitest';
import { keepColdLimit, openedFoods } from '../../../src/preserving/afterwards/keep-cold-limit.ts';
import { tables } from '../tables.ts';

const limitOf = (food: (typeof openedFoods)[number]) => keepColdLimit(food, tables.shelfLives);

describe('how long an opened jar keeps cold', () => {
  test.each(openedFoods)('%s has a limit with a source', (food) => {
    const limit = limitOf(food);

    expect(limit.days).toBeGreaterThan(0);
    expect(limit.source.locator).not.toBe('');
  });

  // Food safety open data set (FSIS), products 372, 373 and 599; jam: National Center for Home Food Preservation as quoted.
  test.each([
    ['jam', 30, 'quality'],
    ['fruit', 5, 'quality'],
    ['tomato-sauce', 3, 'quality'],
    ['low-acid-vegetable', 3, 'safety'],
    ['meat', 3, 'safety'],
    ['seafood', 1, 'safety'],
    ['beans', 2, 'safety'],
  ] as const)('%s keeps %d days, a matter of %s', (food, days, kind) => {
    expect(limitOf(food)).toMatchObject({ days, kind });
  });

  test('home-canned applesauce follows opened fruit, not the 21 days of fresh homemade sauce', () => {
    expect(limitOf('applesauce')).toMatchObject({ days: 5, itemKey: 'hc_fruit' });
  });

  test('relish never gets the 274 days of shop relish', () => {
    expect(limitOf('relish').days).toBeLessThanOrEqual(30);
  });

  test('salsa takes the read figure of opened tomatoes over the remembered one and the shop figure', () => {
    expect(limitOf('salsa')).toMatchObject({ days: 5, source: { basis: 'read' } });
  });

  test('reduced-sugar jam keeps shorter than jam, and says that the figure is remembered', () => {
    expect(limitOf('jam-reduced-sugar')).toMatchObject({ days: 14, source: { basis: 'memory' } });
  });
});
