import { expect, test } from 'vitest';
import type { ItemId } from '../../../shared/ids.ts';
import { itemsChanged, recipesBesides, recipesOf } from '../../../src/planning/solving/items-changed.ts';
import { batchOf, food, shortYear } from '../short-year.ts';

const year = shortYear(2, {
  foods: [food('jam', { stands: 4 }), food('relish'), food('kraut')],
  recipes: [
    batchOf('jam-of-plums', 'jam'),
    batchOf('relish-of-plums', 'relish'),
    batchOf('kraut-of-cabbage', 'kraut', {
      produce: [{ crop: 'cabbage' as never, lb: 5, mayBeFrozen: false }],
    }),
  ],
});
const jamWith = (change: object) => ({
  items: year.items.map((item) => (item.id === 'jam' ? { ...item, ...change } : item)),
});
const names = (ids: ReadonlySet<string>) => [...ids].sort();
const lots = (units: number) =>
  year.items.flatMap(({ openingLots }) => openingLots).map((lot) => ({ ...lot, units }));

test.each([
  ['a jar more stands', { openingLots: lots(5) }],
  ['a jar less stands', { openingLots: lots(3) }],
  ['more is eaten', { useByWeek: [1.3, 1.3] }],
  ['more is held in reserve', { reserveUnits: 1 }],
  ['a plan works towards more', { reserveForAim: 1 }],
  ['more is handed over at the end', { yearEndUnits: 1 }],
])('an item changed where %s', (_, change) => {
  expect(names(itemsChanged(year, jamWith(change)))).toEqual(['jam']);
});

test('an item did not change by half a unit, nor where what is eaten was taken already', () => {
  expect(itemsChanged(year, jamWith({ yearEndUnits: 0.5 })).size).toBe(0);
  expect(itemsChanged(year, jamWith({ openingLots: lots(3), useByWeek: [0, 1] })).size).toBe(0);
});

test('an item that was not there changed', () => {
  const { items } = year;
  expect(names(itemsChanged({ items: items.slice(1) }, year))).toEqual([items[0]?.id]);
});

test('recipes of an item, and besides them what shares a crop with it', () => {
  const jam = new Set(['jam' as ItemId]);
  expect(names(recipesOf(jam, year))).toEqual(['jam-of-plums']);
  expect(names(recipesBesides(jam, year))).toEqual(['jam-of-plums', 'relish-of-plums']);
});
