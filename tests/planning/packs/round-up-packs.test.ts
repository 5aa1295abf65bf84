import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { roundUpPacks } from '../../../src/planning/packs/round-up-packs.ts';
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

function roundedUp(
  year: PlanningYear,
  told: Readonly<Record<string, number>> = {},
  batches: Readonly<Record<string, readonly number[]>> = {},
) {
  const canning = canningOf(year, batches);
  const built = packsAround(year, canning);
  return roundUpPacks(built, valuesOf(built, told), canning);
}

const fund = (opening: number, ...setAside: number[]) => ({
  opening: asCents(opening),
  setAsideByWeek: setAside.map(asCents),
});
const oats = (change: Parameters<typeof food>[1] = {}) =>
  food('oats', { packs: [pack('bag', 2, 300)], ...change });

describe('what is eaten, without a search', () => {
  test('is bought in the week it runs short in, whatever the values say of it', () => {
    const year = shortYear(4, { foods: [oats()] });

    expect(roundedUp(year, byWeek('purchases[oats,bag,*]', [9, 9, 9, 9])).packs).toEqual([[[1, 0, 1, 0]]]);
  });

  test('counts what stands, and what is made once it is ready', () => {
    const jam = oats({ jarKind: pint, stands: 1 });
    const year = shortYear(6, {
      foods: [jam],
      sources: [sourceOf('stall')],
      recipes: [batchOf('jam-of-plums', 'oats', { readyAfterWeeks: 2, supplies: [], yieldLowUnits: 2 })],
    });

    // One stands, a batch of the second week brings two in the fourth.
    expect(roundedUp(year, {}, { 'jam-of-plums': [0, 1, 0, 0, 0, 0] }).packs).toEqual([[[0, 1, 0, 0, 0, 1]]]);
    expect(roundedUp(year, {}, { 'jam-of-plums': [0, 0, 0, 0, 0, 2] }).packs).toEqual([[[0, 1, 0, 1, 0, 1]]]);
  });

  test('is bought for its reserve once the use of all is served', () => {
    const held = food('barley', { packs: [pack('bag', 1, 100)], reserveUnits: 2 });
    const year = shortYear(3, { foods: [held, oats()] });

    expect(roundedUp(year).packs).toEqual([[[3, 1, 1]], [[1, 0, 1]]]);
    // 400 cents: a bag of each is eaten; none is left for the reserve, though barley comes first.
    expect(roundedUp({ ...year, fund: fund(400, 0, 0, 0) }).packs).toEqual([[[1, 0, 0]], [[1, 0, 0]]]);
    expect(roundedUp({ ...year, fund: fund(500, 0, 0, 0) }).packs).toEqual([[[2, 0, 0]], [[1, 0, 0]]]);
  });

  test('hands over at the end what the year after needs, the reserve with it', () => {
    const year = shortYear(3, {
      foods: [oats({ packs: [pack('bag', 1, 100)], yearEndUnits: 3, reserveUnits: 1 })],
    });

    expect(roundedUp(year).packs).toEqual([[[2, 1, 4]]]);
  });

  test('is bought in no week of absence and in none in which its line is skipped', () => {
    const year = shortYear(4, { foods: [oats({ packs: [pack('bag', 1, 100)] })] });
    const away = { ...year, time: { ...year.time, awayByWeek: [false, true, false, false] } };
    const skipped = { ...year, skipped: [{ kind: 'item' as const, what: 'oats', week: weekAt(2) }] };

    expect(roundedUp(away).packs).toEqual([[[1, 0, 1, 1]]]);
    expect(roundedUp(skipped).packs).toEqual([[[1, 1, 0, 1]]]);
  });

  test('is bought in the pack cheapest per unit that week', () => {
    const two = food('oats', { packs: [pack('bag', 1, [100, 100]), pack('sack', 2, [150, 250])] });

    expect(
      roundedUp(
        shortYear(3, {
          foods: [
            food('oats', {
              useByWeek: [2, 1, 0],
              packs: [pack('bag', 1, [100, 100, 1]), pack('sack', 2, [150, 250, 9])],
            }),
          ],
        }),
      ).packs,
    ).toEqual([
      [
        [0, 1, 0],
        [1, 0, 0],
      ],
    ]);
    expect(roundedUp(shortYear(2, { foods: [two] })).packs).toEqual([
      [
        [0, 0],
        [1, 0],
      ],
    ]);
  });

  test('is none of what is not sold', () => {
    expect(roundedUp(shortYear(2, { foods: [food('oats')] })).packs).toEqual([[]]);
  });
});

describe('what canning needs, without a search', () => {
  const kitchen = (change: Partial<PlanningYear> = {}): PlanningYear => ({
    ...shortYear(4, {
      foods: [food('jam', { jarKind: pint, useByWeek: [0, 0, 0, 0] }), oats()],
      sources: [sourceOf('stall', { priceCentsPerLbByWeek: [33, 33, 33, 33].map(asCents) })],
      recipes: [batchOf('jam-of-plums', 'jam')],
      supplies: [
        { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 5, packPrice: asCents(400) },
      ],
      jars: [{ kind: pint, owned: 0, empty: 0, pack: 6, packPrice: asCents(900), returnShare: 0 }],
      lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(250) }],
    }),
    ...change,
  });
  // One batch in the third week: five pounds, two of sugar, four jars and lids.
  const batches = { 'jam-of-plums': [0, 0, 1, 0] };
  const told = {
    ...byWeek('supply_bought[sugar,*]', [null, 0.4]),
    ...byWeek('jars_bought[pint/regular,*]', [null, 0.7]),
    ...byWeek('lids_bought[regular,*]', [null, 0.4]),
    ...byWeek('produce[stall,*]', [0, 0, 5.005, 0]),
  };

  test('is bought in whole packs, the week before, and its produce as the values have it', () => {
    const { supplyPacks, jarPacks, lidBoxes, produceLb } = roundedUp(kitchen(), told, batches);

    expect({ supplyPacks, jarPacks, lidBoxes }).toEqual({
      supplyPacks: [[0, 1, 0, 0]],
      jarPacks: [[0, 1, 0, 0]],
      lidBoxes: [[0, 1, 0, 0]],
    });
    expect(produceLb).toEqual([[0, 0, 5.01, 0]]);
  });

  // Sugar 400, jars 900, lids 250 in the second week; 5.01 lb at 33 cents, 166 rounded up, in the third: 1716 in all.
  test.each([
    ['a cent too little', 2015, 0],
    ['just enough', 2016, 1],
  ])('is never spent on what is eaten: with %s for a bag of oats as well', (_, opening, bags) => {
    expect(roundedUp(kitchen({ fund: fund(opening, 0, 0, 0, 0) }), told, batches).packs[1]).toEqual([
      [bags, 0, 0, 0],
    ]);
  });

  test('is paid for by what is set aside until then, and what comes after it is there to eat', () => {
    // 600 and 1116 pay for the 1716 of canning, the last 166 of them in the third week: then 300 are left.
    const year = kitchen({ fund: fund(600, 0, 1116, 300, 0) });

    expect(roundedUp(year, told, batches).packs[1]).toEqual([[0, 0, 1, 0]]);
    expect(roundedUp(kitchen({ fund: fund(600, 0, 1116, 0, 300) }), told, batches).packs[1]).toEqual([
      [0, 0, 0, 1],
    ]);
  });
});
