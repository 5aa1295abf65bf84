import { describe, expect, it } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { canningStage } from '../../../src/planning/model/build-model.ts';
import { householdRules } from '../../../src/planning/model/rules.ts';
import type { PlannedItem, PlanningYear } from '../../../src/planning/planning-year.ts';
import {
  each,
  handMadeYear,
  lot,
  named,
  pack,
  pint,
  produceOf,
  recipe,
  source,
  used,
  week,
} from './hand-made-year.ts';
import { readModel, weekly } from './read-model.ts';

const shopping: PlanningYear = handMadeYear(2, {
  items: [used('jam', [1, 1]), used('salt', [1, 1], { packs: [pack('bag', 1, [90, 70])] })],
  recipes: [
    recipe('boil', 'jam', {
      jarKind: pint,
      produce: [produceOf('plum', 4)],
      supplies: [{ supplyId: 'sugar', quantity: 2 }],
    }),
  ],
  sources: [source('orchard', 'plum', [5, 5], { priceCentsPerLbByWeek: [120, 110].map(asCents) })],
  supplies: [{ id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 4, packPrice: asCents(350) }],
  jars: [{ kind: pint, owned: 0, empty: 0, pack: 12, packPrice: asCents(1500), returnShare: 0 }],
  lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(400) }],
});

describe('money', () => {
  it('is told by what it is spent on', () => {
    const model = readModel(shopping);
    expect(model.term('groceries').cents).toEqual({
      'purchases[salt,bag,w0]': 90,
      'purchases[salt,bag,w1]': 70,
    });
    expect(model.term('produce').cents).toEqual({ 'produce[orchard,w0]': 120, 'produce[orchard,w1]': 110 });
    expect(model.term('supplies').cents).toEqual({ 'supply_bought[sugar,w0]': 350 });
    expect(model.term('jars').cents).toEqual({ 'jars_bought[pint/regular,w0]': 1500 });
    expect(model.term('lids').cents).toEqual({ 'lids_bought[regular,w0]': 400 });
  });
});

describe('what breaks ties', () => {
  it('is a session, what stands from week to week, and stores left at its twentieth', () => {
    const model = readModel(shopping);
    expect(model.term('sessions').cents).toEqual({ 'sessions[w0]': 40, 'sessions[w1]': 40 });
    const kept = model.term('keeping');
    expect(kept.always).toBe(0);
    expect(kept.cents).toEqual({
      'stock[jam,w0]': 0.05,
      'stock[jam,w1]': 0.05,
      'stock[salt,w0]': 0.05,
      'stock[salt,w1]': 0.05,
      'supply_left[sugar,w0]': 0.0025,
      'supply_left[sugar,w1]': 0.0025,
      'jars_empty[pint/regular,w0]': 0.0025,
      'jars_empty[pint/regular,w1]': 0.0025,
      'lids_left[regular,w0]': 0.0025,
      'lids_left[regular,w1]': 0.0025,
    });
  });

  it('is what an item says of its keeping', () => {
    const model = readModel({
      ...shopping,
      items: [
        used('jam', [1, 1], { keepingCentsPerUnitWeek: 3 }),
        used('tea', [1, 1], { keepingCentsPerUnitWeek: 0 }),
      ],
    });
    expect(model.term('keeping').cents).toMatchObject({ 'stock[jam,w0]': 3 });
    expect(model.term('keeping').cents).not.toHaveProperty('stock[tea,w0]');
  });
});

/** Jars that stand at each week's end, added up, where use and shortage are as given. */
function standing(opening: number, use: readonly number[], missedOfLast: number): number {
  let stock = opening;
  return use.reduce((sum, units, at) => {
    stock -= units - (at === use.length - 1 ? missedOfLast : 0);
    return sum + stock;
  }, 0);
}

describe('weeks joined into one', () => {
  const joined = (parts: Partial<PlannedItem>, use = [1, 2, 3, 4]) =>
    readModel(handMadeYear(use.length, { items: [used('jam', use, parts)] }), canningStage);

  it('keep what they would keep one by one', () => {
    const model = joined({ openingLots: [lot('old', 12)], keepingCentsPerUnitWeek: 2 });
    expect(model.columns('stock')).toEqual(['stock[jam,w3]']);
    const { cents, always } = model.term('keeping');
    // 2 stand at the end; in the weeks before 6, 9 and 11.
    expect(standing(12, [1, 2, 3, 4], 0)).toBe(11 + 9 + 6 + 2);
    expect((cents['stock[jam,w3]'] ?? 0) * 2 + always).toBe(2 * (11 + 9 + 6 + 2));
  });

  it('keep the least that a missed unit may have left', () => {
    const model = readModel(
      handMadeYear(5, {
        items: [used('jam', [1, 2, 3, 4, 1], { openingLots: [lot('old', 2)], keepingCentsPerUnitWeek: 2 })],
        recipes: [recipe('boil', 'jam', { allowedByWeek: [true, false, false, false, true] })],
      }),
      canningStage,
    );
    // A span ends where the reserve is looked at: w3.
    const { cents } = model.term('keeping');
    expect(cents['stock[jam,w3]']).toBe(8);
    expect(cents['shortage[jam,w3]']).toBe(-6);
  });

  it('of what is bought keep what stands at their end', () => {
    const use = each(12, 1);
    const model = joined({ packs: [pack('bag', 1, each(12, 90))], keepingCentsPerUnitWeek: 2 }, [...use]);
    const { cents, always } = model.term('keeping');
    expect(cents['stock[jam,w11]']).toBe(2);
    expect(always).toBe(0);
  });

  it('count what is past its date in each of their weeks', () => {
    // 10 past their date from the first week on, eaten first.
    const model = joined({ openingLots: [lot('old', 10, { bestQualityUntil: week(0) })] }, [1, 2, 3]);
    const { cents, always } = model.term('freshness');
    expect(cents).toEqual({ 'older[jam,w2]': 12 });
    // At the weeks' ends 9, 7 and 4: the last counts for all three, the rest is sure.
    expect(always).toBe(4 * (9 - 4 + (7 - 4)));
  });

  it('of what is bought count what is past its date of the opening lots', () => {
    const model = joined(
      {
        openingLots: [lot('old', 30, { bestQualityUntil: week(0) })],
        packs: [pack('bag', 1, each(12, 90))],
      },
      [...each(12, 1)],
    );
    const { cents, always } = model.term('freshness');
    expect(cents['older[jam,w11]']).toBe(4);
    expect(cents['older[jam,w3]']).toBe(4);
    // Of w8 to w11 the first three weeks are sure: 21, 20 and 19 stand.
    expect(always).toBe(4 * (21 + 20 + 19));
  });
});

describe('wishes', () => {
  const year = handMadeYear(6, {
    items: [
      used('jam', each(6, 1), { reserveUnits: 2, yearEndUnits: 3, familyMinimumUnits: 2 }),
      used('peas', each(6, 1), { freezerQuartsPerUnit: 1 }),
    ],
    recipes: [recipe('boil', 'jam'), recipe('freeze', 'peas')],
    groups: [
      {
        id: named('sweet'),
        name: 'Sweet',
        members: [{ itemId: named('jam'), groupUnitsPerUnit: 1 }],
        totalUnits: 5,
        leastKinds: 2,
        largestShare: 0.5,
      },
    ],
  });

  it('cost by their place in the order when they give way', () => {
    const model = readModel(year);
    const { prices } = model.built;
    expect(model.term('use').cents).toMatchObject({
      'shortage[jam,w0]': prices.use,
      'shortage[peas,w5]': prices.use,
      'year_end_shortage[jam]': prices.use,
    });
    expect(model.term('reserve').cents).toEqual({
      'reserve_shortage[jam]': prices.reserve,
      'reserve_at_end_shortage[jam]': 2 * prices.reserve,
    });
    expect(model.term('variety').cents).toEqual({
      'kinds_missing[sweet]': prices.variety,
      'share_over[sweet,jam]': prices.variety,
    });
    expect(model.term('family minimum').cents).toEqual({ 'family_shortage[jam]': prices.group });
    expect(model.term('group').cents).toEqual({ 'group_shortage[sweet]': prices.group });
    expect(model.term('cash and hours').cents).toMatchObject({ 'freezer_over[w0]': prices.pinned });
  });

  it('cost fifty times what whole packs overdraw', () => {
    const model = readModel(year, { ...weekly, wholePacks: true });
    expect(model.term('cash and hours').cents).toMatchObject({ 'fund_over[w0]': 50, 'fund_over[w5]': 50 });
  });

  it('are told each by its name, money first', () => {
    const model = readModel(year, weekly, { ...householdRules, keepingCentsPerUnitWeek: 0 });
    expect(Object.keys(model.built.terms)).toEqual([
      'sessions',
      'freshness',
      'use',
      'reserve',
      'variety',
      'family minimum',
      'group',
      'first jars',
      'cash and hours',
    ]);
  });
});
