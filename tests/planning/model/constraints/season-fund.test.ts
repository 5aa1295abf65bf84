import { expect, it } from 'vitest';
import { asCents } from '../../../../shared/money.ts';
import { canningStage } from '../../../../src/planning/model/build-model.ts';
import { each, handMadeYear, pack, pint, produceOf, recipe, source, used } from '../hand-made-year.ts';
import { readModel, says, weekly } from '../read-model.ts';

const shopping = handMadeYear(3, {
  items: [
    used('jam', each(3, 1)),
    used('salt', each(3, 1), { packs: [pack('bag', 1, [90, 70, 80]), pack('sack', 10, [800, 800, 800])] }),
  ],
  recipes: [
    recipe('boil', 'jam', {
      jarKind: pint,
      produce: [produceOf('plum', 4)],
      supplies: [{ supplyId: 'sugar', quantity: 2 }],
    }),
  ],
  sources: [source('orchard', 'plum', each(3, 10), { priceCentsPerLbByWeek: [120, 110, 100].map(asCents) })],
  supplies: [{ id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 0, packQuantity: 4, packPrice: asCents(350) }],
  jars: [{ kind: pint, owned: 0, empty: 0, pack: 12, packPrice: asCents(1500), returnShare: 0 }],
  lids: [{ mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(400) }],
  fund: { opening: asCents(5000), setAsideByWeek: [40, 50, 60].map(asCents) },
});

it('the fund begins with what is there and the first share, and pays for everything bought', () => {
  const model = readModel(shopping);
  expect(model.row('season_fund[w0]')).toEqual(
    says(
      'fund[w0] + 90 purchases[salt,bag,w0] + 800 purchases[salt,sack,w0] + 120 produce[orchard,w0] + 350 supply_bought[sugar,w0] + 1500 jars_bought[pint/regular,w0] + 400 lids_bought[regular,w0] = 5040',
    ),
  );
  expect(model.row('season_fund[w2]')).toEqual(
    says(
      'fund[w2] - fund[w1] + 80 purchases[salt,bag,w2] + 800 purchases[salt,sack,w2] + 100 produce[orchard,w2] = 60',
    ),
  );
});

it('the fund may be overdrawn only for whole packs', () => {
  expect(readModel(shopping).columns('fund_over')).toEqual([]);
  const whole = readModel(shopping, { ...weekly, wholePacks: true });
  expect(whole.row('season_fund[w1]')?.counts).toMatchObject({ 'fund_over[w1]': -1, 'fund[w0]': -1 });
});

it('the fund keeps back what rounding a bill may cost, never more than there is', () => {
  expect(readModel(shopping).column('fund[w0]')).toMatchObject({ lower: 200, integer: false });
  const poor = readModel({
    ...shopping,
    fund: { opening: asCents(30), setAsideByWeek: [100, 60, 500].map(asCents) },
  });
  expect([0, 1, 2].map((week) => poor.column(`fund[w${week}]`)?.lower)).toEqual([130, 190, 200]);
});

it('weeks joined into one are bought at the lowest of their prices', () => {
  const far = handMadeYear(12, {
    items: [used('salt', each(12, 1), { packs: [pack('bag', 1, [9, 9, 9, 9, 9, 9, 9, 9, 5, 4, 3, 8])] })],
  });
  const model = readModel(far, canningStage);
  expect(model.columns('purchases')).toHaveLength(9);
  expect(model.row('season_fund[w7]')?.counts).toMatchObject({ 'purchases[salt,bag,w7]': 9 });
  expect(model.row('season_fund[w11]')?.counts).toMatchObject({ 'purchases[salt,bag,w11]': 3 });
});
