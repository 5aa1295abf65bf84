import { describe, expect, test } from 'vitest';
import { neverCanned } from '../../../src/preserving/uncanned/never-canned.ts';
import {
  basedOnWay,
  materialsOfWay,
  wayByKey,
  wayOf,
  waysMadeOf,
} from '../../../src/preserving/uncanned/uncanned-ways.ts';
import { tables } from '../tables.ts';

describe('a way of the book that is not canned', () => {
  test('is found again by what a recipe is based on, each of them and no other', () => {
    expect(tables.uncannedWays.length).toBeGreaterThan(0);
    for (const way of tables.uncannedWays) {
      expect(wayOf({ basedOn: basedOnWay(way.wayKey) }, tables)).toBe(way);
      expect(wayByKey(way.wayKey, tables)).toBe(way);
      expect(wayOf({ basedOn: way.wayKey }, tables)).toBeUndefined();
    }
  });

  test('is none where nothing, or a way that left the book, is named', () => {
    expect(wayOf({ basedOn: 'own' }, tables)).toBeUndefined();
    expect(wayOf({ basedOn: basedOnWay('of-before') }, tables)).toBeUndefined();
    expect(wayByKey('of-before', tables)).toBeUndefined();
    // The key of a recipe of the book that is as long as the prefix hides no way behind it.
    expect(wayOf({ basedOn: 'apple-pulleather-from-pulp' }, tables)).toBeUndefined();
  });

  test('made of what other batches leave names each of them; any other names none', () => {
    expect(materialsOfWay({ material: 'peach juice; fruit trimmings' })).toEqual([
      'peach juice',
      'fruit trimmings',
    ]);
    expect(materialsOfWay({ material: null })).toEqual([]);
  });

  test('made of a by-product is found by its name, in whatever letters', () => {
    const leather = wayByKey('leather-from-pulp', tables);
    const butter = wayByKey('butter-from-pulp', tables);
    expect(waysMadeOf('apple pulp', tables)).toEqual([leather, butter]);
    expect(waysMadeOf('Plum Pulp', tables)).toEqual([leather, butter]);
    expect(waysMadeOf('pulp', tables)).toEqual([]);
  });
});

describe('why a recipe of the household’s own is never canned', () => {
  test('is said in the words of the gate', () => {
    expect(neverCanned(tables)).toBe(
      'Food in sealed jars needs a process that was tested for it, and this recipe names none (USDA-G1, p1-8). Add the recipe from the book, or keep it frozen or refrigerated.',
    );
  });
});
