import { describe, expect, test } from 'vitest';
import { planPaths } from '../../../src/planning/answer/plan-path.ts';
import { buildModel } from '../../../src/planning/model/build-model.ts';
import { buyAsNeeded } from '../../../src/planning/packs/buy-as-needed.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { batchOf, canningOf, food, pack, pint, shortYear, sourceOf, weekAt } from '../short-year.ts';

const year = shortYear(5, {
  foods: [
    food('jam', { jarKind: pint, stands: 1, bestQualityWeeks: 2 }),
    food('oats', { packs: [pack('bag', 2, 300), pack('sack', 5, 600)], useByWeek: [1, 0, 2, 0, 9] }),
  ],
  sources: [sourceOf('tree')],
  recipes: [
    batchOf('jam-of-plums', 'jam', { readyAfterWeeks: 1 }),
    batchOf('quick-jam', 'jam', { yieldLowUnits: 3 }),
  ],
});
const pathsOf = (
  of: PlanningYear,
  batches: Readonly<Record<string, readonly number[]>>,
  packs: readonly (readonly (readonly number[])[])[] = [
    [],
    [
      [0, 0, 0, 0, 0],
      [0, 0, 0, 0, 0],
    ],
  ],
) => {
  const { sets, parameters } = buildModel(of);
  const { buying } = buyAsNeeded(sets, parameters);
  return planPaths(sets, { canning: canningOf(of, batches), buying: { ...buying, packs } });
};

describe('an item through the year', () => {
  test('is made, ready, taken and missed week by week', () => {
    const [jam] = pathsOf(year, { 'jam-of-plums': [0, 1, 0, 0, 2], 'quick-jam': [0, 0, 1, 0, 0] });

    expect(jam).toEqual({
      item: 'jam',
      madeByWeek: [0, 4, 3, 0, 8],
      // What is made in the last week is ready after the year.
      readyByWeek: [0, 0, 7, 0, 0],
      boughtByWeek: [0, 0, 0, 0, 0],
      takenByWeek: [1, 0, 1, 1, 1],
      missedByWeek: [0, 1, 0, 0, 0],
      stockByWeek: [0, 0, 6, 5, 4],
      // Best for two weeks from being made: four of week 1 from week 3 on, of which two are left then and one after; three of
      // week 2 from week 4 on.
      olderByWeek: [0, 0, 0, 2, 4],
    });
  });

  test('is bought in packs of each size, best for its weeks from then on', () => {
    const [, oats] = pathsOf(year, {}, [
      [],
      [
        [1, 0, 0, 0, 1],
        [0, 0, 1, 0, 0],
      ],
    ]);

    expect(oats).toMatchObject({
      boughtByWeek: [2, 0, 5, 0, 2],
      takenByWeek: [1, 0, 2, 0, 6],
      missedByWeek: [0, 0, 0, 0, 3],
      stockByWeek: [1, 1, 4, 4, 0],
    });
    const short = { ...year, items: year.items.map((item) => ({ ...item, bestQualityWeeks: 1 })) };
    expect(
      pathsOf(short, {}, [
        [],
        [
          [1, 0, 0, 0, 0],
          [0, 0, 1, 0, 0],
        ],
      ])[1]?.olderByWeek,
    ).toEqual([0, 1, 0, 4, 0]);
  });

  test('has what stands from the week it is ready in, older from its own on', () => {
    const later = {
      ...year,
      items: year.items.map((item) => ({
        ...item,
        openingLots: item.openingLots.map((lot) => ({
          ...lot,
          units: 3,
          readyFrom: weekAt(1),
          bestQualityUntil: weekAt(3),
        })),
      })),
    };

    expect(pathsOf(later, {})[0]).toMatchObject({
      missedByWeek: [1, 0, 0, 0, 1],
      stockByWeek: [0, 2, 1, 0, 0],
      olderByWeek: [0, 0, 0, 0, 0],
    });
    const lasting = {
      ...later,
      items: later.items.map((item) => ({ ...item, useByWeek: [0, 0, 0, 0, 0] })),
    };
    expect(pathsOf(lasting, {})[0]?.olderByWeek).toEqual([0, 0, 0, 3, 3]);
  });
});
