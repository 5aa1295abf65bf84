import { describe, expect, test } from 'vitest';
import { asJarKind } from '../../../shared/jar.ts';
import { freezerRoom, kitchenFor, waysOf, worthOf } from '../../../src/planning/glut/glut-ways.ts';
import type { PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';
import { dried, glutYear, kitchenOf, plum, plumsOf, recipeOf, wanting } from './glut-kitchen.ts';

describe('the room in the freezer', () => {
  const lot = (units: number) =>
    ({ ...plumJam.openingLots[0], units }) as (typeof plumJam.openingLots)[number];
  const room = (...items: readonly Partial<typeof plumJam>[]) =>
    freezerRoom(plumYear({ items: items.map((change) => ({ ...plumJam, ...change })) }));

  test('is what nothing stands in: 20 quarts less what all lots take', () => {
    expect(room({ freezerQuartsPerUnit: 2, openingLots: [lot(3), lot(1)] })).toBe(12);
    expect(
      room(
        { freezerQuartsPerUnit: 2, openingLots: [lot(3)] },
        { freezerQuartsPerUnit: 0.5, openingLots: [lot(4)] },
      ),
    ).toBe(12);
    // Jars on a shelf take none of it.
    expect(room({})).toBe(20);
  });

  test('is never less than none', () => {
    expect(room({ freezerQuartsPerUnit: 2, openingLots: [lot(10)] })).toBe(0);
    expect(room({ freezerQuartsPerUnit: 2, openingLots: [lot(11)] })).toBe(0);
  });
});

describe('the kitchen a glut finds', () => {
  test('has the weeks it keeps, as far as the year goes', () => {
    expect(kitchenFor(glutYear([jamRecipe]), 3)).toMatchObject({ weeks: 3, freezerQuarts: 20 });
    expect(kitchenFor(glutYear([jamRecipe]), 99).weeks).toBe(52);
  });
});

describe('the ways of a crop', () => {
  const idsOf = (recipes: readonly PlannedRecipe[], change: Partial<PlanningYear> = {}, weeks = 2) =>
    kitchenOf(glutYear(recipes, change), { weeks }).ways.map(({ recipe }) => recipe.id);

  test('ask for what one batch takes', () => {
    const bags = dried('bags', 40, {
      ...plumsOf(6),
      produce: [
        ...plumsOf(6).produce,
        ...plumsOf(2).produce,
        { crop: 'pear' as never, lb: 9, mayBeFrozen: false },
      ],
      yieldLowUnits: 4,
    });
    const { ways } = kitchenOf(
      glutYear([bags, recipeOf('jam')], {
        items: [{ ...plumJam, freezerQuartsPerUnit: 0.5 }],
        sources: [
          ...glutYear([]).sources,
          ...glutYear([]).sources.map((source) => ({
            ...source,
            id: 'pears' as never,
            crop: 'pear' as never,
          })),
        ],
      }),
      { weeks: 2, walkOf: () => wanting(3) },
    );
    expect(ways[0]).toMatchObject({ at: 0, lb: 8, minutes: 40, quarts: 2, walk: { toCome: 3 } });
    // With one load of its canner: ten minutes attended.
    expect(ways[1]).toMatchObject({ at: 1, lb: 10, minutes: 100 });
  });

  test('have the most batches by the week in which they are begun', () => {
    const late = dried('late', 90, { ...plumsOf(10), allowedByWeek: plumWeeks.map((_, week) => week === 1) });
    const stages = { weeks: 1, daysFromMonday: 5, handsOnByWeek: [90, 0], possibleByWeek: null };
    const staged = dried('staged', 90, { ...plumsOf(10), stages });
    const { way } = kitchenOf(glutYear([late, staged]), { weeks: 2 });
    expect(way('late').most).toEqual([0, 3]);
    expect(way('staged').most).toEqual([3, 3]);
  });

  test('are those that take some of it, are to begin, and wait for nothing another batch leaves', () => {
    expect(
      idsOf([
        recipeOf('a'),
        recipeOf('pears', { produce: [{ crop: 'pear' as never, lb: 9, mayBeFrozen: false }] }),
        recipeOf('b-none', { produce: [] }),
        recipeOf('leavings', { uses: [{ materialId: 'pulp', quantity: 1 }] }),
        recipeOf('never', { allowedByWeek: plumWeeks.map(() => false) }),
        recipeOf('later', { allowedByWeek: plumWeeks.map((_, week) => week === 2) }),
        recipeOf('next', { allowedByWeek: plumWeeks.map((_, week) => week === 1) }),
      ]),
    ).toEqual(['a', 'next']);
    const begun = {
      id: 'b',
      recipeId: 'a' as never,
      jarKind: jamRecipe.jarKind,
      batches: 1,
      begunOn: plumYear().asOf,
      mayLoadByWeek: plumWeeks.map(() => true),
    };
    expect(idsOf([recipeOf('a')], { begun: [begun] })).toEqual(['a']);
  });

  describe('of one recipe in several jars', () => {
    const kinds = { pint: asJarKind('pint', 'regular'), quart: asJarKind('quart', 'wide') };
    const inJars = (jarKind: PlannedRecipe['jarKind'], yieldHighJars = 8) =>
      recipeOf('jam', { jarKind, yieldHighJars });
    const [holding] = plumYear().jars;
    if (holding === undefined) throw new Error('expected jars');
    const chosen = (
      recipes: readonly PlannedRecipe[],
      empty: Readonly<Partial<Record<keyof typeof kinds, number>>>,
      own: PlannedRecipe['jarKind'] = kinds.pint,
    ) => {
      const jars = Object.entries(empty).map(([kind, count]) => ({
        ...holding,
        kind: kinds[kind as keyof typeof kinds],
        empty: count,
      }));
      const year = glutYear(recipes, { jars, items: [{ ...plumJam, jarKind: own }] });
      const ways = waysOf(kitchenFor(year, 1), plum, () => null);
      expect(ways).toHaveLength(1);
      return ways[0]?.recipe.jarKind;
    };
    const both = [inJars(kinds.pint), inJars(kinds.quart)];

    test('is the one with the fewest jars missing', () => {
      expect(chosen(both, { pint: 7, quart: 8 })).toBe(kinds.quart);
      expect(chosen(both, { pint: 8, quart: 7 })).toBe(kinds.pint);
      expect(chosen(both, { pint: 3, quart: 2 }, kinds.quart)).toBe(kinds.pint);
      expect(chosen(both, { quart: 1 })).toBe(kinds.quart);
    });

    test('of as many the item’s own jar', () => {
      for (const recipes of [both, both.toReversed()])
        for (const empty of [{ pint: 8, quart: 30 }, { pint: 5, quart: 5 }, {}]) {
          expect(chosen(recipes, empty)).toBe(kinds.pint);
          expect(chosen(recipes, empty, kinds.quart)).toBe(kinds.quart);
        }
    });

    test('and of no jars at all none is missing', () => {
      expect(chosen([inJars(kinds.pint), inJars(null)], { pint: 7 })).toBeNull();
      expect(chosen([inJars(kinds.pint), inJars(null)], { pint: 8 })).toBe(kinds.pint);
    });
  });
});

describe('what units are worth to the year', () => {
  test('is their share of it, what is neither there nor planned counted twice', () => {
    const walk = wanting(10, { need: 16, carryOver: 4, missing: 3 });
    expect(worthOf(walk, 2)).toBeCloseTo((2 + 2) / 20, 12);
    expect(worthOf(walk, 7)).toBeCloseTo((7 + 3) / 20, 12);
    expect(worthOf(walk, 50)).toBeCloseTo((10 + 3) / 20, 12);
    expect(worthOf(walk, 0)).toBe(0);
  });

  test('is nothing where nobody keeps it, or the year wants none', () => {
    expect(worthOf(null, 5)).toBe(0);
    expect(worthOf(wanting(5, { need: 0, carryOver: 0 }), 5)).toBe(0);
    expect(worthOf(wanting(5, { need: 0, carryOver: 2 }), 1)).toBe(1);
  });
});
