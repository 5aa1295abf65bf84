import { describe, expect, it } from 'vitest';
import type { RawMaterial } from '../../../src/planning/model/raw-materials.ts';
import { freshReach, frozenReach, mostByMaterial } from '../../../src/planning/model/reachable-material.ts';
import { planningSets } from '../../../src/planning/model/sets.ts';
import type { PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import { each, handMadeYear, named, produceOf, recipe, source, staged, used } from './hand-made-year.ts';

const setsOf = (recipes: readonly PlannedRecipe[], parts: Partial<PlanningYear> = {}) =>
  planningSets(handMadeYear(6, { items: [used('jam', each(6, 1))], recipes, ...parts }));
const only = (sets: ReturnType<typeof setsOf>): RawMaterial => {
  const [first] = sets.rawMaterials;
  if (first === undefined) throw new Error('expected a raw material');
  return first;
};
const boil = recipe('boil', 'jam', { produce: [produceOf('plum', 4)] });

describe('a crop that can be on hand', () => {
  it('is what came this week and in the weeks it keeps', () => {
    const sets = setsOf([boil], {
      sources: [
        source('orchard', 'plum', [10, 0, 4, 0, 0, 0], { useByDays: 14 }),
        source('stall', 'plum', [1, 1, 1, 0, 0, 0]),
      ],
    });
    expect(sets.weekIndexes.map((week) => freshReach(sets, [], only(sets), week))).toEqual([
      11, 11, 15, 4, 4, 0,
    ]);
    expect(mostByMaterial(sets, [])(boil, 2)).toBe(15 / 4);
    expect(frozenReach(sets, [], only(sets), 2)).toBe(0);
  });

  it('is frozen of all that came while it keeps frozen, whether it could wait or not', () => {
    const sets = setsOf([boil], {
      sources: [source('orchard', 'plum', [10, 0, 4, 0, 0, 0])],
      freezable: [{ crop: named('plum'), openingLb: 3, keepsMonthsFrozen: 0.5, quartsPerLb: 1 }],
    });
    expect(sets.weekIndexes.map((week) => frozenReach(sets, [], only(sets), week))).toEqual([
      13, 13, 17, 4, 4, 0,
    ]);
  });

  it('is worked up frozen in weeks that bring it fresh, else in every fourth', () => {
    const mixed = recipe('mixed', 'jam', { produce: [produceOf('plum', 2), produceOf('plum', 2, true)] });
    const frozen = recipe('frozen', 'jam', { produce: [produceOf('plum', 4, true)] });
    const sets = setsOf([mixed, frozen], {
      sources: [source('orchard', 'plum', [0, 8, 0, 0, 0, 0])],
      freezable: [{ crop: named('plum'), openingLb: 12, keepsMonthsFrozen: 8, quartsPerLb: 1 }],
    });
    const most = (of: PlannedRecipe) => sets.weekIndexes.map((week) => mostByMaterial(sets, [])(of, week));
    // 12 frozen; in the second week 8 fresh, which may have been frozen then or not.
    expect(most(frozen)).toEqual([3, 7, 0, 0, 5, 0]);
    expect(most(mixed)).toEqual([0, 4, 0, 0, 0, 0]);
  });
});

describe('a by-product that can be on hand', () => {
  const press = recipe('press', 'jam', {
    gives: [{ materialId: 'pulp', quantity: 3 }],
    stages: staged(1, [30, 30]),
  });
  const use = recipe('use', 'jam', { uses: [{ materialId: 'pulp', quantity: 2 }] });
  const sets = () =>
    setsOf([press, use], {
      materials: [
        {
          id: 'pulp',
          name: 'Pulp',
          unit: 'lb',
          opening: 5,
          keepsDaysCold: 7,
          keepsMonthsFrozen: 0.25,
          quartsPerUnit: 1,
        },
      ],
    });

  it('is what was there and what the most batches leave when they are begun', () => {
    const most = [[0, 2, 0, 1, 0, 0], each(6, 9)];
    // Loaded in the second and fourth week, begun a week before each.
    expect(sets().weekIndexes.map((week) => freshReach(sets(), most, only(sets()), week))).toEqual([
      11, 11, 3, 3, 0, 0,
    ]);
    expect(mostByMaterial(sets(), most)(use, 1)).toBe((11 + 6) / 2);
  });

  it('is only what was there while no batches are known', () => {
    expect(freshReach(sets(), [[], []], only(sets()), 1)).toBe(5);
    expect(freshReach(sets(), [[], []], only(sets()), 2)).toBe(0);
  });
});

it('a recipe that needs nothing is held back by nothing', () => {
  const dry = recipe('dry', 'jam');
  expect(mostByMaterial(setsOf([boil, dry]), [])(dry, 0)).toBe(Number.POSITIVE_INFINITY);
});
