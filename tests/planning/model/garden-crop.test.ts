import { describe, expect, it } from 'vitest';
import { gardenCrops } from '../../../src/planning/model/garden-crop.ts';
import { planningParameters } from '../../../src/planning/model/parameters.ts';
import { planningSets } from '../../../src/planning/model/sets.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import {
  each,
  handMadeYear,
  lot,
  named,
  pack,
  produceOf,
  recipe,
  source,
  staged,
  used,
} from './hand-made-year.ts';

const boil = recipe('boil', 'jam', { produce: [produceOf('plum', 4)] });
const tree = (lbByWeek: readonly number[], useByDays = 4) =>
  source('tree', 'plum', lbByWeek, { kind: 'garden', useByDays });

const garden = (parts: Partial<PlanningYear>, count = 4) => {
  const sets = planningSets(
    handMadeYear(count, {
      items: [used('jam', [...each(count - 1, 0), 100])],
      recipes: [boil],
      sources: [tree([9, 9, 0, 0])],
      ...parts,
    }),
  );
  return gardenCrops(sets, planningParameters(sets).mostBatches);
};
const wanted = (parts: Partial<PlanningYear>, count = 4) => garden(parts, count)[0]?.wantedLb;

describe('pounds of our own that the year could use', () => {
  it('are whole batches of each week’s picking where it neither keeps nor is topped up', () => {
    expect(wanted({ sources: [tree([9, 7, 3, 0])] })).toBe(8 + 4);
    expect(wanted({ sources: [tree([30, 0, 0, 0])] })).toBe(3 * 4);
    expect(wanted({ sources: [tree([3, 3, 3, 3])] })).toBeUndefined();
  });

  it('are whole batches of all of it where it keeps for a week', () => {
    expect(wanted({ sources: [tree([9, 7, 3, 0], 7)] })).toBe(16);
    expect(wanted({ sources: [tree([3, 3, 3, 3], 7)] })).toBe(12);
  });

  it('are all of it where a market tops it up, or the freezer keeps it', () => {
    expect(wanted({ sources: [tree([9, 7, 3, 0]), source('stall', 'plum', each(4, 20))] })).toBe(16);
    const freezable = [{ crop: named<never>('plum'), openingLb: 0, keepsMonthsFrozen: 8, quartsPerLb: 1 }];
    const thaw = recipe('boil', 'jam', { produce: [produceOf('plum', 4, true)] });
    expect(wanted({ sources: [tree([9, 7, 3, 0])], recipes: [thaw], freezable })).toBe(16);
  });

  it('are none that come when no batch could take them', () => {
    const late = { ...boil, allowedByWeek: [false, false, true, true] };
    expect(wanted({ sources: [tree([8, 8, 8, 8])], recipes: [late] })).toBe(16);
    expect(wanted({ sources: [tree([8, 8, 8, 0], 7)], recipes: [late] })).toBe(16);
    expect(wanted({ sources: [tree([8, 8, 8, 0], 14)], recipes: [late] })).toBe(24);
    expect(wanted({ sources: [tree([8, 8, 0, 0])], recipes: [late] })).toBeUndefined();
    const days = { ...tree([8, 8, 8, 0]), lastUseWeekByWeek: [0, 0, 2, 3] };
    expect(wanted({ sources: [days] })).toBe(16);
  });

  it('come frozen to batches as far ahead as they keep', () => {
    const freezable = (keepsMonthsFrozen: number) => [
      { crop: named<never>('plum'), openingLb: 0, keepsMonthsFrozen, quartsPerLb: 1 },
    ];
    const late = recipe('boil', 'jam', {
      produce: [produceOf('plum', 4, true)],
      allowedByWeek: [...each(4, false), true],
    });
    const sources = [tree([8, 0, 0, 0, 0])];
    expect(wanted({ recipes: [late], sources, freezable: freezable(8) }, 5)).toBe(8);
    expect(wanted({ recipes: [late], sources, freezable: freezable(0.5) }, 5)).toBeUndefined();
  });

  it('are taken in the week in which a batch is begun', () => {
    const soak = { ...boil, stages: staged(1, [30, 30]) };
    expect(wanted({ recipes: [soak], sources: [tree([8, 0, 0, 8])] })).toBe(8);
  });

  it('are nobody’s loss where they are bought, or nobody makes anything of them', () => {
    expect(garden({ sources: [source('stall', 'plum', each(4, 20))] })).toEqual([]);
    expect(garden({ recipes: [{ ...boil, allowedByWeek: each(4, false) }] })).toEqual([]);
    expect(garden({ sources: [source('tree', 'pear', each(4, 20), { kind: 'garden' })] })).toEqual([]);
  });
});

describe('no more than what the year wants of it', () => {
  const ofJam = (
    parts: Partial<PlannedItem>,
    useByWeek = [0, 0, 0, 13],
    recipes: readonly PlannedRecipe[] = [boil],
  ) => wanted({ items: [used('jam', useByWeek, parts)], sources: [tree([12, 12, 12, 12])], recipes });

  it('is whole batches for what is eaten and handed over, less what stands', () => {
    expect(ofJam({})).toBe(8);
    expect(ofJam({}, [0, 0, 0, 15])).toBe(12);
    expect(ofJam({ yearEndUnits: 3 })).toBe(12);
    expect(ofJam({ reserveUnits: 1, reserveForAim: 6 })).toBe(16);
    expect(ofJam({ openingLots: [lot('a', 2), lot('b', 2)] })).toBe(4);
    expect(ofJam({ openingLots: [lot('a', 20)] })).toBeUndefined();
  });

  it('is only what is eaten before its date, from the week in which it could be ready', () => {
    const early = { ...boil, allowedByWeek: [false, true, false, false] };
    const cured = { ...early, readyAfterWeeks: 1 };
    const eaten = (bestQualityWeeks: number, one: PlannedRecipe, use = [50, 5, 10, 15]) =>
      ofJam({ bestQualityWeeks, yearEndUnits: 50 }, use, [one]);
    // Ready in the second week: 5, then 10, then 15 are eaten of it; it lasts beyond the year from then on.
    expect(eaten(1, early)).toBe(4);
    expect(eaten(2, early)).toBe(12);
    expect(eaten(2, cured, [50, 50, 5, 5])).toBe(8);
    // At the year's end it is past its date: nothing of it is handed over.
    expect(eaten(3, early, [0, 0, 0, 5])).toBe(4);
    expect(eaten(4, early, [0, 0, 0, 5])).toBe(12);
  });

  it('is the least of the ways that make it', () => {
    const thrifty = recipe('thrifty', 'jam', { produce: [produceOf('plum', 3)] });
    expect(ofJam({}, [0, 0, 0, 13], [boil, thrifty])).toBe(6);
  });
});

describe('a crop that may become several items', () => {
  const sauce = recipe('cook', 'sauce', { produce: [produceOf('plum', 2)], yieldLowUnits: 2 });
  const crops = () =>
    garden({
      items: [used('jam', [0, 0, 0, 10]), used('other', [0, 0, 0, 10]), used('sauce', [0, 0, 0, 5])],
      recipes: [boil, recipe('dry', 'other'), sauce],
      sources: [source('stall', 'plum', each(4, 20)), tree([12, 12, 12, 12])],
    });

  it('is told by what each wants, and worth the most that a pound of it gives', () => {
    expect(crops()).toEqual([
      {
        rawMaterial: 0,
        sources: [1],
        wantedLb: 12,
        unitsPerLb: 1.25,
        uses: [
          { item: 0, ways: [0], wantedLb: 8 },
          { item: 2, ways: [1], wantedLb: 4 },
        ],
      },
    ]);
  });

  it('is not told so where it becomes one', () => {
    expect(garden({})[0]).toMatchObject({ uses: [], unitsPerLb: 1.25 });
  });

  it('is not told of what is only bought', () => {
    expect(
      garden({
        items: [
          used('jam', [0, 0, 0, 10]),
          used('salt', each(4, 1), { packs: [pack('bag', 1, each(4, 9))] }),
        ],
      })[0]?.uses,
    ).toEqual([]);
  });
});
