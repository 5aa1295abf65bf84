import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import type { BuiltModel } from '../../../src/planning/model/build-model.ts';
import { type PackRounding, packRoundings, roundedPacks } from '../../../src/planning/packs/round-packs.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import {
  batchOf,
  byWeek,
  canningOf,
  food,
  pack,
  packsAround,
  pint,
  shortYear,
  sourceOf,
  valuesOf,
  weekAt,
} from '../short-year.ts';

/** Packs by week of one column's name; null where the model has none. */
function bought(
  built: BuiltModel,
  told: Readonly<Record<string, number>>,
  rounding: PackRounding,
  name = 'purchases[oats,bag,*]',
): (number | null)[] {
  const bounds = roundedPacks(built, valuesOf(built, told), rounding);
  return built.sets.weekIndexes.map((week) => {
    const at = built.model.columns.findIndex((column) => column.name === name.replace('*', weekAt(week)));
    const both = bounds.get(at);
    if (both === undefined) return null;
    expect(both[0]).toBe(both[1]);
    return both[0];
  });
}

const oats = (change: Parameters<typeof food>[1] = {}) =>
  food('oats', { packs: [pack('bag', 2, 300)], ...change });
const oatsYear = (weeks: number, change: Parameters<typeof food>[1] = {}) =>
  packsAround(shortYear(weeks, { foods: [oats(change)] }));

const fourWeeks = oatsYear(4);
const twoSizes = packsAround(
  shortYear(4, { foods: [food('oats', { packs: [pack('bag', 2, 300), pack('sack', 5, 600)] })] }),
);

describe('half a bag a week, of bags of two units', () => {
  const built = fourWeeks;
  const halves = {
    ...byWeek('purchases[oats,bag,*]', [0.5, 0.5, 0.5, 0.5]),
    ...byWeek('stock[oats,*]', [0, 0, 0, 0]),
  };

  test.each([
    ['late', [1, 0, 1, 0]],
    ['steady', [1, 0, 1, 0]],
    ['bare', [1, 0, 1, 0]],
    ['behind', [0, 1, 0, 1]],
  ] as const)('%s', (rounding, packs) => {
    expect(bought(built, halves, rounding)).toEqual(packs);
  });
});

describe('what a sale makes cheap in the first week', () => {
  const built = fourWeeks;
  const sale = {
    ...byWeek('purchases[oats,bag,*]', [2.5, 0, 0, 0]),
    ...byWeek('stock[oats,*]', [4, 3, 2, 1]),
  };

  test('is bought with it, rounded down where nothing runs short by that', () => {
    expect(bought(built, sale, 'steady')).toEqual([2, 0, 0, 0]);
    expect(bought(built, sale, 'behind')).toEqual([2, 0, 0, 0]);
  });

  test('is bought as late as will do, whatever the sale', () => {
    expect(bought(built, sale, 'late')).toEqual([1, 0, 1, 0]);
    expect(bought(built, sale, 'bare')).toEqual([1, 0, 1, 0]);
  });
});

describe('rounding noise of a solver', () => {
  test('buys no bag more, and counts a bag paid for but for noise', () => {
    const built = oatsYear(2);
    const noisy = {
      ...byWeek('purchases[oats,bag,*]', [1 + 1e-8, 0]),
      ...byWeek('stock[oats,*]', [1, 0]),
    };
    const early = { ...byWeek('purchases[oats,bag,*]', [0, 1 - 1e-8]), ...byWeek('stock[oats,*]', [0, 0]) };

    expect(bought(built, noisy, 'steady')).toEqual([1, 0]);
    expect(bought(built, early, 'behind')).toEqual([0, 1]);
  });
});

describe('a reserve of two units', () => {
  // Nine units bought at once: eight are eaten or wanted by the last week, a reserve of two before it.
  const told = {
    ...byWeek('purchases[oats,bag,*]', [4.5, 0, 0, 0]),
    ...byWeek('stock[oats,*]', [8, 7, 6, 5]),
  };

  test('stands in every week; in the last with what that hands over', () => {
    // Needed by each week: 1 + 2, 2 + 2, 3 + 2, 4 + 2 + 3 units.
    expect(bought(oatsYear(4, { reserveUnits: 2, yearEndUnits: 3 }), told, 'late')).toEqual([2, 0, 1, 2]);
  });

  test('is left to its own where packs come as late as use allows; what the year hands over is not', () => {
    // Needed by each week: 1, 2, 3, 4 + 3 units.
    expect(bought(oatsYear(4, { reserveUnits: 2, yearEndUnits: 3 }), told, 'bare')).toEqual([1, 0, 1, 2]);
  });

  test('is looked at in no week in which nobody can have shopped yet', () => {
    const away = [true, false, false, false];
    const built = packsAround(
      shortYear(4, {
        foods: [oats({ reserveUnits: 2, stands: 1 })],
        time: {
          awayByWeek: away,
          maxSessionsByWeek: [1, 1, 1, 1],
          hoursPerSessionByWeek: [5, 5, 5, 5],
          setUpMinutes: 30,
        },
      }),
    );
    const late = {
      ...byWeek('purchases[oats,bag,*]', [null, 2.5, 0, 0]),
      ...byWeek('stock[oats,*]', [0, 4, 3, 2]),
    };

    // Needed by each week: 0, 1 + 2, 2 + 2, 3 + 2 units.
    expect(bought(built, late, 'late')).toEqual([null, 2, 0, 1]);
  });

  test('that the relaxed answer does not reach is asked for as far as it does', () => {
    const short = {
      ...byWeek('purchases[oats,bag,*]', [0.5, 0.5, 1, 0]),
      ...byWeek('stock[oats,*]', [0, 0, 1, 0]),
    };

    expect(bought(oatsYear(4, { reserveUnits: 2 }), short, 'late')).toEqual([1, 0, 1, 0]);
  });

  test('of an emergency shelf that still lacks some is held like any other', () => {
    const built = oatsYear(4, { emergencyUnits: 2 });

    // Needed by each week: 1 + 2, 2 + 2, 3 + 2 and, handed over, 4 + 2 units.
    expect(bought(built, told, 'late')).toEqual([2, 0, 1, 0]);
    expect(bought(built, told, 'bare')).toEqual([1, 0, 1, 1]);
  });
});

describe('two sizes of pack', () => {
  const built = twoSizes;
  const told = {
    ...byWeek('purchases[oats,bag,*]', [0.5, 0, 0, 0]),
    ...byWeek('purchases[oats,sack,*]', [0, 0.6, 0, 0]),
    ...byWeek('stock[oats,*]', [0, 2, 1, 0]),
  };

  test('only the one of which most is bought leans on what stands over', () => {
    // One unit in bags and three in sacks: the sack may wait for its spare, the bag may not.
    expect(bought(built, told, 'late', 'purchases[oats,bag,*]')).toEqual([1, 0, 0, 0]);
    expect(bought(built, told, 'late', 'purchases[oats,sack,*]')).toEqual([0, 1, 0, 0]);
  });

  test('the spare of the larger one makes it later, that of the other does not', () => {
    const spare = {
      ...byWeek('purchases[oats,bag,*]', [0.5, 0, 0, 0]),
      ...byWeek('purchases[oats,sack,*]', [0.8, 0, 0, 0]),
      ...byWeek('stock[oats,*]', [4, 3, 2, 1]),
    };

    expect(bought(built, spare, 'late', 'purchases[oats,bag,*]')).toEqual([1, 0, 0, 0]);
    // Four units less a spare of four, three, two, one.
    expect(bought(built, spare, 'late', 'purchases[oats,sack,*]')).toEqual([0, 1, 0, 0]);
  });

  test('are each rounded for themselves, week by week', () => {
    const both = {
      ...byWeek('purchases[oats,bag,*]', [1.2, 0, 0, 0]),
      ...byWeek('purchases[oats,sack,*]', [0, 0, 0.9, 0]),
      ...byWeek('stock[oats,*]', [0, 0, 0, 0]),
    };

    // Of the bag one and a fifth are bought, more than of the sack.
    expect(bought(built, both, 'late', 'purchases[oats,bag,*]')).toEqual([2, 0, 0, 0]);
    expect(bought(built, both, 'late', 'purchases[oats,sack,*]')).toEqual([0, 0, 1, 0]);
  });
});

describe('weeks in which nobody can shop', () => {
  test('are bought for in the last week before them', () => {
    const built = packsAround(
      shortYear(5, {
        foods: [oats()],
        time: {
          awayByWeek: [false, false, true, true, false],
          maxSessionsByWeek: [1, 1, 1, 1, 1],
          hoursPerSessionByWeek: [5, 5, 5, 5, 5],
          setUpMinutes: 30,
        },
      }),
    );
    const told = {
      ...byWeek('purchases[oats,bag,*]', [0.5, 1.5, null, null, 0.5]),
      ...byWeek('stock[oats,*]', [0, 2, 1, 0, 0]),
    };

    expect(bought(built, told, 'late')).toEqual([1, 1, null, null, 1]);
    // Never back before a week in which one can.
    expect(bought(built, { ...told, ...byWeek('stock[oats,*]', [0, 2, 2, 2, 0]) }, 'late')).toEqual([
      1,
      0,
      null,
      null,
      2,
    ]);
  });
});

describe('what canning needs', () => {
  const jam = food('jam', { kind: 'preserve', jarKind: pint });
  const kitchen = (weeks: number, freshDays?: number): PlanningYear =>
    shortYear(weeks, {
      foods: [jam],
      sources: [sourceOf('stall')],
      recipes: [batchOf('jam-of-plums', 'jam')],
      supplies: [
        {
          id: 'sugar',
          name: 'Sugar',
          unit: 'lb',
          onHand: 0,
          packQuantity: 5,
          packPrice: asCents(400),
          ...(freshDays === undefined ? {} : { freshDays }),
        },
      ],
      jars: [{ kind: pint, owned: 0, empty: 0, pack: 6, packPrice: asCents(900), returnShare: 0 }],
      lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(300) }],
    });
  const of = (year: PlanningYear, batches: readonly number[]) =>
    packsAround(year, canningOf(year, { 'jam-of-plums': batches }));

  test('comes the week before it is used: what the first week needs, and the second, in the first', () => {
    const year = kitchen(4);
    const built = of(year, [1, 2, 1, 1]);
    // Two pounds, four, two, two. What is bought for the first two weeks is one heap.
    const told = {
      ...byWeek('supply_bought[sugar,*]', [1.2, 0.4, 0.4]),
      ...byWeek('supply_left[sugar,*]', [4, 0, 0, 0]),
    };

    expect(bought(built, told, 'late', 'supply_bought[sugar,*]')).toEqual([2, 0, 0, null]);
    // Two pounds and a half stand over in the third week: what is bought in the second may wait for them.
    expect(
      bought(
        built,
        {
          ...byWeek('supply_bought[sugar,*]', [1.2, 0.9, 0.4]),
          ...byWeek('supply_left[sugar,*]', [4, 0, 2.5, 0]),
        },
        'late',
        'supply_bought[sugar,*]',
      ),
    ).toEqual([2, 0, 1, null]);
  });

  test('never waits for money: only what is eaten does', () => {
    const built = of(kitchen(4), [1, 0, 1, 0]);
    const told = {
      ...byWeek('supply_bought[sugar,*]', [0.4, 0.4, 0]),
      ...byWeek('supply_left[sugar,*]', [0, 0, 0, 0]),
      ...byWeek('jars_bought[pint/regular,*]', [0.7, 0.7, 0]),
      ...byWeek('jars_empty[pint/regular,*]', [0, 0, 0, 0]),
      ...byWeek('lids_bought[regular,*]', [0.3, 0.3, 0]),
      ...byWeek('lids_left[regular,*]', [0, 0, 0, 0]),
    };
    for (const rounding of packRoundings) {
      expect(bought(built, told, rounding, 'supply_bought[sugar,*]')).toEqual([1, 0, 0, null]);
      expect(bought(built, told, rounding, 'jars_bought[pint/regular,*]')).toEqual([1, 1, 0, null]);
      expect(bought(built, told, rounding, 'lids_bought[regular,*]')).toEqual([1, 0, 0, null]);
    }
  });

  test('what spoils is bought in its own week, each week rounded up by itself', () => {
    const built = of(kitchen(3, 2), [1, 2, 1]);
    const told = byWeek('supply_bought[sugar,*]', [0.4, 0.8, 1.2]);

    expect(bought(built, told, 'late', 'supply_bought[sugar,*]')).toEqual([1, 1, 2]);
    expect(bought(built, told, 'behind', 'supply_bought[sugar,*]')).toEqual([1, 1, 2]);
  });
});
