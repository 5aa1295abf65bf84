import { describe, expect, test } from 'vitest';
import { gardenWishes, groupWishes, itemWishes } from '../../../src/planning/answer/gave-way.ts';
import { type PlanPath, planPaths } from '../../../src/planning/answer/plan-path.ts';
import { buildModel } from '../../../src/planning/model/build-model.ts';
import { buyAsNeeded } from '../../../src/planning/packs/buy-as-needed.ts';
import type { PlannedGroup, PlanningYear } from '../../../src/planning/planning-year.ts';
import { batchOf, food, pack, shortYear, sourceOf, weekAt } from '../short-year.ts';

/** Wishes about oats, of which everything that is not told comes out as nobody could want it better. */
function wishes(change: Parameters<typeof food>[1], path: Partial<PlanPath>, weeks = 4) {
  const year = shortYear(weeks, { foods: [food('oats', { packs: [pack('bag', 1, 300)], ...change })] });
  const { sets, parameters } = buildModel(year);
  const [plain] = planPaths(sets, buyAsNeeded(sets, parameters));
  const full = year.weeks.map(() => 99);
  return itemWishes(sets, parameters, [
    { ...(plain as PlanPath), stockByWeek: full, takenByWeek: full, ...path },
  ]).map(({ rung, what, amount, unit }) => `${rung} ${what} ${amount} ${unit}`);
}

describe('wishes about one item that a plan does not meet', () => {
  test('are none where all is there', () => {
    expect(wishes({ reserveUnits: 3, yearEndUnits: 3, familyMinimumUnits: 3 }, {})).toEqual([]);
  });

  test('are use that is missed, and what the year’s end lacks of what it hands over', () => {
    expect(wishes({}, { missedByWeek: [0, 1.5, 0, 0.25] })).toEqual(['use oats 1.75 units']);
    expect(wishes({ yearEndUnits: 5 }, { stockByWeek: [9, 9, 9, 3] })).toEqual(['use oats 2 units']);
    expect(wishes({ yearEndUnits: 5 }, { missedByWeek: [0, 1, 0, 0], stockByWeek: [9, 9, 9, 3] })).toEqual([
      'use oats 3 units',
    ]);
    expect(wishes({ yearEndUnits: 5 }, { stockByWeek: [9, 9, 9, 5] })).toEqual([]);
  });

  test('are said to a hundredth from a twentieth of a unit on', () => {
    expect(wishes({}, { missedByWeek: [0.05, 0, 0, 0] })).toEqual(['use oats 0.05 units']);
    expect(wishes({}, { missedByWeek: [0.0499, 0, 0, 0] })).toEqual([]);
    expect(wishes({}, { missedByWeek: [0.126, 0, 0, 0] })).toEqual(['use oats 0.13 units']);
  });

  test('are what a reserve lacks where it is lowest', () => {
    expect(wishes({ reserveUnits: 4 }, { stockByWeek: [4, 1, 2, 9] })).toEqual(['reserve oats 3 units']);
    expect(wishes({ reserveUnits: 4 }, { stockByWeek: [4, 4, 4, 4] })).toEqual([]);
  });

  test('count a reserve at the year’s end on top of what that hands over, and that not twice', () => {
    const atEnd = (stock: number) =>
      wishes({ reserveUnits: 4, yearEndUnits: 5 }, { stockByWeek: [9, 9, 9, stock] });

    expect(atEnd(9)).toEqual([]);
    expect(atEnd(7)).toEqual(['reserve oats 2 units']);
    expect(atEnd(5)).toEqual(['reserve oats 4 units']);
    expect(atEnd(3)).toEqual(['use oats 2 units', 'reserve oats 4 units']);
  });

  test('never count as short what only playing the plan asked for', () => {
    expect(wishes({ reserveUnits: 1, reserveForAim: 8 }, { stockByWeek: [1, 1, 1, 1] })).toEqual([]);
  });

  test('count what an emergency shelf lacks as reserve within the year, and as handed over at its end', () => {
    expect(wishes({ emergencyUnits: 3 }, { stockByWeek: [1, 3, 3, 3] })).toEqual(['reserve oats 2 units']);
    expect(wishes({ emergencyUnits: 3 }, { stockByWeek: [3, 3, 3, 1] })).toEqual(['use oats 2 units']);
    expect(wishes({ emergencyUnits: 3, reserveUnits: 1 }, { stockByWeek: [4, 3, 4, 4] })).toEqual([
      'reserve oats 1 units',
    ]);
  });

  test('are what a family takes less than its minimum', () => {
    expect(wishes({ familyMinimumUnits: 7 }, { takenByWeek: [1, 2, 1, 0.5] })).toEqual([
      'family minimum oats 2.5 units',
    ]);
    expect(wishes({ familyMinimumUnits: 4 }, { takenByWeek: [1, 2, 1, 0.5] })).toEqual([]);
    expect(wishes({ familyMinimumUnits: null }, { takenByWeek: [0, 0, 0, 0] })).toEqual([]);
  });

  test('are what is older beyond what the shelf brought along, in its worst week', () => {
    expect(wishes({}, { olderByWeek: [0, 3, 1, 2] })).toEqual(['freshness oats 3 units']);
    // Four stand that are past their best from the start: one is eaten a week.
    const old = shortYear(4, { foods: [food('oats', { packs: [pack('bag', 1, 300)], stands: 4 })] });
    const { sets, parameters } = buildModel({
      ...old,
      items: old.items.map((item) => ({
        ...item,
        openingLots: item.openingLots.map((lot) => ({ ...lot, bestQualityUntil: weekAt(-1) })),
      })),
    });
    const [path] = planPaths(sets, buyAsNeeded(sets, parameters));
    const freshness = (olderByWeek: readonly number[]) =>
      itemWishes(sets, parameters, [{ ...(path as PlanPath), olderByWeek }]).filter(
        ({ rung }) => rung === 'freshness',
      );

    expect(path?.olderByWeek).toEqual([3, 2, 1, 0]);
    expect(freshness([3, 2, 1, 0])).toEqual([]);
    expect(freshness([3, 2.5, 1, 0])[0]?.amount).toBe(0.5);
  });

  test('are told in the order of wishes', () => {
    expect(
      wishes(
        { familyMinimumUnits: 9, reserveUnits: 2 },
        {
          takenByWeek: [0, 0, 0, 0],
          missedByWeek: [1, 0, 0, 0],
          stockByWeek: [0, 2, 2, 2],
          olderByWeek: [1, 0, 0, 0],
        },
      ).map((said) => said.replace(/ oats.*/, '')),
    ).toEqual(['family minimum', 'use', 'reserve', 'freshness']);
  });
});

describe('a garden’s crop that a plan leaves', () => {
  const year = shortYear(4, {
    foods: [food('jam', { kind: 'preserve', useByWeek: [0, 4, 4, 4] })],
    sources: [
      sourceOf('tree', { kind: 'garden', lbByWeek: [0, 40, 40, 40] }),
      sourceOf('stall', { lbByWeek: [0, 40, 40, 40] }),
    ],
    recipes: [batchOf('jam-of-plums', 'jam', { jarKind: null, supplies: [] })],
  });
  const wished = (own: readonly number[], bought: readonly number[] = [0, 0, 0, 0]) => {
    const { sets, parameters } = buildModel(year);
    const decision = buyAsNeeded(sets, parameters);
    return gardenWishes(sets, parameters, {
      ...decision,
      buying: { ...decision.buying, produceLb: [bought, own] },
    });
  };

  test('is what the year could have used of it, whatever is bought elsewhere', () => {
    // Twelve units wanted: three batches of five pounds.
    expect(wished([0, 0, 5, 0], [0, 9, 9, 9])).toEqual([
      { rung: 'garden crop', what: 'plum', amount: 10, unit: 'lb' },
    ]);
    expect(wished([0, 5, 5, 5])).toEqual([]);
  });
});

describe('groups that lack something', () => {
  const grains = (change: Partial<PlannedGroup> = {}): PlanningYear =>
    shortYear(2, {
      foods: [
        food('barley', { packs: [pack('bag', 1, 100)], stands: 1 }),
        food('oats', { packs: [pack('bag', 1, 100)] }),
        food('rice', { packs: [pack('bag', 1, 100)] }),
      ],
      groups: [
        {
          id: 'grain' as PlannedGroup['id'],
          name: 'Grain',
          members: (['rice', 'barley', 'oats'] as const).map((itemId, at) => ({
            itemId: itemId as PlannedGroup['members'][number]['itemId'],
            groupUnitsPerUnit: at === 2 ? 2 : 1,
          })),
          totalUnits: 0,
          leastKinds: 0,
          largestShare: 1,
          ...change,
        },
      ],
    });
  /** Units made and bought of barley, oats and rice. */
  const wished = (
    change: Partial<PlannedGroup>,
    ...units: readonly (readonly [made: number, bought: number])[]
  ) => {
    const { sets, parameters } = buildModel(grains(change));
    const paths = planPaths(sets, buyAsNeeded(sets, parameters)).map((path, at) => ({
      ...path,
      madeByWeek: [units[at]?.[0] ?? 0, 0],
      boughtByWeek: [0, units[at]?.[1] ?? 0],
    }));
    return groupWishes(sets, paths).map(
      ({ rung, what, amount, unit }) => `${rung} ${what} ${amount} ${unit}`,
    );
  };

  test('are told by what is missing of their total: what stands, is made and is bought, in units of the group', () => {
    // One of barley stands, one is made; two of oats count double; one of rice.
    const units = [
      [1, 0],
      [0, 2],
      [0, 1],
    ] as const;

    expect(wished({ totalUnits: 7 }, ...units)).toEqual([]);
    expect(wished({ totalUnits: 9.5 }, ...units)).toEqual(['group grain 2.5 units']);
  });

  test('are told by the kinds they lack: one group unit makes a kind', () => {
    expect(wished({ leastKinds: 3 }, [0, 0], [0, 0.5], [0, 0.94])).toEqual(['variety grain 1 kinds']);
    expect(wished({ leastKinds: 3 }, [0, 0], [0, 0.5], [0, 0.95])).toEqual([]);
    expect(wished({ leastKinds: 2 }, [0, 0], [0, 0], [0, 0])).toEqual(['variety grain 1 kinds']);
  });

  test('are told by how far one of them leads beyond its share', () => {
    // Barley 1, oats 6, rice 3, half of ten may be one.
    expect(wished({ largestShare: 0.5 }, [0, 0], [0, 3], [0, 3])).toEqual(['variety grain 1 units']);
    expect(wished({ largestShare: 0.6 }, [0, 0], [0, 3], [0, 3])).toEqual([]);
    expect(wished({ largestShare: 1 }, [0, 0], [0, 3], [0, 3])).toEqual([]);
  });
});
