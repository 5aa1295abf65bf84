import { describe, expect, test } from 'vitest';
import type { ItemId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import { buildModel } from '../../../src/planning/model/build-model.ts';
import { buyAsNeeded, cheapestPack, mayBuy, packsFor } from '../../../src/planning/packs/buy-as-needed.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';
import { batchOf, food, pack, pint, shortYear, sourceOf, weekAt } from '../short-year.ts';

const bought = (year: PlanningYear) => {
  const { sets, parameters } = buildModel(year);
  return buyAsNeeded(sets, parameters);
};
const packs = (year: PlanningYear) => bought(year).buying.packs;
const fund = (opening: number, ...setAside: number[]) => ({
  opening: asCents(opening),
  setAsideByWeek: setAside.map(asCents),
});
const oats = (change: Parameters<typeof food>[1] = {}) =>
  food('oats', { packs: [pack('bag', 2, 300)], ...change });

describe('the plan that needs no solver', () => {
  test('buys whole packs in the week in which it would run short, and eats of them until the next', () => {
    expect(packs(shortYear(5, { foods: [oats()] }))).toEqual([[[1, 0, 1, 0, 1]]]);
    expect(packs(shortYear(4, { foods: [oats({ stands: 2.5 })] }))).toEqual([[[0, 0, 1, 0]]]);
    expect(packs(shortYear(2, { foods: [oats({ useByWeek: [5, 0] })] }))).toEqual([[[3, 0]]]);
  });

  test('takes no part of a unit that is only rounding for one that is short', () => {
    expect(packs(shortYear(2, { foods: [oats({ stands: 0.3, useByWeek: [0.1 + 0.2, 0] })] }))).toEqual([
      [[0, 0]],
    ]);
  });

  test('counts what stands from the week in which it is ready', () => {
    const year = shortYear(3, { foods: [oats({ stands: 3 })] });
    const later = {
      ...year,
      items: year.items.map((item) => ({
        ...item,
        openingLots: item.openingLots.map((lot) => ({ ...lot, readyFrom: weekAt(1) })),
      })),
    };

    expect(packs(later)).toEqual([[[1, 0, 0]]]);
  });

  test('buys each week in the pack that is cheapest per unit in it', () => {
    const two = food('oats', {
      packs: [pack('bag', 2, [200, 200, 300]), pack('sack', 3, [330, 270, 330])],
      useByWeek: [2, 3, 3],
    });

    expect(packs(shortYear(3, { foods: [two] }))).toEqual([
      [
        [1, 0, 0],
        [0, 1, 1],
      ],
    ]);
  });

  test('buys what the fund holds in the week, food after food', () => {
    const dear = food('rice', { packs: [pack('bag', 1, 400)], useByWeek: [2, 2, 0] });

    // Rice comes after oats: 100 cents are left of 400, then 500 more.
    expect(packs({ ...shortYear(3, { foods: [dear, oats()] }), fund: fund(400, 0, 500, 300) })).toEqual([
      [[1, 0, 1]],
      [[0, 1, 0]],
    ]);
    expect(packs({ ...shortYear(3, { foods: [oats()] }), fund: fund(299, 0, 1, 0) })).toEqual([[[0, 1, 0]]]);
    expect(packs({ ...shortYear(3, { foods: [oats()] }), fund: fund(0, 300, 0, 0) })).toEqual([[[1, 0, 0]]]);
  });

  test('counts what was missed as missed: nobody eats it twice the week after', () => {
    expect(packs({ ...shortYear(3, { foods: [oats()] }), fund: fund(0, 0, 600, 0) })).toEqual([[[0, 1, 0]]]);
  });

  test('buys nothing while nobody is at home, and no line that is skipped', () => {
    const year = shortYear(4, { foods: [oats(), food('rice', { packs: [pack('bag', 1, 100)] })] });
    const away = { ...year, time: { ...year.time, awayByWeek: [true, false, false, true] } };
    const skipped = {
      ...year,
      skipped: [{ kind: 'item' as const, what: 'oats', week: weekAt(0) }],
    };

    expect(packs(away)).toEqual([[[0, 1, 0, 0]], [[0, 1, 1, 0]]]);
    expect(packs(skipped)).toEqual([[[0, 1, 0, 1]], [[1, 1, 1, 1]]]);
  });

  test('puts nothing up and buys nothing for it', () => {
    const year = shortYear(2, {
      foods: [food('jam', { jarKind: pint })],
      sources: [sourceOf('stall')],
      recipes: [batchOf('jam-of-plums', 'jam')],
      supplies: [
        { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 5, packPrice: asCents(400) },
      ],
      jars: [{ kind: pint, owned: 0, empty: 0, pack: 6, packPrice: asCents(900), returnShare: 0 }],
      lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(300) }],
    });
    const none = [[0, 0]];

    expect(bought(year)).toEqual({
      canning: { batches: none, sessionsByWeek: [0, 0] },
      buying: {
        packs: [[]],
        produceLb: none,
        supplyPacks: none,
        jarPacks: none,
        lidBoxes: none,
        materials: { freeze: none, thaw: none, waiting: none, frozen: none, lost: none },
      },
    });
  });
});

describe('the cheapest pack', () => {
  const [item] = shortYear(2, {
    foods: [food('oats', { packs: [pack('a', 2, [300, 300]), pack('b', 4, [600, 590]), pack('c', 1, 151)] })],
  }).items;

  test('is that of the least price per unit in the week, of equal ones the first', () => {
    expect(cheapestPack(item ?? { packs: [] }, 0)).toEqual({ at: 0, units: 2, price: 300 });
    expect(cheapestPack(item ?? { packs: [] }, 1)).toEqual({ at: 1, units: 4, price: 590 });
  });

  test('is none of what is not sold', () => {
    expect(cheapestPack({ packs: [] }, 0)).toBeNull();
  });
});

describe('packs for what is short', () => {
  test.each([
    [1, 2, 300, 1000, 1],
    [2, 2, 300, 1000, 1],
    [2.1, 2, 300, 1000, 2],
    [20, 2, 300, 1000, 3],
    [20, 2, 300, 900, 3],
    [20, 2, 300, 899, 2],
    [0, 2, 300, 1000, 0],
    [-5, 2, 300, 1000, 0],
    [5, 2, 300, -1000, 0],
    // What costs nothing is bought for a cent in hand, never without end.
    [5, 1, 0, 3, 3],
  ])('%d units in packs of %d at %d cents, with %d cents: %d', (short, units, price, cents, count) => {
    expect(packsFor(short, { units, price }, cents)).toBe(count);
  });
});

describe('a week in which something may be bought', () => {
  const year = shortYear(3, {
    skipped: [
      { kind: 'item', what: 'oats', week: weekAt(1) },
      { kind: 'item', what: 'barley', week: weekAt(0) },
    ],
  });
  const may = (item: string, of: PlanningYear = year) =>
    [0, 1, 2].map((week) => mayBuy(of, item as ItemId, week));

  test('is one in which somebody is at home and the line is not skipped', () => {
    expect(may('oats')).toEqual([true, false, true]);
    expect(may('rice')).toEqual([true, true, true]);
    expect(may('oats', shortYear(3))).toEqual([true, true, true]);
    expect(may('oats', { ...year, time: { ...year.time, awayByWeek: [true, false, false] } })).toEqual([
      false,
      false,
      true,
    ]);
    // Another kind of line of the same name skips nothing here.
    expect(may('oats', { ...year, skipped: [{ kind: 'supply', what: 'oats', week: weekAt(1) }] })).toEqual([
      true,
      true,
      true,
    ]);
  });
});
